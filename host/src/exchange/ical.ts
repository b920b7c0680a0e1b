import type { Appointment } from '@shieldwright/engine/report/tables/index.ts'
import ical, { ICalEventStatus, ICalEventTransparency } from 'ical-generator'

/** What a calendar is issued with. */
export interface CalendarIssue {
  title: string
  /** Instant of issue, ISO 8601 in UTC: the stamp of every entry. */
  at: string
  /** Rises with every issue, so that a newer one moves what an older one said. */
  sequence: number
}

/**
 * Lifts, hold points, deliveries and the restart as iCalendar (RFC 5545). Times are in UTC, so that every reader shows them in the zone
 * it is in; an entry keeps its UID when the plan moves.
 */
export function calendarOf(appointments: readonly Appointment[], { title, at, sequence }: CalendarIssue): string {
  const calendar = ical({ name: title, prodId: { company: 'Shieldwright', product: 'programme', language: 'EN' } })
  for (const { id, kind, title: summary, words, start, finish } of appointments) {
    calendar.createEvent({
      id: `${uidOf(id)}@shieldwright`,
      stamp: new Date(at),
      start: new Date(start),
      // an entry without an end is an instant (RFC 5545, 3.6.1: read)
      ...(finish === start ? {} : { end: new Date(finish) }),
      summary,
      description: words,
      categories: [{ name: kind }],
      sequence,
      status: ICalEventStatus.TENTATIVE,
      transparency: finish === start ? ICalEventTransparency.TRANSPARENT : ICalEventTransparency.OPAQUE,
    })
  }
  return `${calendar.toString().replace(/\r?\n/g, '\r\n').trimEnd()}\r\n`
}

const uidOf = (id: string): string => id.replace(/[^A-Za-z0-9._-]/g, '-')
