import { subtract, unit, type Vec3 } from '../../numeric/vector.ts'
import type { Check } from '../../working/check.ts'
import { type Mark, type PaperBox, type PaperPoint, type Shape, text, textBox, textsOf, type View } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import type { Point2 } from '../outline/convex.ts'
import { LOOKING_DOWN, LOOKING_LEFT, type Look, moved, type Standing, section, seen } from '../outline/picture.ts'
import { shortened } from '../paper/border.ts'
import { clippedLoop } from '../paper/clip.ts'
import { dimension } from '../paper/dimension.ts'
import { hatch } from '../paper/hatch.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { EDGE, FINE, OUTLINE, SMALL } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing, scaleText } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import { type LiftSheet, listedNames } from '../sheet/liftSheet.ts'
import { withRef } from '../sheet/refs.ts'
import { underHead, viewHead } from './head.ts'
import { planOutline } from './planGaps.ts'
import { CHORD_ERROR, type Scene, type SceneGap } from './scene.ts'
import { emptyView } from './section.ts'

/** A gap that rises less than this share of itself is cut level. */
const LEVEL = 0.05

/** View D: the tightest gap, large, cut where it is. */
export function gapView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  if (scene.gap === undefined) return emptyView('D', 'Tightest gap', 'no clearance has been worked out', room)
  const { gap } = scene
  const piece = moved(scene.piece, scene.tightest)
  const part = moved(gap.part, scene.tightest)
  const { other, ends } = gap
  const { look, words } = lookAlong(ends)
  const through = ends?.from ?? gap.at
  const inner = underHead(room)
  const window: PaperBox = { ...inner, bottom: inner.bottom - 9 }
  const [u, v] = seen(look, gap.at)
  const placing = closeUp([u, v], gap.value, window)
  const cut = (set: readonly Standing[], fill: Shape['fill'], angle: number | undefined): Mark[] =>
    cutMarks(set, look, through, placing, window, fill, angle)
  const drawn: Mark[] = [
    ...cut(other, 'paper', Math.PI / 4),
    ...fixedMarks(scene, look, placing, window),
    ...cut(piece, 'pale', undefined),
    ...cut(part, 'steel', -Math.PI / 4),
    { kind: 'shape', loops: [corners(window)], stroke: FINE },
    ...(ends === undefined ? [] : [gapDimension(ends, look, placing, gap, isShort(scene, gap), sheet)]),
  ]
  const labels = labelMarks(
    [valueLabel(scene, sheet, gap, ends, look, placing)],
    textsOf(drawn).map(textBox),
    window,
    listedNames(sheet),
  )
  return {
    kind: 'view',
    id: 'gap',
    title: `D. Tightest gap, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [
      ...viewHead('D', 'Tightest gap', `${scaleText(placing)} · ${words}`, room),
      ...drawn,
      ...labels,
      ...wordMarks(scene, sheet, gap, window),
    ],
  }
}

const RATIOS = [100, 50, 25, 20, 10]
/** A gap is drawn at least this long, mm, where the largest scale allows. */
const LEAST_GAP = 12

function closeUp(of: Point2, gap: number, { left, top, right, bottom }: PaperBox): Placing {
  const scale = RATIOS.find((ratio) => (gap * 1000) / ratio >= LEAST_GAP) ?? 5
  return { scale, of, at: [(left + right) / 2, (top + bottom) / 2] }
}

/** The check of the lift stage that speaks of this gap; none of a gap that the order of removal has found. */
export const checkOf = ({ subject }: Scene, { to, inPlan }: SceneGap): Check | undefined =>
  inPlan ? subject.outcome.checks.find((c) => c.kind === 'lift.path.clearance' && c.id.endsWith(`/${to}`)) : undefined

const isShort = (scene: Scene, gap: SceneGap): boolean => checkOf(scene, gap)?.verdict === 'fail'

type Ends = NonNullable<SceneGap['ends']>

/** A cut that the gap lies in, so that it is seen at its true length: level, or upright along it. */
function lookAlong(ends: Ends | undefined): { look: Look; words: string } {
  const [x, y, z] = ends === undefined ? [1, 0, 0] : unit(subtract(ends.to, ends.from))
  if (Math.abs(z) < LEVEL) return { look: LOOKING_DOWN, words: 'cut level, seen from above' }
  const flat = Math.hypot(x, y)
  if (flat < LEVEL) return { look: LOOKING_LEFT, words: 'cut along the drive, looking left' }
  const across: Vec3 = x >= 0 ? [x / flat, y / flat, 0] : [-x / flat, -y / flat, 0]
  return { look: { across, up: [0, 0, 1] }, words: 'cut upright along the gap' }
}

function cutMarks(
  set: readonly Standing[],
  look: Look,
  through: Vec3,
  placing: Placing,
  window: PaperBox,
  fill: Shape['fill'],
  angle: number | undefined,
): Mark[] {
  if (set.length === 0) return []
  const loops = section(set, { look, through }, CHORD_ERROR)
    .map((loop) => clippedLoop(loopOnPaper(placing, loop), window))
    .filter((loop) => loop.length > 2)
  if (loops.length === 0) return []
  return [
    { kind: 'shape', loops, ...(fill === undefined ? {} : { fill }), stroke: angle === undefined ? EDGE : OUTLINE },
    ...(angle === undefined ? [] : hatch(loops, 1.6, angle, FINE)),
  ]
}

/** Fixed things and the wall of the shaft, where the cut is level. */
function fixedMarks({ subject }: Scene, look: Look, placing: Placing, window: PaperBox): Mark[] {
  const { shaft } = subject.stages.model.project
  if (shaft === undefined || look !== LOOKING_DOWN) return []
  const things = Object.values(shaft.obstructions).map((o) => [
    clippedLoop(loopOnPaper(placing, planOutline(o)), window),
  ])
  return [...things, wallLoops((shaft.clearDiameter.value as number) / 2, placing, window)]
    .filter((loops) => loops.every((loop) => loop.length > 2))
    .flatMap((loops): Mark[] => [
      { kind: 'shape', loops, fill: 'concrete', stroke: EDGE },
      ...hatch(loops, 1.6, Math.PI / 4, FINE),
    ])
}

const BORE_SIDES = 720

/** What of the window lies outside the bore. */
function wallLoops(radius: number, placing: Placing, window: PaperBox): PaperPoint[][] {
  const bore = Array.from({ length: BORE_SIDES }, (_, k): Point2 => {
    const angle = (2 * Math.PI * k) / BORE_SIDES
    return [radius * Math.cos(angle), radius * Math.sin(angle)]
  })
  return [corners(window), clippedLoop(loopOnPaper(placing, bore), window)]
}

const corners = ({ left, top, right, bottom }: PaperBox): PaperPoint[] => [
  [left, top],
  [right, top],
  [right, bottom],
  [left, bottom],
]

function gapDimension(
  { from, to }: Ends,
  look: Look,
  placing: Placing,
  gap: SceneGap,
  short: boolean,
  { units }: LiftSheet,
): Mark {
  const [a, b] = [seen(look, from), seen(look, to)]
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const along = length === 0 ? ([1, 0] as const) : ([(b[0] - a[0]) / length, (b[1] - a[1]) / length] as const)
  return dimension({
    name: `least gap to ${gap.to}`,
    value: gap.value,
    words: lengthText(gap.value, units),
    silent: true,
    placing,
    from: a,
    along,
    offset: 0,
    ink: short ? 'fail' : 'ink',
  })
}

function valueLabel(
  scene: Scene,
  { units }: LiftSheet,
  gap: SceneGap,
  ends: Ends | undefined,
  look: Look,
  placing: Placing,
): Label {
  const [u, v] = seen(look, ends?.from ?? gap.at)
  const [p, q] = seen(look, ends?.to ?? gap.at)
  return {
    lines: [lengthText(gap.value, units)],
    at: onPaper(placing, [(u + p) / 2, (v + q) / 2]),
    towards: (Math.atan2(q - v, p - u) * 180) / Math.PI + 90,
    from: 2.2,
    weight: 700,
    size: 3,
    ink: isShort(scene, gap) ? 'fail' : 'ink',
    backed: true,
  }
}

const CAPTION = 2.8

/** What the gap is, in words under the picture. */
function wordMarks(
  scene: Scene,
  { units, checks }: LiftSheet,
  gap: SceneGap,
  { left, right, bottom }: PaperBox,
): Mark[] {
  const own = checkOf(scene, gap)
  const asked = own?.demand.value
  const listed = checks.find((c) => c.id === own?.id)
  const ref = listed === undefined ? '' : `[${listed.number}]`
  const ink = isShort(scene, gap) ? 'fail' : 'ink'
  const words = `${lengthText(gap.value, units)} clear to ${gap.name}`
  const room = textWidth(` ${ref}`, { size: CAPTION, weight: 700, tabular: false })
  return [
    // a long name is cut short: whose it is stands below by its id
    text([left, bottom + 4.4], withRef(shortened(words, CAPTION, right - left - room, 700), ref), {
      size: CAPTION,
      weight: 700,
      ink,
    }),
    text([left, bottom + 7.8], asked === undefined ? gap.to : `${gap.to}; ${lengthText(asked, units)} asked`, {
      size: SMALL,
      ink: 'quiet',
    }),
  ]
}
