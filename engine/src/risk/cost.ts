import type { Model } from '../model/index.ts'
import { dayNumber, elapsedAt, type ProgrammeResult } from '../programme/index.ts'

const DAY = 86_400

/** What a run costs up to the restart: fixed, by the day worked, standing, damages. */
export interface CostRule {
  fixed: number
  /** Cost of a second of working time, by activity. */
  perSecond: Float64Array
  standingPerDay: number
  damagesPerDay: number
  damagesFrom: number
}

/**
 * Fixed costs of the activities, their resources by the working day, standing costs until the restart, damages from their
 * date on. The drive after the restart is left out.
 *
 * @param day clock seconds of a working day, by calendar
 */
export function costRule(
  { project }: Model,
  { activities, solved }: ProgrammeResult,
  day: (calendar: string) => number,
): CostRule {
  const programme = project.programme
  const zone = solved?.zone
  const counted = (solved?.network.ids ?? [])
    .map((id) => activities[id])
    .map((a) => (a?.kind === 'drive' ? undefined : a))
  return {
    fixed: counted.reduce((sum, a) => sum + (a?.fixedCost ?? 0), 0),
    perSecond: Float64Array.from(counted, (a) => {
      if (a === undefined) return 0
      const perDay = Object.entries(a.needs).reduce(
        (sum, [id, n]) => sum + n * (programme?.resources[id]?.costPerDay ?? 0),
        0,
      )
      return perDay / day(a.calendar)
    }),
    standingPerDay: programme?.standingCostPerDay ?? 0,
    damagesPerDay: programme?.damagesPerDay ?? 0,
    damagesFrom:
      programme?.damagesFrom === undefined || zone === undefined
        ? Number.POSITIVE_INFINITY
        : elapsedAt(zone, dayNumber(programme.damagesFrom), 0),
  }
}

/** Cost of one run. */
export function costOf(rule: CostRule, work: Float64Array, restart: number, events: number): number {
  let worked = 0
  for (let i = 0; i < work.length; i++) worked += (work[i] as number) * (rule.perSecond[i] as number)
  const late = Math.max(0, restart - rule.damagesFrom) / DAY
  return rule.fixed + worked + events + (restart / DAY) * rule.standingPerDay + late * rule.damagesPerDay
}
