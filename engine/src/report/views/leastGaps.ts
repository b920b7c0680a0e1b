import { add, dot, scale, subtract, unit, type Vec3 } from '../../numeric/vector.ts'
import type { Check } from '../../working/check.ts'
import type { Mark, PaperBox, PaperPoint } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { type Look, seen } from '../outline/picture.ts'
import { dimension } from '../paper/dimension.ts'
import { alongBoxes, type Label } from '../paper/labels.ts'
import { SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { withRef } from '../sheet/refs.ts'
import { checkOf } from './gapView.ts'
import type { Scene, SceneGap } from './scene.ts'

/** One of the least clearances of the way: where it is, to what, and how much. */
export interface LeastGap {
  /** As the order of removal has it; in plan to what is fixed in the shaft; to what stands on the bays. */
  kind: 'order' | 'fixed' | 'standing'
  what: string
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
  const standing = scene.subject.outcome.nearestStanding
  if (standing?.gap.value === undefined) return inShaft
  const { what, gap, from, along } = standing
  const check = scene.subject.outcome.checks.find((c) => c.kind === 'lift.path.standing')
  return [...inShaft, { kind: 'standing', what, value: gap.value as number, from, along, ...judgedBy(check, sheet) }]
}

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

/** Least gaps in a view: as dimensions where they are seen at their true length, else as a mark where they are. */
export function leastGapMarks(gaps: readonly LeastGap[], look: Look, placing: Placing): Mark[] {
  return gaps.map((gap): Mark => {
    const { from, along, value, what } = gap
    const ink = gap.fails ? 'fail' : 'ink'
    const length = seenLength(look, along)
    if (value <= 0 || length < TRUE_LENGTH)
      return { kind: 'circle', centre: onPaper(placing, seen(look, from)), radius: 1.2, stroke: { ...THIN, ink } }
    const [u, v] = seen(look, along)
    return dimension({
      name: `least gap to ${what}`,
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
    const { from, along, value, what, ref, fails } = gap
    const isTrue = seenLength(look, along) >= TRUE_LENGTH
    const middle: Point2 = seen(look, add(from, scale(along, Math.max(0, value) / 2)))
    return {
      lines: [
        withRef(`least ${lengthText(value, units)}${value > 0 && !isTrue ? asSeen(along) : ''}`, ref),
        `to ${what}`,
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
