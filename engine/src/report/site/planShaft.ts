import type { Shaft } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { box, type Circle, line, type Mark, type PaperBox, type PaperPoint, type Shape, standFor } from '../drawing.ts'
import { LOOKING_DOWN, silhouette } from '../outline/picture.ts'
import { clippedLine, clippedLoop } from '../paper/clip.ts'
import { arrow } from '../paper/dimension.ts'
import { hatch } from '../paper/hatch.ts'
import type { Label } from '../paper/labels.ts'
import { AXIS, CHAIN, EDGE, FINE, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { lengthOnPaper, loopOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import { planOutline } from '../views/planGaps.ts'
import { ghostOf, shapeOf } from '../views/scene.ts'
import { isThere, wallRadius, within } from '../views/shaft.ts'
import { chordError } from './chord.ts'
import { planOf } from './planFrame.ts'
import { circleOnPaper } from './planLines.ts'
import type { SiteSubject } from './subject.ts'
import { boreRadius, treatmentHalf } from './tunnel.ts'

/** The shaft with its wall, centre lines and fixed things, the machine in it, the bore behind it, and treated ground. */
export function shaftPlanMarks(subject: SiteSubject, placing: Placing, room: PaperBox): Mark[] {
  const { shaft } = subject.stages.model.project
  return [
    ...(shaft === undefined ? [] : [...boreMarks(subject, placing, room), ...treatmentMarks(subject, placing, room)]),
    ...machineMarks(subject, placing, room),
    ...(shaft === undefined ? [] : [standFor('/shaft', 'the shaft', wallMarks(shaft, placing))]),
    ...(shaft === undefined ? [] : thingMarks(shaft, placing)),
    ...centreLines(placing, room),
  ]
}

/** The machine below: in full inside the shaft, dashed under the ground. */
function machineMarks({ remaining, stages }: SiteSubject, placing: Placing, room: PaperBox): Mark[] {
  const loops = silhouette(remaining, LOOKING_DOWN, chordError(placing.scale))
  if (loops.length === 0) return []
  const under = ghostOf(loops, placing, HIDDEN)
  const clipped = { ...under, loops: under.loops.map((l) => clippedLoop(l, room)).filter((l) => l.length > 2) }
  const { shaft } = stages.model.project
  const inside =
    shaft === undefined ? [] : [insideShaft(shapeOf(loops, placing, { fill: 'pale', stroke: THIN }), shaft, placing)]
  return [standFor('/machine', 'what is left of the machine in the shaft', [clipped, ...inside])]
}

/** Loops cut off at the clear bore, chord by chord. */
function insideShaft(shape: Shape, { clearDiameter }: Shaft, placing: Placing): Shape {
  const ring = circleOnPaper(placing, [0, 0], (clearDiameter.value as number) / 2)
  const cut = ring.slice(1).reduce<PaperPoint[][]>(
    (loops, to, i) => {
      const from = ring[i] as PaperPoint
      return loops.map((loop) => cutAtLine(loop, from, to))
    },
    shape.loops.map((l) => [...l]),
  )
  return { ...shape, loops: cut.filter((l) => l.length > 2) }
}

/** What of a loop lies to the inner side of a chord of the ring, which runs anticlockwise as seen. */
function cutAtLine(loop: readonly PaperPoint[], [x1, y1]: PaperPoint, [x2, y2]: PaperPoint): PaperPoint[] {
  const side = ([x, y]: PaperPoint): number => -((x2 - x1) * (y - y1) - (y2 - y1) * (x - x1))
  return loop.flatMap((p, i) => {
    const q = loop[(i + 1) % loop.length] as PaperPoint
    const [a, b] = [side(p), side(q)]
    const crossing: PaperPoint = [p[0] + ((q[0] - p[0]) * a) / (a - b), p[1] + ((q[1] - p[1]) * a) / (a - b)]
    if (a >= 0) return b >= 0 ? [p] : [p, crossing]
    return b >= 0 ? [crossing] : []
  })
}

export const CONCRETE_HATCH = 1.6

function wallMarks(shaft: Shaft, placing: Placing): Mark[] {
  const [inner, outer] = [(shaft.clearDiameter.value as number) / 2, wallRadius(shaft)]
  const ring = (radius: number): Circle => ({
    kind: 'circle',
    centre: onPaper(placing, [0, 0]),
    radius: lengthOnPaper(placing, radius),
    stroke: EDGE,
  })
  if (outer <= inner) return [ring(inner)]
  const wall: Shape = {
    kind: 'shape',
    loops: [circleOnPaper(placing, [0, 0], outer), circleOnPaper(placing, [0, 0], inner)],
    fill: 'concrete',
  }
  return [
    wall,
    ...hatch(wall.loops, CONCRETE_HATCH, Math.PI / 4, { width: 0.13, ink: 'edge' }),
    ring(inner),
    ring(outer),
  ]
}

const thingMarks = (shaft: Shaft, placing: Placing): Mark[] =>
  Object.entries(shaft.obstructions).map(([id, o]) =>
    standFor(pointerOf('shaft', 'obstructions', id), o.what, [
      { kind: 'shape', loops: [loopOnPaper(placing, planOutline(o))], fill: 'paper', stroke: THIN },
      ...hatch([loopOnPaper(placing, planOutline(o))], 0.8, -Math.PI / 4, FINE),
    ]),
  )

function centreLines(placing: Placing, room: PaperBox): Mark[] {
  const [x, y] = onPaper(placing, [0, 0])
  return [
    line(
      [
        [room.left, y],
        [room.right, y],
      ],
      AXIS,
    ),
    line(
      [
        [x, room.top],
        [x, room.bottom],
      ],
      AXIS,
    ),
    line(
      [
        [room.right - 12, y - 1.2],
        [room.right - 2, y - 1.2],
      ],
      THIN,
    ),
    arrow([room.right - 2, y - 1.2], [-1, 0], THIN),
  ]
}

function boreMarks(subject: SiteSubject, placing: Placing, room: PaperBox): Mark[] {
  const { shaft } = subject.stages.model.project
  return Object.entries(shaft?.eyes ?? {}).flatMap(([id, eye]) => {
    const r = boreRadius(subject, eye)
    const sign = eye.side === '-x' ? -1 : 1
    const far = sign < 0 ? room.left : room.right
    const runs = [-r, r].map((y) => {
      const [x, at] = onPaper(placing, [sign * wallRadius(shaft as Shaft), y])
      return clippedLine(
        [
          [x, at],
          [far, at],
        ] as PaperPoint[],
        room,
      )
    })
    return [
      standFor(pointerOf('shaft', 'eyes', id), sign < 0 ? 'the bore behind' : 'the drive to come', [
        ...runs.flat().map((run) => line(run, sign < 0 ? HIDDEN : CHAIN)),
      ]),
    ]
  })
}

function treatmentMarks(subject: SiteSubject, placing: Placing, room: PaperBox): Mark[] {
  const { ground } = subject.stages.model.project
  return Object.entries(ground?.treatments ?? {}).flatMap(([id, t]) => {
    const half = treatmentHalf(subject, t)
    if (half === undefined) return []
    const [a, b] = planOf(t.along)
    const [x1, y1] = onPaper(placing, [Math.min(a, b), half])
    const [x2, y2] = onPaper(placing, [Math.max(a, b), -half])
    const seen = within({ left: x1, right: x2, top: y1, bottom: y2 }, room)
    if (!isThere(seen)) return []
    const block = box(seen, { stroke: HIDDEN })
    return [
      standFor(pointerOf('ground', 'treatments', id), t.what, [
        ...hatch(block.loops, 2.2, -Math.PI / 4, { width: 0.13, ink: 'edge' }),
        block,
      ]),
    ]
  })
}

/** At smaller scales what is fixed in the shaft is named on the view of the shaft. */
export const THINGS_NAMED = 250

/** Words of the shaft, of what is fixed in it, of the bore and of treated ground. */
export function shaftLabels(subject: SiteSubject, placing: Placing, room: PaperBox): Label[] {
  const { shaft, ground } = subject.stages.model.project
  if (shaft === undefined) return []
  const outer = wallRadius(shaft)
  const clear = shaft.clearDiameter.value as number
  const [right] = [onPaper(placing, [outer * Math.SQRT1_2, -outer * Math.SQRT1_2])]
  return [
    {
      lines: [
        `shaft Ø ${lengthText(clear, subject.units)} clear`,
        ...(outer * 2 > clear ? [`Ø ${lengthText(2 * outer, subject.units)} outside`] : []),
      ],
      at: right,
      towards: -45,
      from: 1,
      size: SMALL,
      weight: 700,
      backed: true,
    },
    ...(placing.scale > THINGS_NAMED ? [] : Object.values(ground?.treatments ?? {})).flatMap((t): Label[] => {
      const half = treatmentHalf(subject, t)
      if (half === undefined) return []
      const [a, b] = planOf(t.along)
      return [
        {
          lines: [t.what],
          at: onPaper(placing, [a + b > 0 ? Math.min(a, b) : Math.max(a, b), -half]),
          towards: a + b > 0 ? 45 : 135,
          from: 0.6,
          size: SMALL,
          ink: 'quiet',
          backed: true,
        },
      ]
    }),
    ...Object.values(shaft.eyes).flatMap((eye): Label[] => {
      const r = boreRadius(subject, eye)
      const [, y] = onPaper(placing, [0, r])
      const back = eye.side === '-x'
      return [
        {
          lines: [back ? 'bore behind' : 'drive to come', `Ø ${lengthText(2 * r, subject.units)}`],
          at: [back ? room.left + 2 : room.right - 2, y],
          towards: back ? -45 : -135,
          from: 0.4,
          size: SMALL,
          ink: 'quiet',
          backed: true,
        },
      ]
    }),
    ...(placing.scale > THINGS_NAMED ? [] : Object.values(shaft.obstructions)).map(
      (o): Label => ({
        lines: [o.what.split(',')[0] as string],
        at: onPaper(placing, middleOf(o)),
        towards: 90,
        from: 1.2,
        size: SMALL,
        ink: 'quiet',
        backed: true,
      }),
    ),
  ]
}

const middleOf = ({ x, y }: Shaft['obstructions'][string]): readonly [number, number] => {
  const [a, b] = planOf(x)
  const [c, d] = planOf(y)
  return [(a + b) / 2, (c + d) / 2]
}
