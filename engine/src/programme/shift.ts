import type { Programme } from '../model/index.ts'
import { finishAt, startAt } from './calendar.ts'
import { shiftAround } from './calendars.ts'
import { type AheadEntry, activeBetween } from './lookAhead.ts'
import type { ProgrammeResult } from './programme.ts'

/** One line of a shift: an activity with the hours of the shift in which it runs, elapsed seconds. */
export interface ShiftEntry extends AheadEntry {
  from: number
  until: number
}

/** A shift of one calendar: the one under way at an instant, or the next to begin. Elapsed seconds. */
export interface ShiftWork {
  calendar: string
  start: number
  end: number
  isUnderWay: boolean
  work: readonly ShiftEntry[]
}

/**
 * What runs in the shift under way at an instant, calendar by calendar, for every calendar that has work in it: a site has
 * several shifts at once. Where a calendar rests at that instant, its next shift.
 *
 * @param now elapsed seconds
 */
export function shiftsAt(result: ProgrammeResult, { calendars }: Programme, now: number): ShiftWork[] {
  const { solved } = result
  if (solved === undefined) return []
  return Object.entries(calendars)
    .flatMap(([calendar, rule]): ShiftWork[] => {
      const shift = shiftAround(rule, solved.zone, now)
      if (shift === undefined) return []
      const [start, end] = shift
      const work = activeBetween(result, start, end)
        .filter(({ id }) => result.activities[id]?.calendar === calendar)
        .flatMap((entry) => inShift(result, entry, start, end))
      return work.length === 0 ? [] : [{ calendar, start, end, isUnderWay: start <= now, work }]
    })
    .sort((a, b) => a.start - b.start || a.end - b.end)
}

/** The hours of an activity within a shift; none where a crew's own hours or a curfew leave it none. */
function inShift({ solved }: ProgrammeResult, entry: AheadEntry, start: number, end: number): ShiftEntry[] {
  const { network } = solved as NonNullable<ProgrammeResult['solved']>
  const calendar = network.calendar[network.index.get(entry.id) as number]
  if (entry.finish === entry.start || calendar === undefined)
    return [{ ...entry, from: entry.start, until: entry.finish }]
  const from = startAt(calendar, Math.max(entry.start, start))
  const until = finishAt(calendar, Math.min(entry.finish, end))
  return from >= until ? [] : [{ ...entry, from, until }]
}
