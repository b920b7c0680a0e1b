import type { Pose } from '../../numeric/vector.ts'
import type { Check } from '../../working/check.ts'
import { showQuantity } from '../../working/quantity.ts'
import {
  box,
  type Circle,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Shape,
  textBox,
  textsOf,
  type View,
} from '../drawing.ts'
import { convexHull, type Frame2, frameOf, type Point2 } from '../outline/convex.ts'
import { grown } from '../outline/distance.ts'
import { LOOKING_DOWN, type Look, seen, silhouette } from '../outline/picture.ts'
import { arrow, cogMark, dimension } from '../paper/dimension.ts'
import { hatch } from '../paper/hatch.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { ASKED, AXIS, CHAIN, EDGE, FINE, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { lengthOnPaper, loopOnPaper, onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { exactFigure, lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { inset, underHead, viewHead } from './head.ts'
import { type PlanPlace, planOutline, planPlaces } from './planGaps.ts'
import { clearPose } from './poses.ts'
import { CHORD_ERROR, cogAt, framesTogether, ghostOf, outlineAt, type Scene, shapeOf } from './scene.ts'
import { wallRadius } from './shaft.ts'

const LOOK: Look = LOOKING_DOWN

/** View B: the shaft and the bay from above, the swept way, and the gap to everything that stays. */
export function planView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  const inner = underHead(room)
  const placing = placed(frameOfPlan(scene), inset(inner, 1), 'middle')
  const gaps = gapsOf(scene)
  const drawn: Mark[] = [
    ...siteMarks(scene, placing, inner),
    ...wayMarks(scene, placing),
    ...pieceMarks(scene, placing),
    ...travelMarks(scene, sheet, placing, inner),
    ...gaps.flatMap((gap) => gapLine(gap, placing)),
  ]
  const labels = labelMarks(
    [...labelsOf(scene, sheet, gaps, placing), ...footLabels(scene, sheet, placing, inner)],
    [...textsOf(drawn).map(textBox), ...thingBoxes(scene, placing)],
    inset(inner, 0.5),
  )
  return {
    kind: 'view',
    id: 'plan',
    title: `B. Plan: way and swept outline, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [
      ...viewHead(
        'B',
        'Plan: way and swept outline',
        `${scaleText(placing)} · drive to the right · ${sheet.units === 'SI' ? 'm' : 'ft'}`,
        room,
      ),
      ...drawn,
      ...labels,
    ],
  }
}

const inShaft = ({ subject }: Scene): boolean =>
  subject.stages.model.project.shaft !== undefined && subject.steps.some((s) => s.from === 'shaft')

const bayOf = ({ subject: { lift, piece, stages } }: Scene) => {
  const id = lift.bay ?? piece.bay
  const bay = id === undefined ? undefined : stages.model.project.bays[id]
  return id === undefined || bay === undefined ? undefined : { id, bay }
}

/** The bay, where the piece comes over it in this lift and does not go on by trailer. */
function bayReached(scene: Scene) {
  const bay = bayOf(scene)
  if (bay === undefined) return undefined
  const { left, right, bottom, top } = bayFrame(bay)
  const over = [scene.start, scene.end].some((pose) => {
    const [x, y] = cogAt(scene, pose)
    return x > left && x < right && y > bottom && y < top
  })
  return over ? bay : undefined
}

/** Plan rectangle of a bay. */
function bayFrame({ bay }: NonNullable<ReturnType<typeof bayOf>>): Frame2 {
  const [x, y] = bay.centre.map((v) => v.value as number) as [number, number]
  const [a, b] = bay.size.map((v) => (v.value as number) / 2) as [number, number]
  return { left: x - a, right: x + a, bottom: y - b, top: y + b }
}

function frameOfPlan(scene: Scene): Frame2 {
  const { shaft } = scene.subject.stages.model.project
  const bay = bayReached(scene)
  const outlines = [scene.start, scene.end].map((pose) => frameOf(outlineAt(scene, pose, LOOK).flat()))
  const outer = shaft === undefined || !inShaft(scene) ? undefined : wallRadius(shaft) + 0.6
  const frames = [
    ...outlines,
    ...(outer === undefined ? [] : [{ left: -outer, right: outer, bottom: -outer, top: outer }]),
    ...(bay === undefined ? [] : [bayFrame(bay)]),
    ...feetOf(scene).map(({ at: [x, y] }) => ({ left: x - 1, right: x + 1, bottom: y - 1, top: y + 1 })),
  ]
  return framesTogether(frames)
}

function siteMarks(scene: Scene, placing: Placing, room: PaperBox): Mark[] {
  const { shaft } = scene.subject.stages.model.project
  const bay = bayReached(scene)
  return [
    ...(bay === undefined ? [] : bayMarks(bay, placing)),
    ...(shaft === undefined || !inShaft(scene) ? [] : shaftPlan(scene, placing)),
    ...railMarks(scene, placing, room),
  ]
}

function bayMarks(bay: NonNullable<ReturnType<typeof bayOf>>, placing: Placing): Mark[] {
  const { left, right, bottom, top } = bayFrame(bay)
  const [x1, y1] = onPaper(placing, [left, top])
  const [x2, y2] = onPaper(placing, [right, bottom])
  return [box({ left: x1, top: y1, right: x2, bottom: y2 }, { fill: 'ground', stroke: EDGE })]
}

function circleLoop(placing: Placing, radius: number): PaperPoint[] {
  return Array.from({ length: 120 }, (_, k) => {
    const angle = (2 * Math.PI * k) / 120
    return onPaper(placing, [radius * Math.cos(angle), radius * Math.sin(angle)])
  })
}

function shaftPlan(scene: Scene, placing: Placing): Mark[] {
  const shaft = scene.subject.stages.model.project.shaft as NonNullable<
    Scene['subject']['stages']['model']['project']['shaft']
  >
  const inner = (shaft.clearDiameter.value as number) / 2
  const outer = wallRadius(shaft)
  const centre = onPaper(placing, [0, 0])
  const wall: Shape = {
    kind: 'shape',
    loops: [circleLoop(placing, outer), circleLoop(placing, inner)],
    fill: 'concrete',
  }
  const ring = (radius: number): Circle => ({
    kind: 'circle',
    centre,
    radius: lengthOnPaper(placing, radius),
    stroke: EDGE,
  })
  const rest = silhouette(scene.rest, LOOK, CHORD_ERROR)
  const reach = lengthOnPaper(placing, outer) + 2
  return [
    wall,
    ...hatch(wall.loops, 2.4, Math.PI / 4, { width: 0.13, ink: 'edge' }),
    ring(inner),
    ...(outer > inner ? [ring(outer)] : []),
    ghostOf(rest, placing, HIDDEN),
    line(
      [
        [centre[0] - reach, centre[1]],
        [centre[0] + reach, centre[1]],
      ],
      AXIS,
    ),
    line(
      [
        [centre[0], centre[1] - reach],
        [centre[0], centre[1] + reach],
      ],
      AXIS,
    ),
    ...Object.values(shaft.obstructions).flatMap((o) => {
      const loop = loopOnPaper(placing, planOutline(o))
      return [
        { kind: 'shape', loops: [loop], fill: 'paper', stroke: THIN } as const,
        ...hatch([loop], 0.9, -Math.PI / 4, FINE),
      ]
    }),
  ]
}

/** Rails of a travelling tower, and what stands under the lifting machine while the piece hangs, as the ground stage has it. */
function railMarks(scene: Scene, placing: Placing, room: PaperBox): Mark[] {
  const { rails } = scene.subject.main.system
  const lines = (rails ?? []).flatMap((rail) => {
    const [x] = onPaper(placing, [rail.value as number, 0])
    return x < room.left + 0.5 || x > room.right - 0.5
      ? []
      : [
          line(
            [
              [x, room.top + 1],
              [x, room.bottom - 1],
            ],
            FINE,
          ),
        ]
  })
  const feet = feetOf(scene)
    .map(({ at }) => onPaper(placing, [at[0], at[1]]))
    .filter((at) => isWithin(at, room))
    .map(([x, y]) => box({ left: x - 0.9, right: x + 0.9, top: y - 0.9, bottom: y + 0.9 }, { fill: 'ink' }))
  return [...lines, ...feet]
}

const isWithin = ([x, y]: PaperPoint, room: PaperBox): boolean =>
  x > room.left + 1 && x < room.right - 1 && y > room.top + 1 && y < room.bottom - 1

/** Legs of the tower or the crane, where the piece is taken up. */
const feetOf = ({ subject }: Scene) =>
  (subject.stages.ground.steps.find((s) => s.lift === subject.id)?.loads ?? []).filter(
    (load) => (load.kind === 'leg' || load.kind === 'crane') && load.when.includes('lifting'),
  )

function footLabels(scene: Scene, { units, forceUnit }: LiftSheet, placing: Placing, room: PaperBox): Label[] {
  return feetOf(scene).flatMap(({ at, what, force }) => {
    const place = onPaper(placing, [at[0], at[1]])
    if (!isWithin(place, room)) return []
    const towards = at[0] < 0 ? 180 : 0
    return [
      {
        lines: [
          what.split(' of ')[0] as string,
          `${exactFigure({ value: force.value, unit: 'N' }, units).text} ${forceUnit}`,
        ],
        at: place,
        towards,
        size: SMALL,
        backed: true,
      },
    ]
  })
}

/** Shorter moves aside are not drawn as a way, m. */
const LEAST_WAY = 1

/** Swept outline of each straight move aside, and the gap asked for about it. */
function wayMarks(scene: Scene, placing: Placing): Mark[] {
  const asked = scene.subject.stages.model.project.settings.clearanceInShaft?.value
  return scene.poses.flatMap((to, i): Mark[] => {
    const from = scene.poses[i - 1]
    if (from === undefined) return []
    const aside = Math.hypot(to.shift[0] - from.shift[0], to.shift[1] - from.shift[1])
    if (aside < LEAST_WAY) return []
    const ends = [from, to].flatMap((pose) => outlineAt(scene, pose, LOOK).flat())
    const hull = convexHull(ends)
    const swept: Shape = { kind: 'shape', loops: [loopOnPaper(placing, hull)], stroke: CHAIN }
    if (asked === undefined) return [swept]
    return [swept, { kind: 'shape', loops: [loopOnPaper(placing, grown(hull, asked))], stroke: ASKED }]
  })
}

function pieceMarks(scene: Scene, placing: Placing): Mark[] {
  const at = (pose: Scene['start']) => outlineAt(scene, pose, LOOK)
  const shown = inShaft(scene) ? clearPose(scene) : scene.start
  return [
    ...[scene.start, scene.end].filter((pose) => away(pose, shown)).map((pose) => ghostOf(at(pose), placing, EDGE)),
    shapeOf(at(shown), placing, { fill: 'steel', stroke: EDGE }),
    ...cogMark(onPaper(placing, seen(LOOK, cogAt(scene, shown))), 1.2),
  ]
}

/** Whether two poses differ in plan, or in how the piece lies. */
const away = (a: Pose, b: Pose): boolean =>
  Math.hypot(a.shift[0] - b.shift[0], a.shift[1] - b.shift[1]) > LEAST_WAY ||
  Math.abs((a.turn[2][2] as number) - (b.turn[2][2] as number)) > 0.01

function travelMarks(scene: Scene, sheet: LiftSheet, placing: Placing, room: PaperBox): Mark[] {
  const [first, last] = [scene.subject.outcome.places[0], scene.subject.outcome.places.at(-1)]
  if (first === undefined || last === undefined) return []
  const [a, b] = [first, last].map(({ at }) => onPaper(placing, seen(LOOK, at))) as [PaperPoint, PaperPoint]
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  if (length < 6) return []
  const way: PaperPoint = [(a[0] - b[0]) / length, (a[1] - b[1]) / length]
  const [u, v] = seen(LOOK, first.at)
  const rise = last.at[1] - first.at[1]
  return [
    line([a, b], THIN),
    arrow(b, way, { width: 0.25, ink: 'ink' }),
    ...(Math.abs(rise) < 1
      ? []
      : [
          dimension({
            name: 'travel along the runway',
            value: Math.abs(rise),
            words: `travel ${lengthText(Math.abs(rise), sheet.units)}`,
            placing,
            from: [u, Math.min(first.at[1], last.at[1])],
            along: 'up',
            offset: -(room.right - onPaper(placing, [u, v])[0] - 8),
          }),
        ]),
  ]
}

/** Boxes of fixed things on paper, which no words are to cover. */
function thingBoxes(scene: Scene, placing: Placing): PaperBox[] {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined || !inShaft(scene)) return []
  return Object.values(shaft.obstructions).map((o) => {
    const loop = loopOnPaper(placing, planOutline(o))
    const [xs, ys] = [loop.map(([x]) => x), loop.map(([, y]) => y)]
    return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
  })
}

interface PlanGap extends PlanPlace {
  check: Check
  gap: number
}

/** Gaps of the lift stage's checks, each where it lies in plan. */
function gapsOf(scene: Scene): PlanGap[] {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined || !inShaft(scene)) return []
  const checks = scene.subject.outcome.checks.filter((c) => c.kind === 'lift.path.clearance')
  return planPlaces(shaft, outlineAt(scene, clearPose(scene), LOOK)).flatMap((place) => {
    const check = checks.find((c) => c.id.endsWith(`/${place.id}`))
    return check?.capacity.value === undefined ? [] : [{ ...place, check, gap: check.capacity.value }]
  })
}

/** From what is near towards the piece: the value that the check has, to scale. */
function gapLine({ from, to, what, gap, check }: PlanGap, placing: Placing): Mark[] {
  const length = Math.hypot(from[0] - to[0], from[1] - to[1])
  if (length === 0 || gap <= 0) return []
  const along: Point2 = [(from[0] - to[0]) / length, (from[1] - to[1]) / length]
  const ink = check.verdict === 'fail' ? 'fail' : 'ink'
  const measured = dimension({
    name: `gap to ${what}`,
    value: gap,
    words: '',
    placing,
    from: to,
    along,
    offset: 0,
    ink,
    silent: true,
  })
  return [measured]
}

function labelsOf(scene: Scene, sheet: LiftSheet, gaps: readonly PlanGap[], placing: Placing): Label[] {
  const bay = bayReached(scene)
  return [
    ...gaps.map((gap): Label => gapLabel(gap, sheet, placing)),
    ...(bay === undefined ? [] : [bayLabel(scene, bay, sheet, placing)]),
  ]
}

function gapLabel({ from, to, what, gap, check }: PlanGap, { units }: LiftSheet, placing: Placing): Label {
  const asked = check.demand.value === undefined ? '' : `, asked ${lengthText(check.demand.value, units)}`
  return {
    lines: [what.split(' of ')[0] as string, `${lengthText(gap, units)}${asked}`],
    at: onPaper(placing, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]),
    towards: (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI,
    from: 2,
    ink: check.verdict === 'fail' ? 'fail' : 'ink',
    backed: true,
    size: SMALL,
  }
}

function bayLabel(scene: Scene, bay: NonNullable<ReturnType<typeof bayOf>>, sheet: LiftSheet, placing: Placing): Label {
  const { left, top } = bayFrame(bay)
  const level = lengthText(bay.bay.level.value as number, sheet.units)
  const pressure = scene.subject.stages.ground.steps.find((s) => s.lift === scene.subject.id)?.landing?.pressure
  const used = pressure?.value === undefined ? 'open' : showQuantity(pressure.value, 'Pa', sheet.units)
  const name = bay.bay.name === undefined || bay.bay.name.includes(bay.id) ? bay.id : `${bay.id}, ${bay.bay.name}`
  return {
    lines: [name, `level +${level}`, `${showQuantity(bay.bay.allowable.value, 'Pa', sheet.units)}, ${used} used`],
    at: onPaper(placing, [left, top]),
    towards: -45,
    weight: 700,
    size: SMALL,
    backed: true,
  }
}
