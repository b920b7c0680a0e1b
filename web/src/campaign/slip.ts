import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { pointerOf } from '@shieldwright/engine/working/pointer.ts'

/** What of a programme a slip reads. */
export interface TypedProgramme {
  calendars?: Readonly<Record<string, { days?: readonly string[]; holidays?: readonly string[] }>>
  activities?: Readonly<
    Record<string, { name?: string; calendar?: string; days?: readonly number[]; finishBy?: string }>
  >
  deliveries?: Readonly<Record<string, { what: string; activity: string }>>
}

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
const DAY = 86_400_000

/** A date as it is typed, "2033-02-01" or "1 Feb 2033"; undefined when it is none. UTC midnight. */
export function dateIn(text: string): number | undefined {
  const trimmed = text.trim()
  if (/^\d{4}-\d{2}-\d{2}$/.test(trimmed)) return known(Date.parse(trimmed))
  const [, day, month, year] = /^(?:[A-Za-z]{3} )?(\d{1,2}) ([A-Za-z]{3})[a-z]* (\d{4})$/.exec(trimmed) ?? []
  const at = MONTHS.indexOf((month ?? '').toLowerCase())
  if (day === undefined || at < 0) return undefined
  const instant = Date.UTC(Number(year), at, Number(day))
  return new Date(instant).getUTCDate() === Number(day) ? instant : undefined
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
const known = (instant: number): number | undefined => (Number.isNaN(instant) ? undefined : instant)

/**
 * A delivery promised for another day: its three durations move by the working days of its calendar between the day planned
 * and the day promised, and the promise is kept beside them.
 *
 * @param planned end of the delivery in the plan, UTC milliseconds
 * @param promised UTC midnight of the day promised
 * @returns a patch, or in words why there is none
 */
export function slipPatch(
  programme: TypedProgramme,
  activity: string,
  planned: number,
  promised: number,
): Patch | string {
  const typed = programme.activities?.[activity]
  if (typed?.days === undefined) return 'this delivery has no durations of its own'
  const by = workingDays(Math.floor(planned / DAY) * DAY, promised, programme.calendars?.[typed.calendar ?? ''])
  const days = typed.days.map((d) => d + by)
  if (Math.min(...days) < 0) return 'the day promised lies before it can have been ordered'
  const at = pointerOf('programme', 'activities', activity)
  return [
    { op: 'replace', path: `${at}/days`, value: days },
    { op: typed.finishBy === undefined ? 'add' : 'replace', path: `${at}/finishBy`, value: isoDay(promised) },
  ]
}

export const isoDay = (instant: number): string => new Date(instant).toISOString().slice(0, 10)

/** Working days from one day to another, negative backwards. */
export function workingDays(
  from: number,
  to: number,
  calendar: { days?: readonly string[]; holidays?: readonly string[] } | undefined,
): number {
  if (to < from) return -workingDays(to, from, calendar)
  let count = 0
  for (let day = from + DAY; day <= to; day += DAY) {
    const isDay = calendar?.days === undefined || calendar.days.includes(WEEKDAYS[new Date(day).getUTCDay()] as string)
    if (isDay && calendar?.holidays?.includes(isoDay(day)) !== true) count++
  }
  return count
}
