import type { Programme } from '../model/index.ts'
import type { Activities, Scheduled } from './activity.ts'
import { ALWAYS, workAt } from './calendar.ts'
import { drivers, targetOf } from './passes.ts'
import type { Planned } from './plan.ts'
import { dated, elapsedOf, type Progress, type ProgressInput } from './progress.ts'

/** What one activity is later than in the baseline; s, negative when earlier. */
export interface Slip {
  start: number
  finish: number
  /** Of the finish, in working time of its own calendar. */
  working: number
  baseline: { start: number; finish: number }
}

/** One part of the slip of the restart, along what drives it. */
export interface SlipCause {
  activity: string
  kind: 'took longer' | 'waited longer' | 'is new' | 'began late'
  /** What it adds to the slip, s; negative when it wins time back. */
  seconds: number
  /** Delays on record that name the activity. */
  delays: readonly string[]
}

/** The forecast against the baseline. */
export interface Slippage {
  baseline: string
  name: string
  made: string
  slips: Readonly<Record<string, Slip>>
  /** Of the restart, s. */
  restart?: { baseline: number; slip: number }
  /** Along the path that drives the restart, in its order; they add up to the slip of its last activity. */
  causes: readonly SlipCause[]
  /** In the baseline and no longer in the network, or the other way round. */
  gone: readonly string[]
  added: readonly string[]
}

/** The baseline that the forecast is held against: the one named, or the one made last. */
export function baselineOf({ baselines, baseline }: Programme): string | undefined {
  if (baseline !== undefined) return baseline
  return Object.entries(baselines).reduce<string | undefined>(
    (last, [id, { made }]) => (last === undefined || made >= (baselines[last]?.made ?? '') ? id : last),
    undefined,
  )
}

interface Held extends ProgressInput {
  planned: Planned
  plan: Readonly<Record<string, Scheduled>>
  progress: Progress | undefined
}

/** Slips of every activity and of the restart, and what makes up the latter; undefined without a baseline. */
export function slippageOf(held: Held): Slippage | undefined {
  const { programme, activities, plan } = held
  const id = baselineOf(programme)
  const baseline = id === undefined ? undefined : programme.baselines[id]
  if (id === undefined || baseline === undefined) return undefined
  const slips = Object.fromEntries(
    Object.entries(baseline.activities).flatMap(([activity, [start, finish]]): [string, Slip][] => {
      const own = activities[activity]
      const dates = plan[activity]
      if (own === undefined || dates === undefined) return []
      const was = { start: dated(held, own, start, 'first'), finish: dated(held, own, finish, 'last') }
      const calendar = held.calendars.get(own.calendar) ?? ALWAYS
      const working = workAt(calendar, dates.finish) - workAt(calendar, was.finish)
      return [[activity, { start: dates.start - was.start, finish: dates.finish - was.finish, working, baseline: was }]]
    }),
  )
  const restart = restartSlip(held, baseline.restart, slips)
  return {
    baseline: id,
    name: baseline.name,
    made: baseline.made,
    slips,
    ...(restart === undefined ? {} : { restart }),
    causes: causesOf(held, slips),
    gone: Object.keys(baseline.activities).filter((a) => activities[a] === undefined),
    added: Object.keys(activities).filter((a) => baseline.activities[a] === undefined),
  }
}

function restartSlip(
  held: Held,
  stated: string | undefined,
  slips: Readonly<Record<string, Slip>>,
): Slippage['restart'] {
  const { programme, planned } = held
  const own = programme.restart === undefined ? undefined : slips[programme.restart]
  const was = stated === undefined ? own?.baseline.finish : elapsedOf(held, stated, 'last')
  return was === undefined ? undefined : { baseline: was, slip: planned.plan.restart - was }
}

/** The path that drives the restart, first activity first: tight links ahead of the data date, what came last before it. */
function drivingPath({ planned, activities, plan, progress }: Held): string[] {
  const { bound, plan: made } = planned
  const path: string[] = []
  let at: number | undefined = targetOf(bound, made.dates)
  while (at !== undefined) {
    const id: string = bound.ids[at] as string
    path.push(id)
    const [driver]: number[] = progress?.actual[id] === undefined ? drivers(bound, at, made.dates) : []
    at = driver ?? lastBefore(id)
  }
  return path.reverse()

  function lastBefore(id: string): number | undefined {
    if (progress === undefined || progress.actual[id] === undefined) return undefined
    const done = (activities[id]?.after ?? []).filter(({ to }) => progress.actual[to]?.finish !== undefined)
    const last = done.reduce<string | undefined>(
      (best, { to }) => (best === undefined || (plan[to]?.finish ?? 0) > (plan[best]?.finish ?? 0) ? to : best),
      undefined,
    )
    return last === undefined ? undefined : bound.index.get(last)
  }
}

/** Each activity of the driving path adds what it took longer and what it waited longer; the sum telescopes to the slip. */
function causesOf(held: Held, slips: Readonly<Record<string, Slip>>): SlipCause[] {
  const { plan, programme } = held
  const causes: SlipCause[] = []
  let before: { finish: number; was: number } | undefined
  for (const id of drivingPath(held)) {
    const dates = plan[id]
    if (dates === undefined) continue
    const was = slips[id]?.baseline
    const delays = Object.keys(programme.delays).filter((d) => programme.delays[d]?.activities.includes(id))
    const add = (kind: SlipCause['kind'], seconds: number): void => {
      if (Math.abs(seconds) >= MINUTE) causes.push({ activity: id, kind, seconds, delays })
    }
    if (was === undefined) {
      if (before === undefined) continue
      add('is new', dates.finish - before.finish)
      before = { finish: dates.finish, was: before.was }
      continue
    }
    if (before === undefined) add('began late', dates.start - was.start)
    else add('waited longer', dates.start - before.finish - (was.start - before.was))
    add('took longer', dates.finish - dates.start - (was.finish - was.start))
    before = { finish: dates.finish, was: was.finish }
  }
  return causes
}

const MINUTE = 60

/** A minute and more. */
export const isLate = ({ finish }: Pick<Slip, 'finish'>): boolean => finish >= MINUTE

/** Those due by the baseline at the data date, and of them what is not done in time. */
export function missed(activities: Activities, { slips }: Slippage, { dataDate, actual }: Progress) {
  const due = Object.entries(slips).filter(([id, s]) => activities[id] !== undefined && s.baseline.finish <= dataDate)
  const late = due.filter(([id, s]) => actual[id]?.finish === undefined || isLate(s))
  return { due: due.map(([id]) => id), late: late.map(([id]) => id) }
}
