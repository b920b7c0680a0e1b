import type { Check } from '../../working/check.ts'
import type { Mark, PaperBox } from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { LOOKING_DOWN, type Look } from '../outline/picture.ts'
import { dimension } from '../paper/dimension.ts'
import { alongBoxes, type Label } from '../paper/labels.ts'
import { SMALL } from '../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import type { LiftSheet } from '../sheet/liftSheet.ts'
import { type PlanPlace, planOutline, planPlaces } from './planGaps.ts'
import { inShaft } from './planSite.ts'
import { clearPose } from './poses.ts'
import { outlineAt, type Scene } from './scene.ts'

const LOOK: Look = LOOKING_DOWN

/** Boxes of fixed things on paper, which no words are to cover. */
export function thingBoxes(scene: Scene, placing: Placing): PaperBox[] {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined || !inShaft(scene)) return []
  return Object.values(shaft.obstructions).map((o) => {
    const loop = loopOnPaper(placing, planOutline(o))
    const [xs, ys] = [loop.map(([x]) => x), loop.map(([, y]) => y)]
    return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
  })
}

export interface PlanGap extends PlanPlace {
  check: Check
  gap: number
}

/** Gaps of the lift stage's checks, each where it lies in plan. */
export function gapsOf(scene: Scene): PlanGap[] {
  const { shaft } = scene.subject.stages.model.project
  if (shaft === undefined || !inShaft(scene)) return []
  const checks = scene.subject.outcome.checks.filter((c) => c.kind === 'lift.path.clearance')
  return planPlaces(shaft, outlineAt(scene, clearPose(scene), LOOK)).flatMap((place) => {
    const check = checks.find((c) => c.id.endsWith(`/${place.id}`))
    return check?.capacity.value === undefined ? [] : [{ ...place, check, gap: check.capacity.value }]
  })
}

/** From what is near towards the piece: the value that the check has, to scale. */
export function gapLine({ from, to, what, gap, check }: PlanGap, placing: Placing): Mark[] {
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

/** Boxes along the gaps on paper: words stand beside them. */
export const gapBoxes = (gaps: readonly PlanGap[], placing: Placing): PaperBox[] =>
  gaps.flatMap(({ from, to }) => alongBoxes([onPaper(placing, from), onPaper(placing, to)]))

/** Words begin square to their gap, degrees. */
const ASIDE = 90

/** What is near, how near, and what is asked. */
export function gapLabel({ from, to, what, gap, check }: PlanGap, { units }: LiftSheet, placing: Placing): Label {
  const asked = check.demand.value === undefined ? '' : `, asked ${lengthText(check.demand.value, units)}`
  return {
    lines: [what.split(/ of |,/)[0] as string, `${lengthText(gap, units)}${asked}`],
    at: onPaper(placing, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]),
    towards: (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI + ASIDE,
    from: 1,
    ink: check.verdict === 'fail' ? 'fail' : 'ink',
    backed: true,
    size: SMALL,
  }
}
