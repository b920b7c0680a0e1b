import type { Lift, Programme, ReadProject } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import { type Answer, missingUnder } from '../working/answer.ts'
import type { Activity, Link } from './activity.ts'
import { secondsOfDay, stretchOf } from './calendars.ts'
import type { Passage } from './passage.ts'

export type Work = NonNullable<Programme['work']>
export type Rule = Work['joints']

/** Times on joints and services as the strip gives them. */
export type Times = Pick<StripResult, 'jointTimes' | 'serviceTimes' | 'jointWork' | 'serviceWork'>

/** Hook time of each lift, s, or the pointers that are missing for it. */
export type HookTimes = Readonly<Record<string, { value: number | undefined; missing: readonly string[] }>>

/** What derived activities are made from. */
export interface Rules {
  project: ReadProject
  programme: Programme
  work: Work
  times: Times
  hookTimes: HookTimes
  passages: readonly Passage[]
}

/** Working time in clock seconds with what is missing for it. */
export interface Duration {
  work: Activity['work']
  unknown: readonly string[]
}

type Named = Pick<Activity, 'id' | 'name' | 'kind' | 'phase'>
type Placed = Pick<Activity, 'after' | 'from'> & Partial<Pick<Activity, 'step' | 'piece' | 'lift' | 'holdPoint'>>

/** A derived activity by its rule: calendar and crews from the rule, plant besides. */
export function derived(
  named: Named,
  rule: Rule,
  duration: Duration,
  placed: Placed & { plant?: readonly string[]; interruptible?: boolean },
): Activity {
  const { plant = [], interruptible = true, ...rest } = placed
  const needs = { ...rule.needs, ...Object.fromEntries(plant.map((id) => [id, 1])) }
  const unknown = duration.unknown.length > 0 ? { unknown: duration.unknown } : {}
  return {
    ...named,
    calendar: rule.calendar,
    work: duration.work,
    interruptible,
    needs,
    fixedCost: 0,
    ...rest,
    ...unknown,
  }
}

/** A point in the plan that takes no time and needs nobody. */
export const milestone = (
  id: string,
  name: string,
  after: readonly string[],
  from: readonly string[],
  calendar: string,
): Activity => ({
  id,
  name,
  kind: 'milestone',
  phase: 'strip and return',
  calendar,
  work: [0, 0, 0],
  interruptible: true,
  after: finishToStart(after),
  needs: {},
  from,
  fixedCost: 0,
})

/** Finish-to-start links without lag, each once. */
export const finishToStart = (ids: readonly string[]): Link[] =>
  [...new Set(ids)].map((to) => ({ to, type: 'FS', lag: 0 }))

/** Productive time on a calendar: it takes its share of the shifts on the clock. */
export function productive(rules: Rules, calendar: string, times: readonly Answer<'s'>[]): Duration {
  const rule = rules.programme.calendars[calendar]
  return spread(rules, times, rule === undefined ? 1 : stretchOf(rule))
}

/** Time by the clock: a lift does not go slower for the crew's breaks. */
export const byTheClock = (rules: Rules, times: readonly Answer<'s'>[]): Duration => spread(rules, times, 1)

function spread({ work }: Rules, times: readonly Answer<'s'>[], stretch: number): Duration {
  const seconds = Math.round(times.reduce((sum, t) => sum + (t.value ?? 0), 0) * stretch)
  const [least, greatest] = work.spread.map((r) => r.value as number) as [number, number]
  return {
    work: [Math.round(seconds * Math.min(1, least)), seconds, Math.round(seconds * Math.max(1, greatest))],
    unknown: times.flatMap(missingUnder),
  }
}

/** Typed working days of a calendar. */
export function typedDays(
  programme: Programme,
  calendar: string,
  days: readonly [number, number, number],
): Activity['work'] {
  const rule = programme.calendars[calendar]
  const day = rule === undefined ? 86_400 : secondsOfDay(rule)
  return [Math.round(days[0] * day), Math.round(days[1] * day), Math.round(days[2] * day)]
}

/** Resources of the programme that stand for a lifting system or a bay. */
export function standingFor({ programme }: Rules, ids: readonly (string | undefined)[]): string[] {
  return Object.entries(programme.resources)
    .filter(([id, { stands }]) => ids.includes(stands ?? id))
    .map(([id]) => id)
}

/** Systems whose hooks a lift takes. */
export const systemsOf = (lift: Lift): string[] => [
  lift.system,
  ...(lift.tail?.system === undefined ? [] : [lift.tail.system]),
]
