import { multiply, type Pose, transpose } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { turnAsMoved } from './kinds.ts'
import { posesAlong } from './path.ts'
import type { Pick } from './pick.ts'
import { degrees } from './turnChecks.ts'

const DEGREE = Math.PI / 180
const LEVEL = 1e-9

/** Angle by which the moves of the step tip the piece, rad: turns about a plumb axis bring it about and do not count. */
export function tippedBy(poses: readonly Pose[]): number {
  return poses.slice(1).reduce((sum, { turn }, i) => {
    const between = multiply(turn, transpose((poses[i] as Pose).turn))
    if (between[2][2] > 1 - LEVEL) return sum
    const half = (between[0][0] + between[1][1] + between[2][2] - 1) / 2
    return sum + Math.acos(Math.max(-1, Math.min(1, half)))
  }, 0)
}

/**
 * The turn that shares and reactions are worked for is the one that the order makes.
 *
 * @param cautions of that turn: between two hooks, or about a pivot
 */
export function asMovedCheck(pick: Pick, cautions: readonly string[]): Check {
  const poses = posesAlong(pick)
  const { turn } = pick.lift
  const tipped = poses.length < 2 ? undefined : tippedBy(poses)
  const [from, to] = [
    knownOr(turn?.from, 'rad', `${pick.at}/turn/from`),
    knownOr(turn?.to, 'rad', `${pick.at}/turn/to`),
  ]
  const planned = from.value === undefined || to.value === undefined ? undefined : Math.abs(to.value - from.value)
  const moved: Answer<'rad'> =
    tipped === undefined
      ? given('rad', '/steps', undefined)
      : stated('rad', tipped, 'by the moves of the step that the lift carries out')
  const known = planned !== undefined && tipped !== undefined
  return check({
    kind: turnAsMoved,
    subject: pick.subject,
    demand: found({
      unit: 'rad',
      value: known ? Math.abs(planned - tipped) : undefined,
      method: 'angle between start and end of the turn, against what the moves of its step tip the piece by',
      inputs: { 'start of the turn': from, 'end of the turn': to, 'tipped by the moves': moved },
      residuals: [],
    }),
    capacity: stated('rad', DEGREE, 'a pitch of the machine as found, and no more; common practice, no source'),
    near: pick.near,
    cautions,
    found: known
      ? [
          `the lift turns it by ${degrees(planned)}, the moves of its step by ${degrees(tipped)}: mend whichever of the two is not meant`,
        ]
      : [],
  })
}
