import { type EndOfDay, epochOf, isDayOnly, type Programme } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activities, Activity, Link, Scheduled } from './activity.ts'
import { ALWAYS, type Calendar, finishAt, startAt, subtractWork, workAt } from './calendar.ts'
import { secondsOfDay } from './calendars.ts'
import { lagged } from './network.ts'
import { type OutOfSequence, outOfSequence } from './outOfSequence.ts'
import { dayNumber, elapsedAt, type Zone } from './zone.ts'

/** When an activity began and ended, elapsed seconds. */
export interface Actual {
  start: number
  finish?: number
  /** Known to the day only. */
  isCoarse: boolean
}

export type Actuals = Readonly<Record<string, Actual>>

/** What is known at the data date, and what is left. */
export interface Progress {
  /** Elapsed seconds. */
  dataDate: number
  actual: Actuals
  /** Activities with the work that is left of them; their links as they are. */
  activities: Activities
  /** The same as the network takes them: what has happened is fixed, and nothing else begins before the data date. */
  toGo: Activities
  outOfSequence: readonly OutOfSequence[]
  /** Entries for activities that are no longer in the network. */
  lost: readonly string[]
}

export interface ProgressInput {
  programme: Programme
  activities: Activities
  calendars: ReadonlyMap<string, Calendar>
  zone: Zone
}

/** Progress put into the activities; undefined without a data date. */
export function progressOf(input: ProgressInput): Progress | undefined {
  const { programme, activities } = input
  if (programme.dataDate === undefined) return undefined
  const dataDate = elapsedOf(input, programme.dataDate, 'last')
  const entries = Object.keys(programme.progress)
  const actual: Actuals = Object.fromEntries(
    entries.flatMap((id): [string, Actual][] => {
      const found = activities[id] === undefined ? undefined : actualOf(input, activities[id], dataDate)
      return found === undefined ? [] : [[id, found]]
    }),
  )
  const all = Object.values(activities)
  const left = all.map((a) => withWorkLeft(input, a, actual[a.id], dataDate))
  return {
    dataDate,
    actual,
    activities: byId(left),
    toGo: byId(left.map((a) => toGo(input, a, actual, dataDate))),
    outOfSequence: outOfSequence(input, actual),
    lost: entries.filter((id) => activities[id] === undefined),
  }
}

const byId = (all: readonly Activity[]): Activities => Object.fromEntries(all.map((a) => [a.id, a]))

/** Elapsed seconds of a moment in the file. */
export function elapsedOf({ programme, zone }: Pick<ProgressInput, 'programme' | 'zone'>, text: string, end: EndOfDay) {
  return (epochOf(text, programme.timeZone, end) - zone.origin) / 1000
}

const calendarFor = ({ calendars }: ProgressInput, { calendar }: Activity): Calendar =>
  calendars.get(calendar) ?? ALWAYS

/** A day alone is its first working instant as a start, its last as a finish; the day's own ends where nobody works on it. */
export function dated(input: ProgressInput, activity: Activity, text: string, end: EndOfDay): number {
  const at = elapsedOf(input, text, end)
  if (!isDayOnly(text)) return at
  const day = dayNumber(text)
  const calendar = calendarFor(input, activity)
  const worked = end === 'first' ? startAt(calendar, at) : finishAt(calendar, at)
  return worked >= elapsedAt(input.zone, day, 0) && worked <= elapsedAt(input.zone, day + 1, 0) ? worked : at
}

function actualOf(input: ProgressInput, activity: Activity, dataDate: number): Actual | undefined {
  const { start, finish } = input.programme.progress[activity.id] as Programme['progress'][string]
  const of = (text: string, end: EndOfDay): number => Math.min(dataDate, dated(input, activity, text, end))
  const ends = finish ?? (activity.kind === 'milestone' ? start : undefined)
  const begins = start ?? finish
  if (begins === undefined) return undefined
  const finished = ends === undefined ? undefined : of(ends, 'last')
  // a milestone, and what nobody said when it began, has no length
  const begun = start === undefined && finished !== undefined ? finished : of(begins, 'first')
  return {
    start: finished === undefined ? begun : Math.min(begun, finished),
    ...(finished === undefined ? {} : { finish: finished }),
    isCoarse: isDayOnly(begins) || (ends !== undefined && isDayOnly(ends)),
  }
}

const NOTHING = [0, 0, 0] as const

function withWorkLeft(input: ProgressInput, a: Activity, actual: Actual | undefined, dataDate: number): Activity {
  if (actual === undefined) return a
  const entry = input.programme.progress[a.id] as Programme['progress'][string]
  const pointer = pointerOf('programme', 'progress', a.id)
  const calendar = calendarFor(input, a)
  const worked = workAt(calendar, actual.finish ?? dataDate) - workAt(calendar, actual.start)
  const fixedCost = a.fixedCost + worked * costPerSecond(input, a)
  const { unknown: _unknown, ...known } = a
  if (actual.finish !== undefined) {
    const isOpen = entry.start === undefined && a.work[1] > 0
    return { ...known, work: NOTHING, fixedCost, state: 'done', ...(isOpen ? { unknown: [`${pointer}/start`] } : {}) }
  }
  if (entry.remainingDays !== undefined)
    return { ...known, work: remaining(input, a, entry.remainingDays), fixedCost, state: 'under way' }
  const left = a.work.map((w) => Math.max(0, w - worked)) as unknown as Activity['work']
  return {
    ...a,
    work: left,
    fixedCost,
    state: 'under way',
    unknown: [...(a.unknown ?? []), `${pointer}/remainingDays`],
  }
}

/** One figure takes the spread that the whole duration has. */
function remaining(
  { programme }: ProgressInput,
  { calendar, work }: Activity,
  days: number | readonly [number, number, number],
): Activity['work'] {
  const rule = programme.calendars[calendar]
  const day = rule === undefined ? 86_400 : secondsOfDay(rule)
  if (typeof days !== 'number') return [days[0] * day, days[1] * day, days[2] * day]
  const [least, likely, greatest] = work
  const of = (points: number): number => (likely > 0 ? (days * day * points) / likely : days * day)
  return [of(least), days * day, of(greatest)]
}

function costPerSecond({ programme }: ProgressInput, { needs, calendar }: Activity): number {
  const rule = programme.calendars[calendar]
  const perDay = Object.entries(needs).reduce((sum, [r, n]) => sum + n * (programme.resources[r]?.costPerDay ?? 0), 0)
  return perDay / (rule === undefined ? 86_400 : secondsOfDay(rule))
}

/** An activity as the network takes it at the data date. */
function toGo(input: ProgressInput, a: Activity, actual: Actuals, dataDate: number): Activity {
  const own = actual[a.id]
  const isReleased = input.programme.progress[a.id]?.logic === 'released'
  const { finishBy, ...rest } = a
  const begun = a.after.filter(({ to, type }) => isFixed(type, actual[to]))
  const open = a.after.filter(({ to, type }) => !isFixed(type, actual[to]))
  if (own?.finish !== undefined) {
    // retained: what waits for it waits for what it should have waited for as well
    const after = isReleased ? [] : open.filter(({ to, type }) => !isEnded(type, actual[to]))
    return { ...rest, needs: {}, after, notBefore: own.finish }
  }
  const promised = finishBy === undefined ? {} : { finishBy }
  if (own !== undefined && isReleased) return { ...rest, ...promised, after: [], notBefore: dataDate }
  const bounds = begun.map((link) => boundOf(input, a, link, actual[link.to] as Actual))
  return { ...rest, ...promised, after: open, notBefore: Math.max(dataDate, a.notBefore ?? 0, ...bounds) }
}

/** A link from the start of what has begun is a date, and no longer moves. */
const isFixed = (type: Link['type'], of: Actual | undefined): boolean =>
  of !== undefined && (type === 'SS' || type === 'SF')

const isEnded = (type: Link['type'], of: Actual | undefined): boolean =>
  isFixed(type, of) || ((type === 'FS' || type === 'FF') && of?.finish !== undefined)

function boundOf(input: ProgressInput, a: Activity, { type, lag, calendar }: Link, { start }: Actual): number {
  const due = lagged(start, lag, calendar === undefined ? undefined : input.calendars.get(calendar))
  return type === 'SS' ? due : subtractWork(calendarFor(input, a), due, a.work[1])
}

/** The plan with what has happened as it happened. */
export function withActuals(
  plan: Readonly<Record<string, Scheduled>>,
  { actual }: Progress,
): Readonly<Record<string, Scheduled>> {
  return Object.fromEntries(
    Object.entries(plan).map(([id, dates]) => {
      const own = actual[id]
      if (own === undefined) return [id, dates]
      const start = { start: own.start, earlyStart: own.start }
      if (own.finish === undefined) return [id, { ...dates, ...start }]
      const ended = { finish: own.finish, earlyFinish: own.finish, lateStart: own.start, lateFinish: own.finish }
      return [id, { ...dates, ...start, ...ended, totalFloat: 0, freeFloat: 0, planFloat: 0 }]
    }),
  )
}
