import { Temporal } from 'temporal-polyfill'

const DAY = 86_400
const SECOND = 1000

/** Local time against elapsed time in a named zone, from second zero on. */
export interface Zone {
  name: string
  /** UTC instant of second zero, the first midnight of the programme, ms since 1970. */
  origin: number
  /** Days since 1970-01-01 of the first day. */
  firstDay: number
  /** From each local second (counted from the first local midnight) on, what is taken off to get elapsed seconds. */
  shifts: readonly { local: number; offset: number }[]
}

/** Days since 1970-01-01 of a date such as "2031-11-03". Proleptic Gregorian calendar. */
export const dayNumber = (date: string): number => {
  const { year, month, day } = Temporal.PlainDate.from(date)
  return civilDays(year, month, day)
}

// Days from civil: era arithmetic on years that begin in March, so that the leap day comes last.
function civilDays(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year
  const era = Math.floor(y / 400)
  const ofEra = y - era * 400
  const ofYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1
  return era * 146_097 + ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear - 719_468
}

/** 0 Monday … 6 Sunday; 1970-01-01 was a Thursday. */
export const weekdayOf = (day: number): number => (((day + 3) % 7) + 7) % 7

/**
 * The zone from a first date on. Where clocks go forward, the missing hour is read as the one after; where they go back, the
 * hour that comes twice is read as the first ("compatible" in RFC 5545 and in Temporal).
 *
 * @param years how far transitions are looked up
 */
export function zoneFrom(start: string, name: string, years: number): Zone {
  const first = Temporal.PlainDate.from(start).toZonedDateTime(name)
  const origin = first.epochMilliseconds
  const last = origin + years * 366 * DAY * SECOND
  const base = first.offsetNanoseconds / 1e9
  const shifts = [{ local: Number.NEGATIVE_INFINITY, offset: 0 }]
  let at: Temporal.ZonedDateTime | null = first
  let before = base
  for (;;) {
    at = at.getTimeZoneTransition('next')
    if (at === null || at.epochMilliseconds > last) break
    const after = at.offsetNanoseconds / 1e9
    const elapsed = (at.epochMilliseconds - origin) / SECOND
    shifts.push({ local: elapsed + Math.max(before, after) - base, offset: after - base })
    before = after
  }
  return { name, origin, firstDay: dayNumber(start), shifts }
}

/** Elapsed seconds of a local time: seconds after the midnight of a day. */
export function elapsedAt(zone: Zone, day: number, secondOfDay: number): number {
  const local = (day - zone.firstDay) * DAY + secondOfDay
  let i = zone.shifts.length - 1
  while (i > 0 && (zone.shifts[i] as { local: number }).local > local) i--
  return local - (zone.shifts[i] as { offset: number }).offset
}

/** Local date and time of an elapsed second, such as { date: "2033-05-22", time: "07:00" }. */
export function localAt(zone: Zone, elapsed: number): { date: string; time: string; hour: number; month: number } {
  const offset = offsetAt(zone, elapsed)
  const local = Math.round(elapsed + offset)
  const day = Math.floor(local / DAY)
  const second = local - day * DAY
  const date = dateOfDay(zone.firstDay + day)
  const pad = (n: number): string => String(n).padStart(2, '0')
  const hour = Math.floor(second / 3600)
  return { date, time: `${pad(hour)}:${pad(Math.floor((second % 3600) / 60))}`, hour, month: Number(date.slice(5, 7)) }
}

/** Offset of local from elapsed time at an elapsed second, s. */
export function offsetAt(zone: Zone, elapsed: number): number {
  let found = 0
  for (const { local, offset } of zone.shifts) {
    if (elapsed + Math.max(found, offset) < local) break
    found = offset
  }
  return found
}

/** Date of a day number. */
export const dateOfDay = (day: number): string => new Date(day * DAY * SECOND).toISOString().split('T')[0] as string

/** Elapsed seconds to an instant of UTC, ISO 8601. */
export const instantOf = (zone: Zone, elapsed: number): string =>
  Temporal.Instant.fromEpochMilliseconds(zone.origin + Math.round(elapsed) * SECOND).toString()
