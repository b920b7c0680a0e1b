import { apply, compose, type Pose, rotationAbout, subtract, type Vec3 } from '../../numeric/vector.ts'
import { box, type Ink, line, type Mark, type PaperBox, text, type View } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { LOOKING_LEFT, seen } from '../outline/picture.ts'
import { cogMark } from '../paper/dimension.ts'
import { EDGE, FINE, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import type { LiftSheet, SheetTurnStage } from '../sheet/liftSheet.ts'
import type { HungFrom } from '../sheet/subject.ts'
import { underHead, viewHead } from './head.ts'
import { cogAt, frameOfLoops, framesTogether, outlineAt, pointsAt, type Scene, shapeOf } from './scene.ts'

const LINE_UP = 7
const BARS = 17

/** View E: each stage of the turn with both hooks' lines and shares; a bar is full at the hook's rating. */
export function turningView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  const inner = underHead(room)
  const stages = sheet.turning
  const width = (inner.right - inner.left) / Math.max(1, stages.length)
  const poses = stages.map((stage) => turnedPose(scene, stage.angle))
  const frames = poses.map((pose) => relative(frameOfLoops(outlineAt(scene, pose, LOOKING_LEFT)), cogAt(scene, pose)))
  const whole = framesTogether(frames.length === 0 ? [{ left: -1, right: 1, bottom: -1, top: 1 }] : frames)
  const frame = { ...whole, top: whole.top + LINE_UP }
  const cell = (i: number): PaperBox => ({
    left: inner.left + i * width + 1,
    right: inner.left + (i + 1) * width - 1,
    top: inner.top,
    bottom: inner.bottom - BARS,
  })
  const scale = placed(frame, cell(0), 'foot').scale
  const marks = stages.flatMap((stage, i) =>
    stageMarks(scene, sheet, stage, poses[i] as Pose, { ...placed(frame, cell(i), 'foot'), scale }, cell(i), frame.top),
  )
  return {
    kind: 'view',
    id: 'turning',
    title: `E. Turning, 1 : ${scale}`,
    scale,
    marks: [
      ...viewHead(
        'E',
        'Turning, stage by stage, looking left',
        `${scaleText({ scale, of: [0, 0], at: [0, 0] })} · a bar is full at the hook's rating · shares in ${sheet.forceUnit}`,
        room,
      ),
      ...marks,
    ],
  }
}

const relative = (frame: ReturnType<typeof frameOfLoops>, cog: Vec3) => {
  const [u, v] = seen(LOOKING_LEFT, cog)
  return { left: frame.left - u, right: frame.right - u, bottom: frame.bottom - v, top: frame.top - v }
}

/** The piece turned about its centre of gravity from the pose in which it is as driven; about site y. */
export function turnedPose(scene: Scene, angle: number): Pose {
  const base = uprightPose(scene)
  const cog = cogAt(scene, base)
  const turn = rotationAbout('y', angle)
  return compose({ turn, shift: subtract(cog, apply(turn, cog)) }, base)
}

/** The pose along the lift that is turned least about y from as found. */
export const uprightPose = ({ poses, start }: Scene): Pose =>
  poses.reduce((best, p) => ((p.turn[2][2] as number) > best.turn[2][2] ? p : best), start)

function stageMarks(
  scene: Scene,
  _sheet: LiftSheet,
  stage: SheetTurnStage,
  pose: Pose,
  placing: Placing,
  cell: PaperBox,
  top: number,
): Mark[] {
  const cog = cogAt(scene, pose)
  const [u, v] = seen(LOOKING_LEFT, cog)
  const local: Placing = { ...placing, of: [placing.of[0] + u, placing.of[1] + v] }
  const loops = outlineAt(scene, pose, LOOKING_LEFT)
  return [
    shapeOf(loops, local, { fill: 'steel', stroke: EDGE }),
    ...hookLines(scene, stage, pose, local, v + top),
    ...cogMark(onPaper(local, [u, v]), 1.1),
    line(
      [
        [cell.left, cell.bottom + 0.6],
        [cell.right, cell.bottom + 0.6],
      ],
      EDGE,
    ),
    ...barMarks(scene, stage, cell),
  ]
}

/**
 * Hoist lines from the lifting points up, each leaning as the equilibrium has it, away from the other where the hooks stand
 * wider than the points; the unloaded one dashed.
 */
function hookLines(scene: Scene, stage: SheetTurnStage, pose: Pose, placing: Placing, top: number): Mark[] {
  const { main, tail, outcome } = scene.subject
  const own = outcome.turning.find((t) => t.angle === stage.angle)
  const points = pointsAt(scene, pose)
  const [at, other] = [lowerEnd(points, main), tail === undefined ? undefined : lowerEnd(points, tail)]
  if (own === undefined || at === undefined) return []
  const aside = other === undefined ? 0 : at[0] - other[0]
  const way = sideOf(scene) * (own.apart >= Math.abs(aside) ? 1 : -1)
  return [
    ...hookLine(at, way * Math.tan(own.mainLean), stage.main.si, 'ink', placing, top),
    ...(other === undefined
      ? []
      : hookLine(other, -way * Math.tan(own.tailLean), stage.tail.si, 'steel', placing, top)),
  ]
}

/** +1 where the main hook stands to the right of the tail hook: at the stage at which the points lie widest apart. */
export function sideOf(scene: Scene): number {
  const { main, tail, outcome } = scene.subject
  const asides = outcome.turning.map(({ angle }) => {
    const points = pointsAt(scene, turnedPose(scene, angle))
    return (lowerEnd(points, main)?.[0] ?? 0) - ((tail === undefined ? undefined : lowerEnd(points, tail))?.[0] ?? 0)
  })
  return Math.sign(asides.reduce((widest, a) => (Math.abs(a) > Math.abs(widest) ? a : widest), 0)) || 1
}

/** Where the legs of a hook meet the piece, in the view. */
export function lowerEnd(points: ReadonlyMap<string, Vec3>, { rigging }: HungFrom): Point2 | undefined {
  const ends = (rigging?.legs ?? []).flatMap((leg) => {
    const point = points.get(leg.to)
    return point === undefined ? [] : [seen(LOOKING_LEFT, point)]
  })
  if (ends.length === 0) return undefined
  return [ends.reduce((sum, [u]) => sum + u, 0) / ends.length, ends.reduce((sum, [, v]) => sum + v, 0) / ends.length]
}

/** A hoist line from where it takes hold up to its hook; dashed where it does not pull. */
export function hookLine(
  [u, v]: Point2,
  slope: number,
  share: number | undefined,
  fill: Ink,
  placing: Placing,
  top: number,
): Mark[] {
  const [a, b] = [onPaper(placing, [u, v]), onPaper(placing, [u + slope * (top - v), top])]
  return [
    line([a, b], share === undefined || share <= 0 ? HIDDEN : THIN),
    { kind: 'circle', centre: a, radius: 0.7, fill: 'paper', stroke: THIN },
    box({ left: b[0] - 0.9, right: b[0] + 0.9, top: b[1] - 0.9, bottom: b[1] + 0.9 }, { fill, stroke: FINE }),
  ]
}

const BAR = 2.2

function barMarks({ subject }: Scene, stage: SheetTurnStage, cell: PaperBox): Mark[] {
  const { main, tail } = subject
  const x = cell.left
  const full = (cell.right - cell.left) * 0.42
  const rows = [
    { name: 'main', figure: stage.main, rated: main.hook.rated?.value, lean: stage.mainLean },
    { name: 'tail', figure: stage.tail, rated: tail?.hook.rated?.value, lean: stage.tailLean },
  ]
  return [
    text([x, cell.bottom + 5], stage.angleText, { size: 3.2, weight: 700 }),
    text([cell.right, cell.bottom + 5], 'lean', { size: SMALL, ink: 'quiet', anchor: 'end' }),
    ...rows.flatMap(({ name, figure, rated, lean }, i): Mark[] => {
      const y = cell.bottom + 7.2 + i * 4.4
      const use = figure.si === undefined || rated === undefined ? 0 : Math.min(1, figure.si / (rated * 9.80665))
      const left = x + 5.6
      return [
        text([x, y + 2], name, { size: SMALL, ink: 'quiet' }),
        box({ left, right: left + full * use, top: y, bottom: y + BAR }, { fill: 'edge' }),
        box({ left, right: left + full, top: y, bottom: y + BAR }, { stroke: FINE }),
        text([left + full + 0.8, y + 2], figure.text, { size: SMALL }),
        text([cell.right, y + 2], lean, { size: SMALL, ink: 'quiet', anchor: 'end' }),
      ]
    }),
  ]
}
