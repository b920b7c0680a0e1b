import type { NearestOverhead } from '../../lift/index.ts'
import { convexHull } from '../../numeric/polygon.ts'
import { add, dot, scale, subtract, unit, type Vec3 } from '../../numeric/vector.ts'
import type { Check } from '../../working/check.ts'
import { line, type Mark, type PaperBox, type PaperPoint, type Stroke } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { type Look, seen } from '../outline/picture.ts'
import { clippedLoop } from '../paper/clip.ts'
import { arrow, dimension } from '../paper/dimension.ts'
import { alongBoxes, type Label } from '../paper/labels.ts'
import { CHAIN, SMALL, THIN } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { withRef } from '../sheet/refs.ts'
import { checkOf } from './gapView.ts'
import type { Scene, SceneGap } from './scene.ts'
import { bayAt } from './standingMarks.ts'

/** One of the least clearances of the way: where it is, to what, and how much. */
export interface LeastGap {
  /** As the order of removal has it; in plan to what is fixed in the shaft; to what stands on the bays; of or to what is over the piece. */
  kind: 'order' | 'fixed' | 'standing' | 'overhead'
  what: string
  /** The bay on which it stands. */
  bay?: string
  /** What comes near, where that is not the piece as a whole. */
  of?: string
  /** Outline of the boom that it is to, as it stands then, corners in the site frame. */
  boom?: readonly Vec3[]
  /** m; below zero it strikes. */
  value: number
  /** On the piece, site frame, and the way from there. */
  from: Vec3
  along: Vec3
  ref: string
  fails: boolean
}

/** The least clearances of the way, of each kind the least. */
function leastGaps(scene: Scene, sheet: LiftSheet): LeastGap[] {
  const inShaft = [scene.gap, scene.fixedGap].flatMap((gap) => (gap === undefined ? [] : gapInShaft(scene, sheet, gap)))
  const overhead = gapsOverhead(scene, sheet)
  const standing = scene.subject.outcome.nearestStanding
  if (standing?.gap.value === undefined) return [...inShaft, ...overhead]
  const { what, from, along } = standing
  const value = standing.gap.value
  const check = scene.subject.outcome.checks.find((c) => c.kind === 'lift.path.standing')
  const bay = bayAt(scene.subject.stages, add(from, scale(along, Math.max(0, value))))
  const beside: LeastGap = {
    kind: 'standing',
    what,
    value,
    from,
    along,
    ...(bay === undefined ? {} : { bay }),
    ...judgedBy(check, sheet),
  }
  return [...inShaft, beside, ...overhead]
}

/** Of rigging to wall and fixed things, and of what hangs from a crane to its boom. */
function gapsOverhead({ subject: { outcome } }: Scene, sheet: LiftSheet): LeastGap[] {
  return outcome.overhead.nearest.map((near): LeastGap => {
    const check = outcome.checks.find(({ id }) => id === near.check)
    return {
      kind: 'overhead',
      what: near.to,
      of: near.what,
      value: near.gap,
      from: near.from,
      along: near.along,
      ...(near.boom === undefined ? {} : { boom: cornersOf(near.boom) }),
      ...judgedBy(check, sheet),
    }
  })
}

/** The eight corners of a boom, a straight box from its pin to over the hook. */
const cornersOf = ({ pin, head, left, under, depth, width }: NonNullable<NearestOverhead['boom']>): Vec3[] =>
  [pin, head].flatMap((end) =>
    [-0.5, 0.5].flatMap((i) => [-0.5, 0.5].map((j) => add(end, add(scale(under, i * depth), scale(left, j * width))))),
  )

function gapInShaft(scene: Scene, sheet: LiftSheet, gap: SceneGap): LeastGap[] {
  const { name, value, ends, inPlan } = gap
  if (ends === undefined) return []
  const apart = subtract(ends.to, ends.from)
  const way: Vec3 = inPlan ? [apart[0], apart[1], 0] : apart
  if (dot(way, way) === 0) return []
  return [
    {
      kind: inPlan ? 'fixed' : 'order',
      what: name,
      value,
      from: ends.from,
      along: unit(way),
      ...judgedBy(checkOf(scene, gap), sheet),
    },
  ]
}

function judgedBy(check: Check | undefined, { checks }: LiftSheet): Pick<LeastGap, 'ref' | 'fails'> {
  const listed = checks.find((c) => c.id === check?.id)
  return { ref: listed === undefined ? '' : `[${listed.number}]`, fails: check?.verdict === 'fail' }
}

/** Those of them that lie within a view: what stands far off it is no least gap there. */
export function leastGapsIn(
  scene: Scene,
  sheet: LiftSheet,
  look: Look,
  placing: Placing,
  window: PaperBox,
): LeastGap[] {
  return leastGaps(scene, sheet).filter((gap) =>
    endsOf(gap, look, placing).every(
      ([x, y]) => x >= window.left && x <= window.right && y >= window.top && y <= window.bottom,
    ),
  )
}

const endsOf = ({ from, along, value }: LeastGap, look: Look, placing: Placing): [PaperPoint, PaperPoint] => [
  onPaper(placing, seen(look, from)),
  onPaper(placing, seen(look, add(from, scale(along, Math.max(0, value))))),
]

/** Seen so much shorter than it is, a gap is marked where it lies, and not measured there. */
const TRUE_LENGTH = 0.98

/** How long a unit of the gap is seen. */
const seenLength = (look: Look, along: Vec3): number => Math.hypot(...seen(look, along))

/** Outlines of booms that least gaps are to, cut off at the view. */
export const boomMarks = (gaps: readonly LeastGap[], look: Look, placing: Placing, window: PaperBox): Mark[] =>
  gaps.flatMap(({ boom }): Mark[] => {
    const outline = boom === undefined ? [] : convexHull(boom.map((p) => seen(look, p)))
    const loop = clippedLoop(loopOnPaper(placing, outline), window)
    return loop.length > 2 ? [{ kind: 'shape', loops: [loop], stroke: CHAIN }] : []
  })

/** Shorter on paper a gap seen aslant is a ring, mm. */
const LEAST_LINE = 5

/** A gap seen shorter than it is: a line between its ends, which has no length to read off. */
function aslantMarks(gap: LeastGap, look: Look, placing: Placing): Mark[] {
  const stroke: Stroke = { ...THIN, ink: gap.fails ? 'fail' : 'ink' }
  const [a, b] = endsOf(gap, look, placing)
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  if (length < LEAST_LINE) return [{ kind: 'circle', centre: a, radius: 1.2, stroke }]
  const way: PaperPoint = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
  return [line([a, b], stroke), arrow(b, way, stroke), arrow(a, [-way[0], -way[1]], stroke)]
}

/** Least gaps in a view: as dimensions where they are seen at their true length, else as a mark where they are. */
export function leastGapMarks(gaps: readonly LeastGap[], look: Look, placing: Placing): Mark[] {
  return gaps.flatMap((gap): Mark | Mark[] => {
    const { from, along, value, what, of } = gap
    const ink = gap.fails ? 'fail' : 'ink'
    const length = seenLength(look, along)
    if (value <= 0 || length < TRUE_LENGTH) return aslantMarks(gap, look, placing)
    const [u, v] = seen(look, along)
    return dimension({
      name: `least gap ${of === undefined ? '' : `of ${of} `}to ${what}`,
      value,
      words: '',
      placing,
      from: seen(look, from),
      along: [u / length, v / length],
      offset: 0,
      ink,
      silent: true,
    })
  })
}

/** Boxes along them, so that no words lie on them. */
export const leastGapBoxes = (gaps: readonly LeastGap[], look: Look, placing: Placing): PaperBox[] =>
  gaps.flatMap((gap) => alongBoxes(endsOf(gap, look, placing)))

const asSeen = ([, , z]: Vec3): string => (Math.abs(z) > TRUE_LENGTH ? ', upright' : ', aslant here')

/** What is nearest and how near; whether it is seen at its length. */
export function leastGapLabels(gaps: readonly LeastGap[], { units }: LiftSheet, look: Look, placing: Placing): Label[] {
  return gaps.map((gap): Label => {
    const { from, along, value, what, bay, of, ref, fails } = gap
    const isTrue = seenLength(look, along) >= TRUE_LENGTH
    const middle: Point2 = seen(look, add(from, scale(along, Math.max(0, value) / 2)))
    return {
      lines: [
        withRef(`least ${lengthText(value, units)}${value > 0 && !isTrue ? asSeen(along) : ''}`, ref),
        `${of === undefined ? '' : `${of} `}to ${what}${bay === undefined ? '' : `, bay ${bay}`}`,
      ],
      at: onPaper(placing, middle),
      towards: 60,
      from: 2,
      size: SMALL,
      weight: 700,
      ink: fails ? 'fail' : 'ink',
      backed: true,
    }
  })
}
