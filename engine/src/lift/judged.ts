import { type Answer, found, given, stated } from '../working/answer.ts'
import { type Check, type CheckKind, check } from '../working/check.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import type { Pick } from './pick.ts'

/** One fault an item; open where what it is judged by is missing. */
export interface Judged {
  item: string
  pointer: string
  fault?: string
  isMissing: boolean
}

/** Items held against what is asked of each: a fault known is one, whatever else is missing. @param of what the check is of */
export function judgedCheck(
  pick: Pick,
  kind: CheckKind,
  of: string | undefined,
  judged: readonly Judged[],
  by: Record<string, Answer>,
  assumptions: readonly string[] = [],
): Check {
  const isOpen = judged.some((j) => j.isMissing) || Object.values(by).some((a) => a.value === undefined)
  const faults = judged.flatMap((j) => (j.fault === undefined ? [] : [j.fault]))
  const leaves = judged.map((j): [string, Answer] => [j.item, given('1', j.pointer, j.isMissing ? undefined : 1)])
  return check({
    kind,
    subject: pick.subject,
    ...(of === undefined ? {} : { of }),
    demand: found({
      unit: '1',
      // what is known to be wrong is wrong whatever else is missing
      value: faults.length > 0 ? faults.length : isOpen ? undefined : 0,
      method: 'items that do not hold, counted',
      inputs: faults.length > 0 ? {} : { ...by, ...Object.fromEntries(leaves) },
      residuals: [],
    }),
    capacity: stated('1', 0, 'none allowed'),
    near: 1,
    found: faults,
    assumptions,
    cautions: RIGGING_CAUTIONS,
  })
}

/**
 * What a paper of a lift is held against: the day that the lift states. A lift that states none is held against the plan, by the
 * programme, which knows its days; without a programme the day is missing.
 */
export function dayOf({ lift, at, isPlanned }: Pick): { day: string | undefined; missing: Record<string, Answer> } {
  const leaf = { 'day of the lift': given('1', `${at}/on`, lift.on === undefined ? undefined : 1) }
  return { day: lift.on, missing: lift.on === undefined && isPlanned ? {} : leaf }
}

/** Said where the lift leaves the days of its papers to the programme. */
export const dayWords = ({ lift, isPlanned }: Pick): readonly string[] =>
  lift.on === undefined && isPlanned
    ? [
        'The lift states no day of its own: the programme holds the days of each paper against those on which the plan has it.',
      ]
    : []
