import { box, line, type Mark, type PaperBox, textBox, textsOf, type View } from '../drawing.ts'
import { type Frame2, frameOf, type Point2 } from '../outline/convex.ts'
import { LOOKING_LEFT, type Look, seen } from '../outline/picture.ts'
import { cogMark, dimension, levelMark } from '../paper/dimension.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { AXIS, CHAIN, EDGE, SMALL } from '../paper/pen.ts'
import { onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthText, lengthUnit, levelText } from '../sheet/figures.ts'
import { type LiftSheet, listedNames } from '../sheet/liftSheet.ts'
import { inset, underHead, viewHead } from './head.ts'
import { boomMarks, leastGapBoxes, leastGapLabels, leastGapMarks, leastGapsIn } from './leastGaps.ts'
import { cogAt, framesTogether, ghostOf, hookAt, outlineAt, pointsAt, type Scene, shapeOf } from './scene.ts'
import { groundMarks, shaftMarks } from './shaft.ts'
import { standingMarks } from './standingMarks.ts'

/** From the front of the drive, back along it: left of the drive is to the right on paper. */
const LOOKING_BACK: Look = { across: [0, 1, 0], up: [0, 0, 1] }

const MARGIN = 1.5

/** The other elevation: back along the drive, or to the left where the first looks back already. */
export const secondElevation = (scene: Scene, sheet: LiftSheet, room: PaperBox): View =>
  elevationView(scene, sheet, room, {
    letter: 'F',
    look: !sheet.fromShaft && lookOf(scene) === LOOKING_BACK ? LOOKING_LEFT : LOOKING_BACK,
  })

/** An elevation: ground and bays, the shaft where the lift leads through it, where the piece starts, hangs highest and is set down. */
export function elevationView(
  scene: Scene,
  sheet: LiftSheet,
  room: PaperBox,
  { letter, look }: { letter: string; look: Look } = { letter: 'A', look: lookOf(scene) },
): View {
  const inner = underHead(room)
  const window = inset(inner, 1)
  const high = highestPose(scene)
  const placing = placed(
    frameOfWay(scene, look, high),
    { ...window, left: window.left + 12, right: window.right - 9 },
    'middle',
  )
  const gaps = leastGapsIn(scene, sheet, look, placing, window)
  const drawn: Mark[] = [
    ...(sheet.fromShaft ? shaftBehind(scene, placing, window) : groundLine(placing, window)),
    ...bayLines(scene, look, placing),
    ...standingMarks(gaps, scene, look, placing, window),
    ...[scene.start, scene.end].map((pose) => ghostOf(outlineAt(scene, pose, look), placing, CHAIN)),
    shapeOf(outlineAt(scene, high, look), placing, { fill: 'steel', stroke: EDGE }),
    ...rigMarks(scene, look, high, placing, window),
    ...cogMark(onPaper(placing, seen(look, cogAt(scene, high)))),
    ...boomMarks(gaps, look, placing, window),
    ...leastGapMarks(gaps, look, placing),
    ...hookMeasures(scene, sheet, placing, window),
  ]
  const labels = labelMarks(
    [...leastGapLabels(gaps, sheet, look, placing), ...labelsOf(scene, look, placing)],
    [...textsOf(drawn).map(textBox), ...leastGapBoxes(gaps, look, placing)],
    window,
    listedNames(sheet),
  )
  const from = look === LOOKING_LEFT ? 'looking left' : 'looking back along the drive'
  return {
    kind: 'view',
    id: 'elevation',
    title: `${letter}. Elevation along the way, ${from}, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [
      ...viewHead(
        letter,
        'Elevation along the way',
        `${scaleText(placing)} · ${from} · ${lengthUnit(sheet.units)}`,
        room,
      ),
      ...drawn,
      ...labels,
    ],
  }
}

/** The shaft is round: cut across it looks as it does along the drive. */
function shaftBehind({ subject }: Scene, placing: Placing, window: PaperBox): Mark[] {
  const { shaft, ground } = subject.stages.model.project
  if (shaft === undefined) return groundLine(placing, window)
  return [
    ...(ground === undefined ? [] : groundMarks(ground, shaft, placing, window)),
    ...shaftMarks(shaft, placing, window),
  ]
}

/** Square to the longer side of the way. */
function lookOf({ poses }: Scene): Look {
  const reach = (axis: 0 | 1): number => {
    const places = poses.map((p) => p.shift[axis])
    return Math.max(...places) - Math.min(...places)
  }
  return reach(1) > reach(0) ? LOOKING_BACK : LOOKING_LEFT
}

const highestPose = ({ poses, start }: Scene): Scene['start'] =>
  poses.reduce((best, p) => (p.shift[2] > best.shift[2] ? p : best), start)

function frameOfWay(scene: Scene, look: Look, high: Scene['start']): Frame2 {
  const outlines = [scene.start, high, scene.end].map((pose) => frameOf(outlineAt(scene, pose, look).flat()))
  const tops = [hookAt(scene, high)?.[2] ?? 0, scene.subject.outcome.height.available.value ?? 0]
  const whole = framesTogether(outlines)
  return {
    left: whole.left - MARGIN,
    right: whole.right + MARGIN,
    bottom: Math.min(-MARGIN, whole.bottom),
    top: Math.max(whole.top, ...tops) + MARGIN,
  }
}

const groundLine = (placing: Placing, window: PaperBox): Mark[] => {
  const [, y] = onPaper(placing, [0, 0])
  return [
    line(
      [
        [window.left, y],
        [window.right, y],
      ],
      EDGE,
    ),
    box({ left: window.left, right: window.right, top: y, bottom: Math.min(window.bottom, y + 3) }, { fill: 'ground' }),
  ]
}

/** Bays under the start and the end of the way. */
function baysNear({ subject, start, end }: Scene) {
  const { bays } = subject.stages.model.project
  const holds = (bay: (typeof bays)[string], [x, y]: readonly number[]): boolean =>
    Math.abs((x as number) - (bay.centre[0].value as number)) <= (bay.size[0].value as number) / 2 &&
    Math.abs((y as number) - (bay.centre[1].value as number)) <= (bay.size[1].value as number) / 2
  const places = [start, end].map((pose) => cogAt({ subject } as Scene, pose))
  return Object.entries(bays).filter(([, bay]) => places.some((p) => holds(bay, p)))
}

function bayLines(scene: Scene, look: Look, placing: Placing): Mark[] {
  return baysNear(scene).map(([, bay]) => {
    const [centre, half] = look === LOOKING_LEFT ? [bay.centre[0], bay.size[0]] : [bay.centre[1], bay.size[1]]
    const [c, h] = [centre.value as number, (half.value as number) / 2]
    const [left, top] = onPaper(placing, [c - h, bay.level.value as number])
    const [right, bottom] = onPaper(placing, [c + h, 0])
    return box({ left, right, top, bottom: Math.max(bottom, top + 0.3) }, { fill: 'concrete', stroke: EDGE })
  })
}

function rigMarks(scene: Scene, look: Look, high: Scene['start'], placing: Placing, window: PaperBox): Mark[] {
  const hook = hookAt(scene, high)
  if (hook === undefined) return []
  const points = pointsAt(scene, high)
  const at = onPaper(placing, seen(look, hook))
  const [u] = seen(look, hook)
  const head = scene.subject.outcome.height.available.value
  const legs = scene.subject.outcome.legs.flatMap(({ to }) => {
    const point = points.get(to)
    return point === undefined ? [] : [line([at, onPaper(placing, seen(look, point))], EDGE)]
  })
  const top = head === undefined ? [] : [line([at, onPaper(placing, [u, head])], EDGE)]
  const level =
    head === undefined
      ? []
      : [
          line(
            [
              [window.left, onPaper(placing, [0, head])[1]],
              [window.right, onPaper(placing, [0, head])[1]],
            ],
            AXIS,
          ),
        ]
  return [
    ...level,
    ...top,
    ...legs,
    box({ left: at[0] - 1, right: at[0] + 1, top: at[1] - 1.6, bottom: at[1] + 0.4 }, { fill: 'ink' }),
  ]
}

function hookMeasures(scene: Scene, sheet: LiftSheet, placing: Placing, window: PaperBox): Mark[] {
  const { height } = scene.subject.outcome
  const left = placing.of[0] + ((window.left - placing.at[0]) * placing.scale) / 1000
  const measure = (value: number | undefined, name: string, aside: number): Mark[] =>
    value === undefined || value <= 0
      ? []
      : [
          dimension({
            name,
            value,
            words: `${name} ${lengthText(value, sheet.units)}`,
            placing,
            from: [left + (aside * placing.scale) / 1000, 0],
            along: 'up',
            offset: 0,
          }),
        ]
  return [
    ...measure(height.available.value, 'hook can reach', 3),
    ...measure(height.needed.value, 'hook needed', 9),
    ...levelMark([window.right - 14, onPaper(placing, [0, 0])[1]], levelText(0, sheet.units), 'right'),
  ]
}

function labelsOf(scene: Scene, look: Look, placing: Placing): Label[] {
  const bays = baysNear(scene).map(([id, bay]): Label => {
    const at: Point2 = [(look === LOOKING_LEFT ? bay.centre[0] : bay.centre[1]).value as number, 0]
    return { lines: [`bay ${id}`], at: onPaper(placing, at), towards: -90, from: 1, size: SMALL, backed: true }
  })
  return [
    ...bays,
    {
      lines: ['start'],
      at: onPaper(placing, seen(look, cogAt(scene, scene.start))),
      size: SMALL,
      ink: 'quiet',
      towards: 0,
      backed: true,
    },
    {
      lines: ['set down'],
      at: onPaper(placing, seen(look, cogAt(scene, scene.end))),
      size: SMALL,
      ink: 'quiet',
      towards: 0,
      backed: true,
    },
  ]
}
