import { civilDay, DAY } from '../civil.ts'
import type { Reading } from './campaign.ts'

/** Share of the lifts' hours in one month in which the wind is above what stops the most sensitive lift. */
export interface WindMonth {
  start: number
  finish: number
  share: number
}

/** Wind to be expected while lifts go on. */
export interface WindAhead {
  /** The lift that the least wind stops, and the gust that stops it, m/s. */
  lift: string
  gust: number
  months: readonly WindMonth[]
}

/** From the monthly climate, for the lift that the least wind stops; undefined without a climate. Nothing is measured here. */
export function windMonths({ model, lift, risk, when }: Reading): WindAhead | undefined {
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
  return { lift: least.lift, gust, months }
}
