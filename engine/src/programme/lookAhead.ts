import type { Activity, Scheduled } from './activity.ts'
import type { ProgrammeResult } from './programme.ts'

/** One line of a look-ahead. */
export interface AheadEntry {
  id: string
  name: string
  /** In the span: it goes on from before, or it starts. */
  state: 'goes on' | 'starts'
  start: number
  finish: number
  /** It ends within the span. */
  ends: boolean
  critical: boolean
  float: number
  needs: Readonly<Record<string, number>>
  waitsFor?: string
  holdPoint?: string
}

const WEEK = 7 * 86_400

/**
 * What is under way or starts in the weeks after an instant, by start. What is done does not appear.
 *
 * @param from elapsed seconds
 */
export function lookAhead(
  { activities, plan }: Pick<ProgrammeResult, 'activities' | 'plan'>,
  from: number,
  weeks: number,
): AheadEntry[] {
  return activeBetween({ activities, plan }, from, from + weeks * WEEK)
}

/** What is under way between two instants: a shift, a day, some weeks. */
export function activeBetween(
  { activities, plan }: Pick<ProgrammeResult, 'activities' | 'plan'>,
  from: number,
  until: number,
): AheadEntry[] {
  return Object.values(activities)
    .flatMap((a) => {
      const dates = plan[a.id]
      return dates === undefined || a.state === 'done' || !isWithin(dates, from, until)
        ? []
        : [entryOf(a, dates, from, until)]
    })
    .sort((a, b) => a.start - b.start || a.finish - b.finish || (a.id < b.id ? -1 : 1))
}

/** A milestone on the first instant belongs to the span; on the last to the next. */
const isWithin = ({ start, finish }: Scheduled, from: number, until: number): boolean =>
  start < until && (finish > from || (finish === start && start >= from))

const entryOf = (a: Activity, dates: Scheduled, from: number, until: number): AheadEntry => ({
  id: a.id,
  name: a.name,
  state: dates.start < from ? 'goes on' : 'starts',
  start: dates.start,
  finish: dates.finish,
  ends: dates.finish <= until,
  critical: dates.planCritical,
  float: dates.planFloat,
  needs: a.needs,
  ...(dates.waitsFor === undefined ? {} : { waitsFor: dates.waitsFor.resource ?? dates.waitsFor.activity }),
  ...(a.holdPoint === undefined ? {} : { holdPoint: a.holdPoint }),
})
