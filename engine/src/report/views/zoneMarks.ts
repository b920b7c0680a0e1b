import type { Stroke } from '../drawing.ts'
import { cross, line, type Mark, type PaperBox, type PaperPoint } from '../drawing.ts'
import { aroundAll } from '../outline/around.ts'
import { type Frame2, frameOf, type Point2 } from '../outline/convex.ts'
import { clippedLine } from '../paper/clip.ts'
import type { Label } from '../paper/labels.ts'
import { CHAIN, SMALL, THIN } from '../paper/pen.ts'
import { lengthOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import type { Scene } from './scene.ts'

/** Round what is closed while the lift goes on. */
const CLOSED: Stroke = { width: 0.35, ink: 'ink', dash: [4.5, 1, 0.6, 1, 0.6, 1] }

type Tail = { centre: Point2; radius: number }

const tailsOf = ({ subject }: Scene): Tail[] =>
  subject.outcome.zone.tails.flatMap(({ centre, radius }) =>
    centre === undefined || radius.value === undefined ? [] : [{ centre, radius: radius.value }],
  )

/** Frames of the fall zone and of what the tails sweep. */
export const zoneFrames = (scene: Scene): Frame2[] => [
  ...scene.subject.outcome.zone.fall.map((outline) => frameOf(outline)),
  ...tailsOf(scene).map(({ centre: [x, y], radius: r }) => ({ left: x - r, right: x + r, bottom: y - r, top: y + r })),
]

/** Outline of the fall zone of all stages together, the circle of each tail, and the way of the hook with its landing. */
export function zoneMarks(scene: Scene, placing: Placing, room: PaperBox): Mark[] {
  const along = (points: readonly Point2[], stroke: Stroke): Mark[] =>
    clippedLine(
      points.map((p) => onPaper(placing, p)),
      room,
    ).map((part) => line(part, stroke))
  return [
    ...aroundAll(scene.subject.outcome.zone.fall).flatMap((outline) => along(outline, CLOSED)),
    ...tailsOf(scene).flatMap((tail) => along(circle(tail), CLOSED)),
    ...along(wayOf(scene), CHAIN),
    ...landingMarks(scene, placing),
  ]
}

/** Corners of a circle on paper. */
const ROUND = 72

const circle = ({ centre: [x, y], radius }: Tail): Point2[] =>
  Array.from({ length: ROUND + 1 }, (_, i): Point2 => {
    const angle = (2 * Math.PI * i) / ROUND
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)]
  })

/** The way of a crane's hook in plan: about its slewing centre, the shorter way round; of other machines it is drawn by the moves. */
function wayOf({ subject }: Scene): Point2[] {
  const { stages, zone } = subject.outcome
  const centre = zone.tails[0]?.centre
  if (centre === undefined) return []
  return stages.flatMap(({ from, to }): Point2[] => {
    if (from === undefined || to === undefined) return []
    const [a, b] = [from, to].map(([x, y]) => [x - centre[0], y - centre[1]] as const) as [Point2, Point2]
    const [start, end] = [a, b].map(([x, y]) => Math.atan2(y, x)) as [number, number]
    const round = end - start - 2 * Math.PI * Math.round((end - start) / (2 * Math.PI))
    const steps = Math.max(1, Math.ceil(Math.abs(round) / STEP))
    return Array.from({ length: steps + 1 }, (_, i): Point2 => {
      const [share, angle] = [i / steps, start + (round * i) / steps]
      const radius = Math.hypot(...a) + (Math.hypot(...b) - Math.hypot(...a)) * share
      return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]
    })
  })
}

const STEP = Math.PI / 36

const landingOf = ({ subject }: Scene): Point2 | undefined => {
  const to = subject.outcome.stages.at(-1)?.to
  return to === undefined || subject.outcome.zone.tails.length === 0 ? undefined : [to[0], to[1]]
}

/** Of the cross where a crane sets down, mm. */
const ARM = 1.6

function landingMarks(scene: Scene, placing: Placing): Mark[] {
  const at = landingOf(scene)
  return at === undefined ? [] : cross(onPaper(placing, at), ARM, THIN)
}

/** What is closed and how wide, the radius of each tail, and where a crane sets down. */
export function zoneLabels(scene: Scene, { units }: LiftSheet, placing: Placing): Label[] {
  const { fall, margin } = scene.subject.outcome.zone
  const around = aroundAll(fall)[0] ?? []
  const paper = around.map((p) => onPaper(placing, p))
  const landing = landingOf(scene)
  const small = (lines: readonly string[], at: PaperPoint, towards: number, or: readonly PaperPoint[] = []): Label => ({
    lines,
    at,
    or,
    towards,
    size: SMALL,
    backed: true,
  })
  const first = paper[0]
  return [
    ...(first === undefined || margin.value === undefined
      ? []
      : [small([`closed: ${lengthText(margin.value, units)}`, 'beside the piece'], first, 90, paper)]),
    ...tailsOf(scene).map(({ centre, radius }) => {
      const [x, y] = onPaper(placing, centre)
      const r = lengthOnPaper(placing, radius)
      return small([`tail ${lengthText(radius, units)}`], [x, y - r], 90, [
        [x + r, y],
        [x, y + r],
        [x - r, y],
      ])
    }),
    ...(landing === undefined ? [] : [small(['set down'], onPaper(placing, landing), 0)]),
  ]
}
