import { add, type Pose, type Vec3 } from '../../numeric/vector.ts'
import type { Verdict } from '../../working/check.ts'
import {
  box,
  type Drawing,
  drawing,
  type Ink,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  text,
  type View,
} from '../drawing.ts'
import { LOOKING_FORWARD, LOOKING_LEFT, type Look, seen } from '../outline/picture.ts'
import { cogMark, dimension } from '../paper/dimension.ts'
import { AXIS, EDGE, FINE, OUTLINE } from '../paper/pen.ts'
import { lengthOnPaper, onPaper, type Placing, placed } from '../paper/scale.ts'
import { spread } from '../paper/spread.ts'
import { lengthText, lengthUnit, useText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { inShaft } from '../views/planSite.ts'
import { clearPose } from '../views/poses.ts'
import {
  cogAt,
  frameOfLoops,
  framesTogether,
  hookAt,
  outlineAt,
  pointsAt,
  type Scene,
  shapeOf,
} from '../views/scene.ts'
import { shaftMarks } from '../views/shaft.ts'
import { type Component, componentsOf } from './components.ts'

/** Paper of the drawing, mm: a column of the page at about five pixels a millimetre; as high as it has to be, up to this. */
const PAPER = { width: 96, height: 84 }
/** Columns on the left for the components' words, and on the right for heights, mm. */
const WORDS = 29
const HEIGHTS = 26
/** Smallest text that reads on the page. */
const SIZE = 2.55

/** What hangs, where it hangs, and the levels of the height chain, site z. */
interface Hanging {
  scene: Scene
  sheet: LiftSheet
  look: Look
  pose: Pose
  hook: Vec3 | undefined
  legs: readonly { lower: Vec3; upper: Vec3; item: string; to: string }[]
  levels: Levels | undefined
}

interface Levels {
  /** What must be cleared, the gap above it, the piece's points, the hook. */
  over: number
  lowest: number
  points: number
  hook: number
  available: number | undefined
}

/** As it hangs, over what it must clear: each component with its use beside it, and the heights up to the hook. */
export function hangingDrawing(scene: Scene, sheet: LiftSheet): Drawing {
  const hanging = hangingOf(scene, sheet)
  const frame = frameOf(hanging)
  const { scale } = placed(frame, roomOf(PAPER.height), 'foot')
  const words = componentsOf(scene.subject).length * PITCH + 4
  const height = Math.max(words, ((frame.top - frame.bottom) * 1000) / scale + 3)
  const room = roomOf(height)
  const placing = placed(frame, room, 'foot')
  return drawing(`As it hangs: ${sheet.title}`, PAPER.width, height, [
    ...surroundings(hanging, placing, room),
    ...pieceMarks(hanging, placing),
    ...riggingMarks(hanging, placing),
    ...wordsMarks(hanging, placing, height),
    ...heightMarks(hanging, placing, room),
  ])
}

const roomOf = (height: number): PaperBox => ({ left: WORDS, right: PAPER.width - HEIGHTS, top: 2, bottom: height - 1 })

function hangingOf(scene: Scene, sheet: LiftSheet): Hanging {
  const clear = clearPose(scene)
  const look = lookOf(scene, clear)
  const [over, gap, below] = sheet.height.chain.lines.map((l) => l.figure.si)
  const known = over !== undefined && gap !== undefined && below !== undefined
  const lowest = frameOfLoops(outlineAt(scene, clear, look)).bottom
  const pose = known ? raised(clear, over + gap - lowest) : clear
  const hook = hookAt(scene, pose)
  const points = pointsAt(scene, pose)
  const legs =
    hook === undefined
      ? []
      : scene.subject.outcome.legs.flatMap(({ ends, to, item }) =>
          ends === undefined
            ? []
            : [{ lower: points.get(to) ?? add(hook, ends[0]), upper: add(hook, ends[1]), item, to }],
        )
  const top = legs.length === 0 ? undefined : legs.reduce((sum, l) => sum + l.lower[2], 0) / legs.length
  const levels =
    known && top !== undefined
      ? { over, lowest: over + gap, points: top, hook: over + gap + below, available: sheet.height.available.si }
      : undefined
  return { scene, sheet, look, pose, hook, legs, levels }
}

const raised = ({ turn, shift: [x, y, z] }: Pose, by: number): Pose => ({ turn, shift: [x, y, z + by] })

/** From where the lifting points stand widest apart. */
function lookOf(scene: Scene, pose: Pose): Look {
  const points = [...pointsAt(scene, pose)].filter(([id]) => scene.subject.outcome.legs.some((l) => l.to === id))
  const spread = (axis: 0 | 1): number => {
    const places = points.map(([, p]) => p[axis])
    return places.length === 0 ? 0 : Math.max(...places) - Math.min(...places)
  }
  return spread(1) >= spread(0) ? LOOKING_FORWARD : LOOKING_LEFT
}

/** Room above the hook and below the ground, m. */
const ABOVE = 1.5
const BELOW = 1.2

function frameOf({ scene, look, pose, hook, levels }: Hanging) {
  const piece = frameOfLoops(outlineAt(scene, pose, look))
  const top = Math.max(piece.top, hook?.[2] ?? piece.top)
  const tall = top + Math.max(ABOVE, 0.12 * (top - Math.min(0, piece.bottom)))
  const u = hook === undefined ? (piece.left + piece.right) / 2 : seen(look, hook)[0]
  const foot = levels === undefined ? piece.bottom : 0
  return framesTogether([
    { ...piece, top: tall },
    { left: u - 0.5, right: u + 0.5, bottom: foot - (foot === 0 ? BELOW : 0), top: tall },
  ])
}

/** Shaft and barrier, or the ground of the bay. */
function surroundings({ scene, look, pose, levels }: Hanging, placing: Placing, room: PaperBox): Mark[] {
  const { shaft } = scene.subject.stages.model.project
  const [left, right] = [room.left + 1, room.right - 1]
  const ground = onPaper(placing, [0, 0])[1]
  if (shaft !== undefined && inShaft(scene)) {
    const under = { left, right, top: ground - 30, bottom: room.bottom }
    const isInSight = lengthOnPaper(placing, (shaft.clearDiameter.value as number) / 2 + BARRIER) < (right - left) / 2
    return [...(isInSight ? shaftMarks(shaft, placing, under) : []), ...overMark(levels, placing, left, right)]
  }
  const [u] = seen(look, cogAt(scene, pose))
  const y = onPaper(placing, [u, 0])[1]
  return [
    line(
      [
        [left, y],
        [right, y],
      ],
      OUTLINE,
    ),
    ...overMark(levels, placing, left, right),
  ]
}

/** What stands beside the bore at the collar reaches so far out, m. */
const BARRIER = 1.6

/** The level that must be cleared. */
function overMark(levels: Levels | undefined, placing: Placing, left: number, right: number): Mark[] {
  if (levels === undefined) return []
  const y = onPaper(placing, [0, levels.over])[1]
  return [
    line(
      [
        [left, y],
        [right, y],
      ],
      AXIS,
    ),
  ]
}

function pieceMarks({ scene, look, pose }: Hanging, placing: Placing): Mark[] {
  const [x, y] = onPaper(placing, seen(look, cogAt(scene, pose)))
  return [shapeOf(outlineAt(scene, pose, look), placing, { fill: 'pale', stroke: EDGE }), ...cogMark([x, y], 1.5)]
}

function riggingMarks({ hook, legs, look }: Hanging, placing: Placing): Mark[] {
  if (hook === undefined) return []
  const at = (p: Vec3): PaperPoint => onPaper(placing, seen(look, p))
  const [x, y] = at(hook)
  const uppers = legs.map(({ upper }) => at(upper))
  const apart = uppers.some((p) => Math.hypot(p[0] - x, p[1] - y) > 0.6)
  const beam = [Math.min(...uppers.map((p) => p[0])), Math.max(...uppers.map((p) => p[0]))] as const
  const level = uppers.reduce((sum, p) => sum + p[1], 0) / Math.max(1, uppers.length)
  return [
    ...[-0.9, -0.3, 0.3, 0.9].map((dx) =>
      line(
        [
          [x + dx, y - 3.6],
          [x + dx, Math.max(1, y - 9)],
        ],
        FINE,
      ),
    ),
    box({ left: x - 1.4, right: x + 1.4, top: y - 3.6, bottom: y - 0.8 }, { fill: 'ink' }),
    line(
      [
        [x, y - 0.8],
        [x, y],
      ],
      OUTLINE,
    ),
    ...(apart && beam[1] - beam[0] > 0.6
      ? [
          line(
            [
              [x, y],
              [beam[0], level],
            ],
            EDGE,
          ),
          line(
            [
              [x, y],
              [beam[1], level],
            ],
            EDGE,
          ),
          box(
            { left: beam[0] - 0.8, right: beam[1] + 0.8, top: level - 0.7, bottom: level + 0.7 },
            { fill: 'steel', stroke: EDGE },
          ),
        ]
      : apart
        ? uppers.map((p) => line([[x, y], p], EDGE))
        : []),
    ...legs.flatMap(({ lower, upper }): Mark[] => [
      line([at(upper), at(lower)], OUTLINE),
      { kind: 'circle', centre: at(lower), radius: 0.75, fill: 'paper', stroke: EDGE },
    ]),
  ]
}

const STEP = 3
/** Height of a component's two lines with the air under them. */
const PITCH = 7.4

/** Components from the hook down, each with its use, and a line to where it is. */
function wordsMarks(hanging: Hanging, placing: Placing, height: number): Mark[] {
  const { hook, legs, look } = hanging
  if (hook === undefined) return []
  const at = (p: Vec3): PaperPoint => onPaper(placing, seen(look, p))
  const left = [...legs].sort((a, b) => at(a.lower)[0] - at(b.lower)[0])[0]
  const places: Readonly<Record<Component['where'], PaperPoint | undefined>> = {
    hook: [at(hook)[0] - 1.4, at(hook)[1] - 2.2],
    above: left === undefined ? undefined : at(left.upper),
    leg: left === undefined ? undefined : middleOf(at(left.upper), at(left.lower)),
    end: left === undefined ? undefined : at(left.lower),
    piece: left === undefined ? undefined : [at(left.lower)[0], at(left.lower)[1] + 0.8],
  }
  const components = componentsOf(hanging.scene.subject)
  const [x0, y0] = at(hook)
  const first = Math.max(4, Math.min(y0 - 3, height - components.length * PITCH))
  return components.map((component, i) => wordsMark(component, places[component.where] ?? [x0, y0], first + i * PITCH))
}

const middleOf = (a: PaperPoint, b: PaperPoint): PaperPoint => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]

function wordsMark({ name, check }: Component, at: PaperPoint, y: number): View {
  const use = check.utilisation === undefined ? '' : ` ${useText(check.utilisation)}`
  const ink: Ink = check.verdict === 'fail' ? 'fail' : check.verdict === 'near' ? 'ink' : 'quiet'
  return {
    kind: 'view',
    id: check.id,
    title: `${name}: ${VERDICT[check.verdict]}${use}`,
    marks: [
      text([0.5, y], name, { size: SIZE }),
      text([0.5, y + STEP], `${VERDICT[check.verdict]}${use}`, {
        size: SIZE,
        weight: check.verdict === 'pass' || check.verdict === 'open' ? 400 : 700,
        ink,
      }),
      line([[WORDS - 3, y - 0.8], [WORDS - 0.5, y - 0.8], at], {
        ...FINE,
        ink: check.verdict === 'fail' ? 'fail' : 'edge',
      }),
    ],
  }
}

const VERDICT: Readonly<Record<Verdict, string>> = { pass: 'passes', near: 'near', fail: 'FAIL', open: 'open' }

/** Barrier, gap, piece and rigging on one line; the hook's level of the highest it can go on another. */
function heightMarks({ levels, sheet }: Hanging, placing: Placing, { right }: PaperBox): Mark[] {
  if (levels === undefined) return []
  const { over, lowest, points, hook, available } = levels
  const unit = lengthUnit(sheet.units)
  const shown = (value: number): string => lengthText(value, sheet.units)
  const chain = [
    { name: 'rigging', from: points, to: hook },
    { name: 'to points', from: lowest, to: points },
    { name: 'clear', from: over, to: lowest },
    { name: 'over', from: 0, to: over },
  ].filter(({ from, to }) => to - from > 0.01)
  const middles = chain.map(({ from, to }) => onPaper(placing, [0, (from + to) / 2])[1] + 0.9)
  const places = spread(middles, LINE)
  const whole = available === undefined ? 'open' : shown(available)
  return [
    ...chain.flatMap(({ name, from, to }, i): Mark[] => [
      (to - from) * 1000 > SHORT * placing.scale
        ? upright(name, from, to, { right, x: right + 2, placing })
        : ticked(from, to, right + 2, placing),
      text([right + 3.2, places[i] as number], `${shown(to - from)} ${name}`, { size: SIZE }),
    ]),
    upright(
      'hook height needed',
      0,
      hook,
      { right, x: PAPER.width - 1.5, placing },
      `${shown(hook)} of ${whole} ${unit}`,
    ),
  ]
}

const LINE = 3.1
/** Lower than this on paper a height has ticks, not arrows, mm. */
const SHORT = 6

function ticked(from: number, to: number, x: number, placing: Placing): View {
  const [a, b] = [from, to].map((z) => onPaper(placing, [0, z])[1]) as [number, number]
  const tick = (y: number): Mark =>
    line(
      [
        [x - 0.9, y],
        [x + 0.9, y],
      ],
      EDGE,
    )
  const upright: Mark = line(
    [
      [x, a],
      [x, b],
    ],
    FINE,
  )
  return { kind: 'view', id: 'height', title: 'height', marks: [tick(a), tick(b), upright] }
}

/** A height measured on an upright line at this place of the paper. */
function upright(
  name: string,
  from: number,
  to: number,
  { right, x, placing }: { right: number; x: number; placing: Placing },
  words?: string,
): Mark {
  const edge = placing.of[0] + ((right - placing.at[0]) * placing.scale) / 1000
  return dimension({
    name,
    value: to - from,
    words: words ?? '',
    placing,
    from: [edge, from],
    along: 'up',
    offset: right - x,
    ...(words === undefined ? { silent: true } : {}),
  })
}
