import { Temporal } from 'temporal-polyfill'

/** What a date alone stands for: the first instant of its day, or the last. */
export type EndOfDay = 'first' | 'last'

const LOCAL = /^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2})?)?$/
const WITH_OFFSET = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?(Z|[+-]\d{2}:\d{2})$/

/** Whether a moment says its day only. */
export const isDayOnly = (text: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(text)

/** Whether a text is a moment: a day, local time on it, or time with its offset from UTC. ISO 8601, nothing else. */
export function isMoment(text: string): boolean {
  if (!LOCAL.test(text) && !WITH_OFFSET.test(text)) return false
  try {
    epochOf(text, 'UTC', 'first')
    return true
  } catch {
    return false
  }
}

/**
 * The instant of a moment. Local time is read in the zone; an hour that the clocks skip is read as the one after, one that comes
 * twice as the first, unless an offset says which.
 *
 * @param end  what a day alone stands for
 * @returns ms since 1970
 */
export function epochOf(text: string, zone: string, end: EndOfDay): number {
  if (WITH_OFFSET.test(text)) return Temporal.Instant.from(text).epochMilliseconds
  if (!isDayOnly(text)) return Temporal.PlainDateTime.from(text, REJECT).toZonedDateTime(zone).epochMilliseconds
  const day = Temporal.PlainDate.from(text, REJECT)
  return (end === 'first' ? day : day.add({ days: 1 })).toZonedDateTime(zone).epochMilliseconds
}

const REJECT = { overflow: 'reject' } as const

/** The day of an instant, ms since 1970, in a zone. */
export const dayOf = (epoch: number, zone: string): string =>
  Temporal.Instant.fromEpochMilliseconds(Math.floor(epoch)).toZonedDateTimeISO(zone).toPlainDate().toString()
