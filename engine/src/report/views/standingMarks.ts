import { convexHull } from '../../numeric/polygon.ts'
import { add, IDENTITY, place, scale, type Vec3 } from '../../numeric/vector.ts'
import { box, type Mark, type PaperBox, type Shape, type Stroke } from '../drawing.ts'
import { frameOf, type Point2 } from '../outline/convex.ts'
import { distanceBetween } from '../outline/distance.ts'
import { LOOKING_DOWN, LOOKING_LEFT, type Look, moved, type Standing, seen, silhouette } from '../outline/picture.ts'
import { clippedLoop } from '../paper/clip.ts'
import { CHAIN, FINE, THIN } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { machineAt, type SheetStages, standing, subjectOf } from '../sheet/subject.ts'
import type { LeastGap } from './leastGaps.ts'
import { bayFrame } from './planSite.ts'
import type { Scene } from './scene.ts'

/** Greatest distance of a chord from its arc, m: what only stands by is drawn more coarsely. */
const COARSE = 0.05
/** The lift stage bounds what stands by its reach in 24 directions: its gap may end so far from the outline, m. */
const BESIDE = 0.5

type Loops = readonly (readonly Point2[])[]

/** What stands on the bays beside the way where a view has the gap to it: its bay, itself, and the piece where it is set down there. */
export function standingMarks(
  gaps: readonly LeastGap[],
  { subject: { stages, id } }: Scene,
  look: Look,
  placing: Placing,
  window: PaperBox,
): Mark[] {
  return gaps.flatMap(({ kind, what, from, along, value }): Mark[] => {
    if (kind !== 'standing') return []
    const to = add(from, scale(along, Math.max(0, value)))
    const own = nearTo(from, restingShapes(stages, id))
    const drawn = (loops: Loops, pens: { fill?: 'steel'; stroke: Stroke }): Shape[] =>
      loops.flatMap((loop): Shape[] => {
        const cut = clippedLoop(loopOnPaper(placing, loop), window)
        return cut.length > 2 ? [{ kind: 'shape', loops: [cut], ...pens }] : []
      })
    return [
      ...(look === LOOKING_DOWN ? bayMarks(stages, to, placing, window) : []),
      ...drawn(thingLoops(stages, what, to, look), { fill: 'steel', stroke: THIN }),
      ...drawn(own === undefined ? [] : silhouette(own, look, COARSE), { stroke: CHAIN }),
    ]
  })
}

/** The bay that a place lies on, or just beside. */
export function bayAt({ model }: SheetStages, [x, y]: Vec3): string | undefined {
  return Object.entries(model.project.bays).find(([id, bay]) => {
    const { left, right, bottom, top } = bayFrame({ id, bay })
    return x > left - BESIDE && x < right + BESIDE && y > bottom - BESIDE && y < top + BESIDE
  })?.[0]
}

function bayMarks(stages: SheetStages, at: Vec3, placing: Placing, window: PaperBox): Mark[] {
  const id = bayAt(stages, at)
  const bay = id === undefined ? undefined : stages.model.project.bays[id]
  if (id === undefined || bay === undefined) return []
  const { left, right, bottom, top } = bayFrame({ id, bay })
  const [[x1, y1], [x2, y2]] = [onPaper(placing, [left, top]), onPaper(placing, [right, bottom])]
  const cut = {
    left: Math.max(x1, window.left),
    right: Math.min(x2, window.right),
    top: Math.max(y1, window.top),
    bottom: Math.min(y2, window.bottom),
  }
  return cut.left < cut.right && cut.top < cut.bottom ? [box(cut, { stroke: FINE })] : []
}

/** Outline of a piece where it lies, or of the box that bounds what is stored; nothing where its place is not said. */
function thingLoops(stages: SheetStages, what: string, to: Vec3, look: Look): Loops {
  const { pieces, lifts, bays } = stages.model.project
  for (const bay of Object.values(bays)) {
    const stored = Object.values(bay.stored).find((s) => s.what === what)
    if (stored !== undefined)
      return [convexHull(cornersOf(stored, bay.level.value as number).map((p) => seen(look, p)))]
  }
  const piece = Object.keys(pieces).find((id) => pieces[id]?.name === what || id === what)
  for (const lift of Object.keys(lifts).filter((id) => lifts[id]?.piece === piece)) {
    const shapes = nearTo(to, restingShapes(stages, lift))
    if (shapes !== undefined) return silhouette(shapes, look, COARSE)
  }
  return []
}

type Stored = SheetStages['model']['project']['bays'][string]['stored'][string]

function cornersOf({ centre, size, height }: Stored, level: number): Vec3[] {
  const [x, y, a, b] = [...centre, ...size].map((v) => v.value as number) as [number, number, number, number]
  return [-0.5, 0.5].flatMap((i) =>
    [-0.5, 0.5].flatMap((j) => [level, level + (height.value as number)].map((z): Vec3 => [x + i * a, y + j * b, z])),
  )
}

/** Shapes, where their outline in plan comes as near to a place as a gap to them would end. */
function nearTo([x, y]: Vec3, shapes: readonly Standing[]): readonly Standing[] | undefined {
  const loops = silhouette(shapes, LOOKING_DOWN, COARSE)
  return loops.length > 0 && distanceBetween([[[x, y]]], loops).gap < BESIDE ? shapes : undefined
}

/** The shapes of a lift's piece where it rests on its bay: at its landing, or in the middle, on the level of the bay. */
function restingShapes(stages: SheetStages, lift: string): readonly Standing[] {
  const subject = subjectOf(stages, lift)
  const bay = subject && stages.model.project.bays[subject.lift.bay ?? subject.piece.bay ?? '']
  const pose = subject?.back ? subject.poses[0] : subject?.poses.at(-1)
  if (subject === undefined || bay === undefined || pose === undefined) return []
  const shapes = moved(standing(stages, subject.set.parts), pose)
  const [u, v] = (subject.lift.landing ?? bay.centre).map((at) => at.value as number) as [number, number]
  const [x, y] = place(machineAt(subject, pose), subject.set.cogMachine)
  const low = frameOf(silhouette(shapes, LOOKING_LEFT, COARSE).flat()).bottom
  return moved(shapes, { turn: IDENTITY, shift: [u - x, v - y, (bay.level.value as number) - low] })
}
