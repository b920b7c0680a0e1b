import { subtract, unit, type Vec3 } from '../../numeric/vector.ts'
import { type Mark, type PaperBox, type PaperPoint, type Shape, textBox, textsOf, type View } from '../drawing.ts'
import {
  LOOKING_DOWN,
  LOOKING_FORWARD,
  LOOKING_LEFT,
  type Look,
  moved,
  type Standing,
  section,
  seen,
} from '../outline/picture.ts'
import { clippedLoop } from '../paper/clip.ts'
import { dimension } from '../paper/dimension.ts'
import { hatch } from '../paper/hatch.ts'
import { type Label, placeLabels } from '../paper/labels.ts'
import { EDGE, FINE, OUTLINE } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { standing } from '../sheet/subject.ts'
import { inset, underHead, viewHead } from './head.ts'
import { nearestOn } from './nearest.ts'
import { planOutline } from './planGaps.ts'
import type { Scene, SceneGap } from './scene.ts'
import { emptyView } from './section.ts'

const LOOKS: readonly { look: Look; words: string; axis: 0 | 1 | 2 }[] = [
  { look: LOOKING_DOWN, words: 'cut level, seen from above', axis: 2 },
  { look: LOOKING_LEFT, words: 'cut along the drive, looking left', axis: 1 },
  { look: LOOKING_FORWARD, words: 'cut across the drive, seen from behind', axis: 0 },
]

/** View D: the tightest gap, large, cut where it is. */
export function gapView(scene: Scene, sheet: LiftSheet, room: PaperBox): View {
  if (scene.gap === undefined) return emptyView('D', 'Tightest gap', 'no clearance has been worked out', room)
  const { gap } = scene
  const piece = moved(scene.piece, scene.tightest)
  const other = otherOf(scene, gap)
  const ends = endsOf(piece, other, gap)
  const { look, words } = lookAlong(ends)
  const inner = underHead(room)
  const window: PaperBox = { ...inner, bottom: inner.bottom - 9 }
  const [u, v] = seen(look, gap.at)
  const half = Math.max(0.6, gap.value * 2.2)
  const placing = placed({ left: u - half, right: u + half, bottom: v - half * 0.7, top: v + half * 0.7 }, window)
  const cut = (set: readonly Standing[], fill: Shape['fill'], angle: number): Mark[] =>
    cutMarks(set, look, gap.at, placing, window, fill, angle)
  const drawn: Mark[] = [
    ...cut(other, 'paper', Math.PI / 4),
    ...fixedMarks(scene, look, placing, window),
    ...cut(piece, 'steel', -Math.PI / 4),
    {
      kind: 'shape',
      loops: [
        [
          [window.left, window.top],
          [window.right, window.top],
          [window.right, window.bottom],
          [window.left, window.bottom],
        ],
      ],
      stroke: FINE,
    },
    ...(ends === undefined ? [] : [gapDimension(ends, look, placing, gap, isShort(scene, gap))]),
  ]
  const labels = placeLabels(
    labelsOf(scene, sheet, gap, ends, look, placing),
    textsOf(drawn).map(textBox),
    inset(window, 0.6),
  )
  return {
    kind: 'view',
    id: 'gap',
    title: `D. Tightest gap, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [...viewHead('D', 'Tightest gap', `${scaleText(placing)} · ${words}`, room), ...drawn, ...labels.marks],
  }
}

const isShort = ({ subject }: Scene, { value }: SceneGap): boolean => {
  const asked = subject.stages.model.project.settings.clearanceInShaft?.value
  return asked !== undefined && value < asked
}

/** Shapes of what is near: the part named, or all that is left when it is none of the machine's. */
function otherOf(scene: Scene, { to }: SceneGap): readonly Standing[] {
  const own = standing(scene.subject.stages, [to])
  return own.length > 0 ? own : []
}

interface Ends {
  from: Vec3
  to: Vec3
}

/** Where the gap begins on the piece, and the point it runs to. */
function endsOf(piece: readonly Standing[], other: readonly Standing[], { at, value }: SceneGap): Ends | undefined {
  const on = nearestOn(piece, at)
  if (on === undefined) return undefined
  const beyond = nearestOn(other, on.at)
  const to = beyond !== undefined && beyond.away < value * 2 + 0.05 ? beyond.at : at
  return { from: on.at, to }
}

function lookAlong(ends: Ends | undefined): (typeof LOOKS)[number] {
  if (ends === undefined) return LOOKS[0] as (typeof LOOKS)[number]
  const way = unit(subtract(ends.to, ends.from))
  return [...LOOKS].sort((a, b) => Math.abs(way[a.axis]) - Math.abs(way[b.axis]))[0] as (typeof LOOKS)[number]
}

function cutMarks(
  set: readonly Standing[],
  look: Look,
  through: Vec3,
  placing: Placing,
  window: PaperBox,
  fill: Shape['fill'],
  angle: number,
): Mark[] {
  if (set.length === 0) return []
  const loops = section(set, { look, through }, (0.03 * placing.scale) / 1000)
    .map((loop) => clippedLoop(loopOnPaper(placing, loop), window))
    .filter((loop) => loop.length > 2)
  if (loops.length === 0) return []
  return [
    { kind: 'shape', loops, ...(fill === undefined ? {} : { fill }), stroke: OUTLINE },
    ...hatch(loops, 1.6, angle, FINE),
  ]
}

/** Fixed things of the shaft, where the cut is level. */
function fixedMarks({ subject }: Scene, look: Look, placing: Placing, window: PaperBox): Mark[] {
  const { shaft } = subject.stages.model.project
  if (shaft === undefined || look !== LOOKING_DOWN) return []
  return Object.values(shaft.obstructions).flatMap((o): Mark[] => {
    const loop = clippedLoop(loopOnPaper(placing, planOutline(o)), window)
    return loop.length < 3
      ? []
      : [{ kind: 'shape', loops: [loop], fill: 'concrete', stroke: EDGE }, ...hatch([loop], 1.6, Math.PI / 4, FINE)]
  })
}

function gapDimension({ from, to }: Ends, look: Look, placing: Placing, gap: SceneGap, short: boolean): Mark {
  const [a, b] = [seen(look, from), seen(look, to)]
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const along = length === 0 ? ([1, 0] as const) : ([(b[0] - a[0]) / length, (b[1] - a[1]) / length] as const)
  return dimension({
    name: `least gap to ${gap.to}`,
    value: gap.value,
    words: '',
    placing,
    from: a,
    along,
    offset: 0,
    ink: short ? 'fail' : 'ink',
    silent: true,
  })
}

function labelsOf(
  scene: Scene,
  sheet: LiftSheet,
  gap: SceneGap,
  ends: Ends | undefined,
  look: Look,
  placing: Placing,
): Label[] {
  const asked = scene.subject.stages.model.project.settings.clearanceInShaft?.value
  const at: PaperPoint = onPaper(placing, seen(look, ends === undefined ? gap.at : middle(ends)))
  const short = isShort(scene, gap)
  return [
    {
      lines: [
        `${lengthText(gap.value, sheet.units)} clear`,
        `to ${gap.to}`,
        ...(asked === undefined ? [] : [`${lengthText(asked, sheet.units)} asked`]),
      ],
      at,
      towards: -60,
      from: 4,
      weight: 700,
      ink: short ? 'fail' : 'ink',
      size: 3,
      backed: true,
    },
  ]
}

const middle = ({ from, to }: Ends): Vec3 => [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2]
