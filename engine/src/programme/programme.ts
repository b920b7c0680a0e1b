import type { GroundResult } from '../ground/index.ts'
import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model, Programme } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { rememberedActivities } from './activities.ts'
import type { Activities, Scheduled } from './activity.ts'
import { type Bound, lowerBound } from './bound.ts'
import type { Calendar } from './calendar.ts'
import { calendarFrom, HORIZON_YEARS } from './calendars.ts'
import { circleCheck, dayLengths, endlessCheck, programmeChecks, unknownDurations, workMissingCheck } from './checks.ts'
import { type Question, questions } from './health.ts'
import { inspectionChecks } from './inspections/checks.ts'
import { type NearPath, nearCriticalPaths } from './nearCritical.ts'
import { type Network, type NetworkResult, networkOf } from './network.ts'
import { paperChecks } from './papers.ts'
import { peopleChecks } from './people/checks.ts'
import { type Planned, planned } from './plan.ts'
import { type Progress, progressOf, withActuals } from './progress.ts'
import { progressChecks } from './progressChecks.ts'
import { heldBy, punchHoldChecks, punchHolds } from './punchHolds.ts'
import { punchChecks } from './punchList.ts'
import { riggingChecks } from './riggingAtOnce.ts'
import { setUpsOf } from './setUps.ts'
import { type Slippage, slippageOf } from './slippage.ts'
import { testChecks } from './tests/checks.ts'
import { underLifts } from './underLifts.ts'
import { instantOf, localAt, type Zone, zoneFrom } from './zone.ts'

export interface ProgrammeResult {
  checks: readonly Check[]
  activities: Activities
  plan: Readonly<Record<string, Scheduled>>
  /** Finish of the restart activity in the plan, s from the start; undefined when there is no programme. */
  restart?: number
  /** The same with unlimited resources. */
  restartUnlimited?: number
  /** No plan with these resources is earlier, and what that rests on. */
  bound?: { value: number; reason: string; evidence: Bound }
  proven: boolean
  /** UTC instant of second zero, ISO 8601. */
  origin?: string
  /** What the plan is: an order adopted from a search, or the quick default. */
  basis?: 'adopted sequence' | 'quick default'
  /** Questions that planners put to a network, with what raises them. */
  questions?: readonly Question[]
  /** Paths of the plan beside the longest one that have little float, least first. */
  nearCritical?: readonly NearPath[]
  /** For searches and simulation: the same network as numbers, and the plan with its hand-overs. */
  solved?: Solved
  /** What is known at the data date. */
  progress?: Progress
  /** The forecast against the baseline. */
  slippage?: Slippage
  /** Punch items that are not closed, in words, by the activity that they hold. No date is moved by them. */
  held?: Readonly<Record<string, readonly string[]>>
}

/** The programme as numbers. */
export interface Solved {
  zone: Zone
  calendars: ReadonlyMap<string, Calendar>
  network: Network
  planned: Planned
}

/** Activities that follow from the model, their early and late dates, and a plan that its resources allow. */
export function programme(
  model: Model,
  _mass: MassResult,
  strip: StripResult,
  lift: LiftResult,
  _ground: GroundResult,
  memory: Memory,
): ProgrammeResult {
  const typed = model.project.programme
  if (typed === undefined) {
    const unplanned = { activities: {}, plan: {}, proven: false }
    return {
      ...unplanned,
      checks: [
        ...testChecks(model, memory),
        ...punchChecks(model, memory),
        ...inspectionChecks(model, strip, memory),
        ...peopleChecks(model, strip, lift, unplanned, memory),
      ],
    }
  }
  const zone = memory.once('programme/zone', [typed.start, typed.timeZone], () =>
    zoneFrom(typed.start, typed.timeZone, HORIZON_YEARS),
  )
  const calendars = calendarsOf(typed, zone, memory)
  const whole = memory.settled('programme/settled', rememberedActivities(model, typed, strip, lift, zone, memory))
  const progress = memory.once('programme/progress', [whole, typed, calendars, zone], () =>
    progressOf({ programme: typed, activities: whole, calendars, zone }),
  )
  const activities = progress?.activities ?? whole
  const walked = progress?.toGo ?? whole
  const made = memory.once(
    'programme/network',
    [walked, calendars, typed.resources, typed.restart, typed.setUps],
    (): NetworkResult =>
      networkOf({
        activities: walked,
        calendars,
        resources: typed.resources,
        restart: typed.restart,
        setUps: setUpsOf(typed, walked),
      }),
  )
  const origin = instantOf(zone, 0)
  const missing = typed.work === undefined && strip.steps.length > 0 ? [workMissingCheck()] : []
  if (made.network === undefined)
    return {
      checks: [...missing, circleCheck(made.circle), ...paperChecks(model, lift, { activities, plan: {} }, memory)],
      activities,
      plan: {},
      proven: false,
      origin,
    }
  const from: From = { model, typed, zone, calendars, activities, progress, network: made.network, origin, missing }
  const result = withPlan(from, memory)
  const papers = paperChecks(model, lift, result, memory)
  if (result.solved === undefined) return { ...result, checks: [...result.checks, ...papers] }
  const under = underLifts(model, typed, strip, lift, result, memory)
  const rigging = riggingChecks(model, lift, result, memory)
  const tested = [
    ...testChecks(model, memory),
    ...punchChecks(model, memory),
    ...inspectionChecks(model, strip, memory),
    ...punchHoldChecks(model, result, memory),
  ]
  const held = punchHeldOf(model, activities, memory)
  const people = peopleChecks(model, strip, lift, result, memory)
  const checks = memory.once('programme/all-checks', [result.checks, under, papers, rigging, people, ...tested], () => [
    ...result.checks,
    ...under,
    ...papers,
    ...rigging,
    ...tested,
    ...people,
  ])
  return { ...result, checks, ...(held === undefined ? {} : { held }) }
}

/** What punch items hold today; undefined where nothing is held. */
function punchHeldOf({ project }: Model, activities: Activities, memory: Memory): ProgrammeResult['held'] {
  return memory.once(
    'programme/punch-held',
    [project.punchList, project.services, project.programme, activities],
    () => {
      const holds = punchHolds(project, activities)
      const told = Object.keys(holds).flatMap((id) => {
        const items = heldBy(project, holds, id)
        return items.length === 0 ? [] : [[id, items] as const]
      })
      return told.length === 0 ? undefined : Object.fromEntries(told)
    },
  )
}

/** What a plan is made from. */
interface From {
  model: Model
  typed: Programme
  zone: Zone
  calendars: ReadonlyMap<string, Calendar>
  activities: Activities
  progress: Progress | undefined
  network: Network
  origin: string
  missing: readonly Check[]
}

function withPlan(from: From, memory: Memory): ProgrammeResult {
  const { typed, zone, calendars, activities, progress, network, origin, missing } = from
  const plan = memory.once('programme/plan', [network, typed.sequence], () => planned(network, typed.sequence))
  if (!Number.isFinite(plan.plan.end)) {
    const checks = [...missing, endlessCheck(network, plan, activities)]
    return { checks, activities, plan: plan.scheduled, proven: false, origin }
  }
  const low = memory.once('programme/bound', [network, plan], () => lowerBound(network, plan.plan.restart, HOUR))
  const bound = memory.once('programme/reason', [low, zone], () => ({
    value: low.value,
    reason: reasonOf(low, zone),
    evidence: low,
  }))
  const asked = askedOf(from, plan, memory)
  const { scheduled, slippage, held } = heldOf(from, plan, memory)
  const planChecks = checksOf(from, plan, bound, asked, memory)
  const checks = held.length === 0 ? planChecks : [...planChecks, ...held]
  return {
    checks: missing.length === 0 ? checks : [...missing, ...checks],
    activities,
    plan: scheduled,
    restart: plan.plan.restart,
    restartUnlimited: plan.unlimited.restart,
    bound,
    proven: plan.plan.restart - low.value < MINUTE,
    origin,
    basis: plan.adopted ? 'adopted sequence' : 'quick default',
    questions: asked,
    nearCritical: nearOf(from, plan, memory),
    solved: memory.once('programme/solved', [zone, calendars, network, plan], () => ({
      zone,
      calendars,
      network,
      planned: plan,
    })),
    ...(progress === undefined ? {} : { progress }),
    ...(slippage === undefined ? {} : { slippage }),
  }
}

function nearOf({ typed, activities }: From, plan: Planned, memory: Memory): readonly NearPath[] {
  return memory.once('programme/nearCritical', [activities, plan, typed], () => {
    const length = dayLengths(typed)
    const day = (i: number): number => length(activities[plan.bound.ids[i] as string]?.calendar ?? '')
    return nearCriticalPaths(plan, typed.nearCriticalDays, day)
  })
}

/** The plan with what has happened, against the baseline. */
function heldOf({ model, typed, zone, calendars, activities, progress }: From, plan: Planned, memory: Memory) {
  const scheduled =
    progress === undefined
      ? plan.scheduled
      : memory.once('programme/actuals', [plan, progress], () => withActuals(plan.scheduled, progress))
  const slippage = memory.once('programme/slippage', [plan, scheduled, activities, typed, zone], () =>
    slippageOf({ programme: typed, activities, calendars, zone, planned: plan, plan: scheduled, progress }),
  )
  const held = memory.once(
    'programme/held',
    [plan, activities, typed, slippage, model.project.settings],
    (): readonly Check[] =>
      progressChecks({
        programme: typed,
        activities,
        restart: plan.plan.restart,
        progress,
        slippage,
        near: model.near,
        unknown: unknownDurations(Object.values(activities)),
      }),
  )
  return { scheduled, slippage, held }
}

function askedOf({ typed, activities }: From, plan: Planned, memory: Memory): readonly Question[] {
  return memory.once('programme/questions', [activities, plan, typed], () =>
    questions({
      activities: Object.values(activities),
      all: activities,
      plan: plan.scheduled,
      programme: typed,
      day: dayLengths(typed),
    }),
  )
}

function checksOf(
  { model, typed, activities, network, zone }: From,
  plan: Planned,
  bound: { value: number; reason: string },
  asked: readonly Question[],
  memory: Memory,
): readonly Check[] {
  return memory.once('programme/checks', [activities, plan, bound, asked, typed, zone, model.project.settings], () =>
    programmeChecks({ model, programme: typed, activities, network, planned: plan, bound, questions: asked, zone }),
  )
}

const MINUTE = 60
const HOUR = 3600

function calendarsOf({ calendars }: Programme, zone: Zone, memory: Memory): ReadonlyMap<string, Calendar> {
  return memory.once('programme/calendars', [calendars, zone], () => {
    const all = Object.entries(calendars).map(([id, rule]) =>
      memory.once(`programme/calendar/${id}`, [rule, zone], () => calendarFrom(id, rule, zone)),
    )
    return new Map(all.map((calendar) => [calendar.id, calendar]))
  })
}

/**
 * A bound in words: the longest path, or the resource with its span. One unit is busy alone; of several the units' hours are
 * told together.
 */
export function reasonOf({ kind, resource, from, to, needed, there, units }: Bound, zone: Zone): string {
  if (kind === 'path' || from === undefined || to === undefined) return 'the longest path, with unlimited resources'
  const hours = (seconds: number | undefined): string => ((seconds ?? 0) / HOUR).toFixed(0)
  const [first, last] = [localAt(zone, from).date, localAt(zone, to).date]
  if (units === 1)
    return `to restart by then, ${resource} alone would be busy for ${hours(needed)} working hours between ${first} and ${last}, which have ${hours(there)}`
  return `to restart by then, the ${units} of ${resource} would be busy for ${hours(needed)} hours of one, taken together, between ${first} and ${last}, and can give ${hours(there)}`
}
