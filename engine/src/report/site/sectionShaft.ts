import type { Shaft } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { box, line, type Mark, type PaperBox, type Shape, standFor } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { type Look, moved, section, silhouette } from '../outline/picture.ts'
import { clippedLoop } from '../paper/clip.ts'
import { asOne, hatch } from '../paper/hatch.ts'
import { EDGE, FINE, HIDDEN, THIN } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { shapeOf } from '../views/scene.ts'
import { barrierMarks, beamMarks, concrete, eyeMarks, rectangle, wallRadius, within } from '../views/shaft.ts'
import { chordError, LAID_CHORD } from './chord.ts'
import type { Laid, SiteSubject } from './subject.ts'

/** Wall, base slab, capping beam and barrier, cut; the eyes where the plane passes through them. */
export function shaftCut(shaft: Shaft, placing: Placing, window: PaperBox, withEyes: boolean): Mark[] {
  const inner = (shaft.clearDiameter.value as number) / 2
  const outer = wallRadius(shaft)
  const [collar, slab] = [shaft.collar.value as number, shaft.slabTop.value as number]
  const cut = (l: number, r: number, b: number, t: number): Mark[] =>
    concrete(within(rectangle(placing, l, r, b, t), window))
  const wall = (s: number): Mark[] =>
    outer > inner
      ? cut(Math.min(s * inner, s * outer), Math.max(s * inner, s * outer), shaft.wall.toe.value as number, collar)
      : [
          line(
            [onPaper(placing, [s * inner, collar]), onPaper(placing, [s * inner, shaft.wall.toe.value as number])],
            EDGE,
          ),
        ]
  return [
    standFor('/shaft', 'the shaft: wall, capping beam and base slab', [
      ...wall(-1),
      ...wall(1),
      ...cut(-inner, inner, slab - (shaft.slabThickness.value as number), slab),
      ...beamMarks(shaft, cut),
      ...barrierMarks(shaft, placing),
    ]),
    ...(withEyes ? eyeMarks(shaft, placing, window) : []),
  ]
}

/** The bed under the machine along the drive. */
export function cradleAlong({ stages }: SiteSubject, placing: Placing): Mark[] {
  const { cradle, shaft } = stages.model.project
  if (cradle?.thickness?.value === undefined || shaft === undefined) return []
  const slab = shaft.slabTop.value as number
  const [a, b] = cradle.along.map((x) => x.value as number) as [number, number]
  const bed = rectangle(placing, Math.min(a, b), Math.max(a, b), slab, slab + cradle.thickness.value)
  return [standFor('/cradle', 'the cradle under the machine', [box(bed, { fill: 'concrete', stroke: THIN })])]
}

const ARC = 24

/** The bed across the drive: up to the ends of its contact arc. */
export function cradleAcross({ stages }: SiteSubject, placing: Placing): Mark[] {
  const { cradle, shaft, machine } = stages.model.project
  const radius = cradle?.radius?.value ?? (machine?.shieldDiameter?.value ?? 0) / 2
  const half = cradle?.contactHalfAngle.value
  if (cradle?.thickness?.value === undefined || shaft === undefined || half === undefined || radius === 0) return []
  const slab = shaft.slabTop.value as number
  const middle = slab + cradle.thickness.value + radius
  const arc = Array.from({ length: ARC + 1 }, (_, k): Point2 => {
    const angle = -half + (2 * half * k) / ARC
    return [radius * Math.sin(angle), middle - radius * Math.cos(angle)]
  })
  const reach = radius * Math.sin(half)
  const bed: Shape = {
    kind: 'shape',
    loops: [loopOnPaper(placing, [[-reach, slab], ...arc, [reach, slab]])],
    fill: 'concrete',
    stroke: THIN,
  }
  return [standFor('/cradle', 'the cradle under the machine', [bed])]
}

/** What is left of the machine: its outline, and its cut by the plane through the shaft's centre. */
export function machineCut({ remaining }: SiteSubject, look: Look, placing: Placing, window: PaperBox): Mark[] {
  if (remaining.length === 0) return []
  const chord = chordError(placing.scale)
  const clipped = (loops: readonly Point2[][], style: Pick<Shape, 'fill' | 'stroke'>): Shape => {
    const shape = shapeOf(loops, placing, style)
    return { ...shape, loops: shape.loops.map((loop) => clippedLoop(loop, window)).filter((loop) => loop.length > 2) }
  }
  const behind = clipped(silhouette(remaining, look, chord), { fill: 'pale', stroke: FINE })
  const cut = clipped(section(remaining, { look, through: [0, 0, 0] }, chord), { fill: 'paper', stroke: EDGE })
  return [
    standFor('/machine', 'what is left of the machine in the shaft', [
      behind,
      ...(cut.loops.length === 0 ? [] : [cut, ...asOne(hatch(cut.loops, 1.1, Math.PI / 4, FINE))]),
    ]),
  ]
}

/** Fixed things as they are seen from the side, behind the cut or before it. */
export function thingsSeen(shaft: Shaft, across: 'x' | 'y', placing: Placing, window: PaperBox): Mark[] {
  const sign = across === 'x' ? 1 : -1
  return Object.entries(shaft.obstructions).map(([id, o]) => {
    const [a, b] = o[across].map((v) => sign * (v.value as number)) as [number, number]
    const [low, high] = o.z.map((v) => v.value as number) as [number, number]
    const side = within(
      rectangle(placing, Math.min(a, b), Math.max(a, b), Math.min(low, high), Math.max(low, high)),
      window,
    )
    return standFor(pointerOf('shaft', 'obstructions', id), o.what, [box(side, { stroke: HIDDEN })])
  })
}

/** A piece on a bay as it is seen along the drive. */
export interface PieceSeen {
  laid: Laid
  bay: string
  loops: Point2[][]
}

/** Pieces on the bays that the plane cuts. */
export const piecesSeen = ({ bays }: SiteSubject, cut: ReadonlySet<string>, look: Look): PieceSeen[] =>
  bays
    .filter((b) => cut.has(b.bay))
    .flatMap(({ bay, laid }) =>
      laid.map((l) => ({ laid: l, bay, loops: silhouette(moved(l.shapes, l.shift), look, LAID_CHORD) })),
    )

/** The pieces as shapes; the one that this step brings has the thicker outline. */
export const pieceMarks = (seen: readonly PieceSeen[], placing: Placing): Mark[] =>
  seen.map(({ laid, loops }) =>
    standFor(pointerOf('pieces', laid.piece), `${laid.name}, since ${laid.step}`, [
      shapeOf(loops, placing, { fill: 'steel', stroke: laid.now ? EDGE : THIN }),
    ]),
  )
