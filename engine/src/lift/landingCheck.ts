import { type Answer, found, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import { boxOf, reachesAt } from './apart.ts'
import type { Hull } from './hull.ts'
import { landingOnBay } from './kinds.ts'
import type { Pick } from './pick.ts'
import { restingPose } from './standing.ts'

/** What stools and packing lift a piece over its bay at most, m. Common practice, no source. */
const STOOLS = 1.5
/** Less is no overhang, and no height, m. */
const SLACK = 0.05

/** Where a lift sets its piece down lies on its bay: all of the piece over it, and its lowest point on it or on stools. */
export function landingCheck(pick: Pick, hull: Hull | undefined): Check[] {
  const { bay, bayAt, homeward, lift, trailer } = pick
  // without moves nobody knows how it lies; whether they are planned is asked elsewhere
  if (homeward || pick.leftHanging || pick.track.length === 0) return []
  if (bay === undefined && lift.kind !== 'out') return []
  // taken there by a trailer, it is set down by the trailer's own crew where the lift does not say
  if (trailer !== undefined && lift.landing === undefined) return []
  const pose = hull === undefined || bay === undefined ? undefined : restingPose(pick, hull, bay)
  const over =
    hull === undefined || bay === undefined || pose === undefined
      ? undefined
      : overhang(bay, boxOf(reachesAt(hull, pose)))
  const height =
    lift.landing === undefined || bay === undefined
      ? 0
      : (lift.landing[2].value as number) - (bay.level.value as number)
  const faults = [
    ...(over !== undefined && over > SLACK
      ? [`it reaches ${over.toFixed(2)}\u00a0m beyond its bay: another place on it, or a larger one`]
      : []),
    ...(height < -SLACK || height > STOOLS
      ? [
          `its landing is ${Math.abs(height).toFixed(2)}\u00a0m ${height < 0 ? 'below' : 'over'} the bay: at its level, or on stools no higher than ${STOOLS.toFixed(1)}\u00a0m`,
        ]
      : []),
  ]
  const missing: Record<string, Answer> =
    over === undefined
      ? { 'way of the lift': given('m', bay === undefined ? bayAt : '/steps', undefined) }
      : { 'beyond its bay': overAnswer(over) }
  return [
    check({
      kind: landingOnBay,
      subject: pick.subject,
      demand: faultsFound(faults.length, 'what of the landing does not lie on its bay', missing),
      capacity: NONE,
      near: 1,
      assumptions: ['By the outline of the piece as it is set down; what bears of it, and how hard, is for the bay.'],
      found: faults,
    }),
  ]
}

const overAnswer = (over: number): Answer<'m'> =>
  found({
    unit: 'm',
    value: over,
    method: 'farthest that the outline reaches beyond the bay in plan',
    inputs: {},
    residuals: [],
  })

/** How far a box reaches beyond a bay in plan; below zero where it stays within, m. */
function overhang({ centre, size }: NonNullable<Pick['bay']>, { low, high }: ReturnType<typeof boxOf>): number {
  const beyond = ([0, 1] as const).map((axis) => {
    const [middle, half] = [centre[axis].value as number, (size[axis].value as number) / 2]
    return Math.max(high[axis] - (middle + half), middle - half - low[axis])
  })
  return Math.max(...beyond)
}
