import type { Vec3 } from '../../numeric/vector.ts'
import {
  box,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  textBox,
  textsOf,
  type View,
  widerBox,
} from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { LOOKING_FORWARD, LOOKING_LEFT, type Look, seen } from '../outline/picture.ts'
import { cogMark, dimension } from '../paper/dimension.ts'
import { alongBoxes, type Label, labelMarks } from '../paper/labels.ts'
import { AXIS, EDGE, OUTLINE, SMALL } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthText, lengthUnit } from '../sheet/figures.ts'
import type { SheetLeg } from '../sheet/legs.ts'
import { type LiftSheet, listedNames } from '../sheet/liftSheet.ts'
import { withRef } from '../sheet/refs.ts'
import { inset, underHead, viewHead } from './head.ts'
import { clearPose } from './poses.ts'
import { cogAt, frameOfLoops, framesTogether, hookAt, outlineAt, pointsAt, type Scene, shapeOf } from './scene.ts'
import { emptyView } from './section.ts'

/** Room kept beside the picture for the words of its legs, mm. */
const BESIDE = { few: 11, many: 18 }

interface Hung {
  hook: Vec3
  legs: readonly { leg: SheetLeg; lower: Vec3; upper: Vec3 }[]
}

/**
 * View C: how the piece hangs: lengths, tensions, ratings and angles on the legs they belong to.
 *
 * @param kept what else stands in the lower right corner of the room: no words are put there
 */
export function riggingView(scene: Scene, sheet: LiftSheet, room: PaperBox, letter = 'C', kept?: PaperBox): View {
  const pose = clearPose(scene)
  const hung = hungOf(scene, sheet, pose)
  if (hung === undefined || hung.legs.length === 0)
    return emptyView(letter, 'Rigging', 'open: the rigging does not settle, or is not planned', room)
  const look = lookOf(hung)
  const inner = underHead(room)
  const loops = outlineAt(scene, pose, look)
  const frame = framesTogether([frameOfLoops(loops), pointFrame(seen(look, hung.hook), 1.2)])
  const beside = hung.legs.length > FEW ? BESIDE.many : BESIDE.few
  const sides = { ...inner, left: inner.left + 11 + beside, right: inner.right - 4 - beside }
  const placing = placed(frame, sides, 'middle')
  const drawn: Mark[] = [
    shapeOf(loops, placing, { fill: 'pale', stroke: EDGE }),
    ...spreaderMarks(hung, look, placing),
    ...legMarks(hung, look, placing),
    ...hookMarks(hung, look, placing),
    ...cogMark(onPaper(placing, seen(look, cogAt(scene, pose)))),
    ...heightMarks(scene, hung, look, placing, sheet, pose, inner.left + 7),
  ]
  const taken = [...textsOf(drawn).map(textBox), ...alongOutline(loops, placing), ...(kept === undefined ? [] : [kept])]
  const labels = labelMarks(
    labelsOf(scene, hung, look, placing, sheet),
    taken,
    inset(inner, 0.5),
    listedNames(sheet),
    kept === undefined ? undefined : kept.left - BEFORE_KEPT,
  )
  const seenFrom = look === LOOKING_FORWARD ? 'seen from behind' : 'looking left'
  return {
    kind: 'view',
    id: 'rigging',
    title: `${letter}. Rigging, ${seenFrom}, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [
      ...viewHead(
        letter,
        `Rigging, ${seenFrom}`,
        `${scaleText(placing)} · ${hung.legs.length} legs · hangs ${sheet.tilt} off plumb · ${lengthUnit(sheet.units)}`,
        room,
      ),
      ...drawn,
      ...labels,
    ],
  }
}

/** Air between words and what else stands in the corner, mm. */
const BEFORE_KEPT = 3

/** Air between the outline of the piece and words, mm. */
const OFF_OUTLINE = 0.7

/** Boxes along the outline, so that no words stand on it or close to it. */
const alongOutline = (loops: readonly (readonly Point2[])[], placing: Placing): PaperBox[] =>
  loops.flatMap((loop) =>
    loopOnPaper(placing, loop).flatMap((from, i, all) =>
      alongBoxes([from, all[(i + 1) % all.length] as PaperPoint]).map((b) => widerBox(b, OFF_OUTLINE)),
    ),
  )

const pointFrame = ([u, v]: readonly [number, number], around: number) => ({
  left: u - around,
  right: u + around,
  bottom: v - around,
  top: v + around,
})

function hungOf(scene: Scene, sheet: LiftSheet, pose: Scene['start']): Hung | undefined {
  const hook = hookAt(scene, pose)
  if (hook === undefined) return undefined
  const points = pointsAt(scene, pose)
  const legs = scene.subject.outcome.legs.flatMap((leg, i) => {
    const lower = points.get(leg.to)
    const own = sheet.legs[i]
    if (own === undefined || leg.ends === undefined) return []
    const upper = shifted(hook, leg.ends[1])
    return [{ leg: own, lower: lower ?? shifted(hook, leg.ends[0]), upper }]
  })
  return { hook, legs }
}

const shifted = (p: Vec3, by: Vec3): Vec3 => [p[0] + by[0], p[1] + by[1], p[2] + by[2]]

/** From where the legs stand widest apart. */
function lookOf({ legs, hook }: Hung): Look {
  const spread = (axis: 0 | 1): number => {
    const places = legs.flatMap(({ lower, upper }) => [lower[axis], upper[axis], hook[axis]])
    return Math.max(...places) - Math.min(...places)
  }
  return spread(1) >= spread(0) ? LOOKING_FORWARD : LOOKING_LEFT
}

const paperOf = (look: Look, placing: Placing, p: Vec3): PaperPoint => onPaper(placing, seen(look, p))

function spreaderMarks({ hook, legs }: Hung, look: Look, placing: Placing): Mark[] {
  const tops = legs.map(({ upper }) => paperOf(look, placing, upper))
  const at = paperOf(look, placing, hook)
  const [left, right] = [Math.min(...tops.map((p) => p[0])), Math.max(...tops.map((p) => p[0]))]
  const under = tops.some((p) => Math.hypot(p[0] - at[0], p[1] - at[1]) > 0.5)
  if (!under || right - left < 0.5) return under ? tops.map((p) => line([at, p], EDGE)) : []
  const y = tops.reduce((sum, p) => sum + p[1], 0) / tops.length
  return [
    line([at, [left, y]], EDGE),
    line([at, [right, y]], EDGE),
    box({ left: left - 1, right: right + 1, top: y - 0.9, bottom: y + 0.9 }, { fill: 'steel', stroke: EDGE }),
  ]
}

function legMarks({ legs }: Hung, look: Look, placing: Placing): Mark[] {
  return legs.flatMap(({ lower, upper, leg }): Mark[] => {
    const [a, b] = [paperOf(look, placing, upper), paperOf(look, placing, lower)]
    return [
      line([a, b], leg.slack ? AXIS : OUTLINE),
      ...[a, b].map((centre): Mark => ({ kind: 'circle', centre, radius: 0.8, fill: 'paper', stroke: EDGE })),
    ]
  })
}

function hookMarks({ hook }: Hung, look: Look, placing: Placing): Mark[] {
  const [x, y] = paperOf(look, placing, hook)
  return [
    line(
      [
        [x, y - 7],
        [x, y],
      ],
      OUTLINE,
    ),
    box({ left: x - 1.3, right: x + 1.3, top: y - 3.2, bottom: y }, { fill: 'ink' }),
  ]
}

/** Heights on the left: hook to the spreader, spreader to the points, points to the centre of gravity. */
function heightMarks(
  scene: Scene,
  { hook, legs }: Hung,
  look: Look,
  placing: Placing,
  sheet: LiftSheet,
  pose: Scene['start'],
  edge: number,
): Mark[] {
  const first = legs[0]
  if (first === undefined) return []
  const cog = cogAt(scene, pose)
  const levels = [hook[2], first.upper[2], first.lower[2], cog[2]].filter(
    (z, i, all) => i === 0 || Math.abs(z - (all[i - 1] as number)) > 0.02,
  )
  const left = Math.min(
    ...legs.map(({ lower }) => seen(look, lower)[0]),
    ...outlineAt(scene, pose, look)
      .flat()
      .map(([u]) => u),
  )
  const names = ['hook to the spreader', 'along the legs, upright', 'lifting points to the centre of gravity']
  return levels.slice(1).map((z, i) =>
    dimension({
      name: names[i] ?? 'height',
      value: Math.abs((levels[i] as number) - z),
      words: lengthText(Math.abs((levels[i] as number) - z), sheet.units),
      placing,
      from: [left, Math.min(levels[i] as number, z)],
      along: 'up',
      offset: onPaper(placing, [left, 0])[0] - edge,
    }),
  )
}

function labelsOf(scene: Scene, { hook, legs }: Hung, look: Look, placing: Placing, sheet: LiftSheet): Label[] {
  const at = paperOf(look, placing, hook)
  const fails = sheet.verdict === 'fail' && (sheet.use ?? 0) > 1
  return [
    {
      lines: [
        `${sheet.demand.text} ${sheet.massUnit}`,
        withRef(`${sheet.useText} of ${sheet.allowed.text}`, sheet.refs.hook),
      ],
      at: [at[0] + 1.3, at[1] - 3],
      towards: 20,
      weight: 700,
      ink: fails ? 'fail' : 'ink',
      size: 2.8,
    },
    ...legs.map(({ leg, lower, upper }): Label => {
      const [a, b] = [paperOf(look, placing, upper), paperOf(look, placing, lower)]
      return {
        lines: legs.length > FEW ? shortWords(leg, sheet) : fullWords(leg, sheet),
        at: between(a, b, 0.35),
        or: [between(a, b, 0.1), between(a, b, 0.6)],
        towards: b[0] >= at[0] ? 0 : 180,
        within: 60,
        from: 1.2,
        weight: 700,
        size: SMALL,
        backed: true,
      }
    }),
    ...gearLabels(scene, legs, look, placing),
  ]
}

const between = (a: PaperPoint, b: PaperPoint, share: number): PaperPoint => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
]

/** Up to so many legs have their sling's words beside them; with more, these stand in the table. */
const FEW = 2

const shortWords = (leg: SheetLeg, { forceUnit, refs }: LiftSheet): string[] => [
  `${leg.id}: ${leg.tension.text} ${forceUnit}`,
  withRef(`worst ${leg.worst.text}, use ${leg.useText}`, refs.legs[leg.id] ?? ''),
  `${leg.length.text}, ${leg.angleText} from plumb`,
]

const fullWords = (leg: SheetLeg, sheet: LiftSheet): string[] => [
  `${leg.id}: ${leg.tension.text} ${sheet.forceUnit}`,
  `worst ${leg.worst.text}`,
  slingWords(leg, sheet),
  `${leg.length.text}, rated ${leg.rated.text}`,
  withRef(`use ${leg.useText}, ${leg.angleText} from plumb`, sheet.refs.legs[leg.id] ?? ''),
]

/** The sling's name and tag; the tag alone where the sheet shows that name short: the table has both. */
const slingWords = ({ item, itemName }: SheetLeg, { inFull = [] }: LiftSheet): string =>
  inFull.some(({ short }) => short === itemName) ? item : `${itemName} ${item}`

function gearLabels(scene: Scene, legs: Hung['legs'], look: Look, placing: Placing): Label[] {
  const { main, stages } = scene.subject
  const { gear } = stages.model.project
  const nodeGear = [...new Set(Object.values(main.rigging?.nodes ?? {}).map((n) => n.gear))]
  const top = legs[0]
  if (top === undefined) return []
  const at = paperOf(look, placing, top.upper)
  return nodeGear.map((id) => ({
    lines: [`${gear[id]?.name ?? id} ${id}`],
    at,
    towards: 150,
    size: SMALL,
    backed: true,
  }))
}
