import { coordinates } from '../../model/index.ts'
import { apply, compose, type Pose, place, rotationAbout, subtract, type Vec3 } from '../../numeric/vector.ts'
import { box, line, type Mark, type PaperBox, type PaperPoint, text, textBox, type View, widerBox } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import type { Frame2 } from '../outline/convex.ts'
import { LOOKING_LEFT, seen } from '../outline/picture.ts'
import { arrow, cogMark, dimension } from '../paper/dimension.ts'
import { AXIS, EDGE, FINE, LABEL, OUTLINE, SMALL } from '../paper/pen.ts'
import { lengthOnPaper, onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet, SheetPivotStage } from '../sheet/liftSheet.ts'
import { machineAt } from '../sheet/subject.ts'
import { underHead, viewHead } from './head.ts'
import { frameOfLoops, framesTogether, outlineAt, type Scene, shapeOf } from './scene.ts'
import { hookLine, uprightPose } from './turningView.ts'

/** What is drawn of the hoist line over the highest point of the piece, m. */
const LINE_UP = 5
/** Under the ground: reaction and dimensions, then angle, holding and bars, mm. */
const UNDER = { first: 6.6, second: 11.4, words: 17, bars: 19.2, holding: 29.4, all: 30.5 }
/** Kept free beside the piece for words of dimensions, mm. */
const BESIDE = 7

/** View E of a turn on the bay: each stage about its pivot with hook line, reaction, and both arms from the pivot. */
export function pivotView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  const { marks, scale } = pivotStages(scene, sheet, sheet.pivot?.stages ?? [], underHead(room))
  return {
    kind: 'view',
    id: 'pivot',
    title: `E. Turning about the pivot, 1 : ${scale}`,
    scale,
    marks: [
      ...viewHead(
        'E',
        'Turning on the bay about its pivot, looking left',
        `${scaleText({ scale, of: [0, 0], at: [0, 0] })} · from the pivot, ${sheet.lengthUnit}: to the centre of gravity, to the hoist line · forces in ${sheet.forceUnit}, line plumb · hook's bar full at its rating, pivot's at the weight`,
        room,
      ),
      ...marks,
    ],
  }
}

/** Some stages of the turn side by side, all at the scale at which every stage fits its place. */
export function pivotStages(
  scene: Scene,
  sheet: LiftSheet,
  stages: readonly SheetPivotStage[],
  room: PaperBox,
  across = stages.length,
): { marks: Mark[]; scale: number } {
  const width = (room.right - room.left) / Math.max(1, across)
  const frame = frameOf(
    scene,
    (sheet.pivot?.stages ?? []).map((stage) => aboutPivot(scene, stage.angle)),
  )
  const drawn = stages.map((stage, i): Drawn => {
    const cell: PaperBox = {
      left: room.left + i * width + 1,
      right: room.left + (i + 1) * width - 1,
      top: room.top,
      bottom: room.bottom - UNDER.all,
    }
    const { left, right } = cell
    const placing = placed(frame, { ...cell, left: left + BESIDE, right: right - BESIDE }, 'foot')
    return { stage, pose: aboutPivot(scene, stage.angle), placing, cell, frame }
  })
  return { scale: drawn[0]?.placing.scale ?? 1, marks: drawn.flatMap((one) => stageMarks(scene, sheet, one)) }
}

/** The pivot in a pose of the piece, site frame. */
function pivotAt({ subject }: Scene, pose: Pose): Vec3 {
  const at = subject.lift.turn?.pivot?.at
  return at === undefined ? [0, 0, 0] : place(machineAt(subject, pose), coordinates(at))
}

/** The piece turned about its pivot from the pose in which it is as driven; about site y. */
function aboutPivot(scene: Scene, angle: number): Pose {
  const base = uprightPose(scene)
  const pivot = pivotAt(scene, base)
  const turn = rotationAbout('y', angle)
  return compose({ turn, shift: subtract(pivot, apply(turn, pivot)) }, base)
}

/** Height of the pivot over the bay, m: of a trunnion on its stand; an edge stands on the bay itself. */
const standOf = ({ subject }: Scene): number => subject.lift.turn?.pivot?.height?.value ?? 0

/** What holds the piece at every stage, and its line, from the pivot. */
function frameOf(scene: Scene, poses: readonly Pose[]): Frame2 {
  const [u, v] = seen(LOOKING_LEFT, pivotAt(scene, uprightPose(scene)))
  const whole = framesTogether([
    { left: u - 1, right: u + 1, bottom: v - standOf(scene), top: v + 1 },
    ...poses.map((pose) => frameOfLoops(outlineAt(scene, pose, LOOKING_LEFT))),
  ])
  return { left: whole.left - u, right: whole.right - u, bottom: whole.bottom - v, top: whole.top - v + LINE_UP }
}

interface Drawn {
  stage: SheetPivotStage
  pose: Pose
  /** Of the view with the pivot at its origin. */
  placing: Placing
  cell: PaperBox
  frame: Frame2
}

function stageMarks(scene: Scene, sheet: LiftSheet, drawn: Drawn): Mark[] {
  const { stage, pose, placing, cell, frame } = drawn
  const [u, v] = seen(LOOKING_LEFT, pivotAt(scene, pose))
  const outline: Placing = { ...placing, of: [placing.of[0] + u, placing.of[1] + v] }
  const pivot = onPaper(placing, [0, 0])
  const bay = -standOf(scene)
  const [x, ground] = onPaper(placing, [0, bay])
  const plumb = (over: number, from: number): Mark =>
    line([onPaper(placing, [over, from]), onPaper(placing, [over, bay])], AXIS)
  return [
    shapeOf(outlineAt(scene, pose, LOOKING_LEFT), outline, { fill: 'steel', stroke: EDGE }),
    plumb(stage.cog[0], stage.cog[1]),
    plumb(stage.lug[0], stage.lug[1]),
    ...hookLine(stage.lug, 0, stage.holding === 'over centre' ? 0 : stage.hook.si, 'ink', placing, frame.top),
    ...cogMark(onPaper(placing, stage.cog), 1.1),
    line(
      [
        [cell.left, ground],
        [cell.right, ground],
      ],
      EDGE,
    ),
    ...(bay < 0 ? [line([onPaper(placing, [bay / 4, bay]), pivot, onPaper(placing, [-bay / 4, bay])], EDGE)] : []),
    ...reactionMarks(stage, [x, ground]),
    { kind: 'circle', centre: pivot, radius: 0.9, fill: 'paper', stroke: EDGE },
    ...armMarks(stage.cog[0], 'centre of gravity', { scene, sheet, placing, offset: UNDER.first }),
    ...armMarks(stage.lug[0], 'hoist line', { scene, sheet, placing, offset: UNDER.second }),
    ...barMarks(scene, stage, { ...cell, bottom: ground }),
  ]
}

const REACTION = 5.6

/** The ground's push on the pivot, as long as its share of the weight; none where hook and pivot do not hold the piece. */
function reactionMarks({ hook, up, holding }: SheetPivotStage, [x, ground]: PaperPoint): Mark[] {
  if (holding !== 'held' || hook.si === undefined || up.si === undefined) return []
  const share = Math.min(1, up.si / (hook.si + up.si))
  const foot = ground + 0.9 + Math.max(2.4, REACTION * share)
  const tip: PaperPoint = [x, ground + 0.9]
  return [line([[x, foot], tip], OUTLINE), arrow(tip, [0, 1], OUTLINE)]
}

/** Words that find no room between the arrows stand clear of the outer ones, mm from the pivot. */
const BEYOND = 4.8

/** One arm from the pivot, along the ground; words that do not fit between its arrows stand behind the pivot. */
function armMarks(
  arm: number,
  to: string,
  { scene, sheet, placing, offset }: { scene: Scene; sheet: LiftSheet; placing: Placing; offset: number },
): Mark[] {
  const words = lengthText(Math.abs(arm), sheet.units)
  const length = lengthOnPaper(placing, Math.abs(arm))
  const fits = length > textWidth(words, { size: LABEL, weight: 400, tabular: false }) + 1
  const mark = dimension({
    name: `from the pivot to the ${to}`,
    value: Math.abs(arm),
    words,
    placing,
    from: [Math.min(0, arm), -standOf(scene)],
    along: 'across',
    offset: -offset,
    silent: !fits,
  })
  if (fits) return [mark]
  const behind = arm < 0 ? 1 : -1
  const pivot = arm < 0 ? mark.to : mark.from
  const shown = text([pivot[0] + behind * BEYOND, pivot[1] + 0.9], words, {
    size: LABEL,
    anchor: arm < 0 ? 'start' : 'end',
  })
  return [box(widerBox(textBox(shown), 0.3), { fill: 'paper' }), mark, shown]
}

const BAR = 2.2
/** Standard gravity, m/s²: lines pull in force, hooks are rated in mass. */
const G = 9.80665

function barMarks({ subject }: Scene, stage: SheetPivotStage, { left, right, bottom: ground }: PaperBox): Mark[] {
  const { hook, up, holding, holdBack } = stage
  const rated = subject.main.hook.rated?.value
  const weight = hook.si === undefined || up.si === undefined ? undefined : hook.si + up.si
  const isHeld = holding === 'held'
  const rows = [
    { name: 'hook', figure: hook, full: rated === undefined ? undefined : rated * G, lost: 'slack' },
    { name: 'pivot', figure: up, full: weight, lost: '' },
  ]
  const full = (right - left) * 0.42
  const held = isHeld ? '' : holdBack === undefined ? holding : `${holding}, hold ${holdBack.text}`
  return [
    text([left, ground + UNDER.words], stage.angleText, { size: 3.2, weight: 700 }),
    text([left, ground + UNDER.holding], held, { size: SMALL, ink: 'fail' }),
    ...rows.flatMap(({ name, figure, full: most, lost }, i): Mark[] => {
      const says = isHeld ? figure.text : lost
      const top = ground + UNDER.bars + i * 4.4
      const use = !isHeld || figure.si === undefined || most === undefined ? 0 : Math.min(1, figure.si / most)
      const from = left + 6
      return [
        text([left, top + 2], name, { size: SMALL, ink: 'quiet' }),
        box({ left: from, right: from + full * use, top, bottom: top + BAR }, { fill: 'edge' }),
        box({ left: from, right: from + full, top, bottom: top + BAR }, { stroke: FINE }),
        text([from + full + 0.8, top + 2], says, { size: SMALL }),
      ]
    }),
  ]
}
