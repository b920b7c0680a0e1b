import type { WindowResult } from '../../risk/index.ts'
import { civilDay, DAY } from '../civil.ts'
import type { Reading } from './campaign.ts'

/** Share of the lifts' hours in one month in which the wind is above what stops the most sensitive lift. */
export interface WindMonth {
  start: number
  finish: number
  share: number
}

/** How long a lift is held by wind on average before a window opens for it. */
export interface WindHold {
  lift: string
  name: string
  start: number
  /** Working days lost. */
  days: number
  /** Of a window on a working day of the month in which it is planned. */
  chance: number
}

/** Wind to be expected while lifts go on. */
export interface WindAhead {
  /** The lift that the least wind stops, and the gust that stops it, m/s. */
  lift: string
  gust: number
  months: readonly WindMonth[]
  /** Of every lift still to come. */
  holds: readonly WindHold[]
}

/** From the monthly climate, for the lift that the least wind stops; undefined without a climate. Nothing is measured here. */
export function windMonths(reading: Reading): WindAhead | undefined {
  const { model, lift, risk, when } = reading
  const known = (risk?.windows ?? []).filter((w) => w.months.length === 12)
  const least = known.reduce<(typeof known)[number] | undefined>(
    (best, w) => (best === undefined || (w.limit.value ?? Infinity) < (best.limit.value ?? Infinity) ? w : best),
    undefined,
  )
  const starts = known.flatMap((w) => when(w.activity)?.start ?? [])
  const origin = model.project.programme?.start
  if (least === undefined || starts.length === 0 || origin === undefined) return undefined
  const gust = lift.lifts[least.lift]?.allowableWind.value
  if (gust === undefined) return undefined
  const months: WindMonth[] = []
  const last = Math.max(...starts)
  for (let day = Math.floor(Math.min(...starts) / DAY); day * DAY <= last; ) {
    const { month } = civilDay(origin, day * DAY)
    const from = day
    while (civilDay(origin, day * DAY).month === month && day * DAY <= last) day++
    months.push({ start: from * DAY, finish: day * DAY, share: 1 - (least.months[month - 1]?.share ?? 1) })
  }
  return { lift: least.lift, gust, months, holds: known.flatMap((w) => holdOf(w, reading)) }
}

function holdOf({ lift, activity, daysLost, chance }: WindowResult, { programme, when }: Reading): WindHold[] {
  const start = when(activity)?.start
  if (start === undefined || daysLost.value === undefined || chance.value === undefined) return []
  const name = programme.activities[activity]?.name ?? lift
  return [{ lift, name, start, days: daysLost.value, chance: chance.value }]
}
