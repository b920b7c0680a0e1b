import { extremesOf } from '../../engine/src/numeric/statistics.ts'
import type { Activity, LinkType } from '../../engine/src/programme/activity.ts'
import { lowerBound } from '../../engine/src/programme/bound.ts'
import {
  ALWAYS,
  addWork,
  type Calendar,
  intersectionOf,
  startAt,
  subtractWork,
  unbrokenFrom,
} from '../../engine/src/programme/calendar.ts'
import { type CalendarRule, calendarFrom } from '../../engine/src/programme/calendars.ts'
import { interferingFloat } from '../../engine/src/programme/float.formulas.ts'
import { justified, planOf, priorities, quickPlan } from '../../engine/src/programme/improve.ts'
import { type Network, networkOf } from '../../engine/src/programme/network.ts'
import {
  earlyDates,
  finishes,
  freeFloat,
  independentFloat,
  lateDates,
  longestPath,
  targetOf,
  totalFloat,
} from '../../engine/src/programme/passes.ts'
import { pathTest } from '../../engine/src/programme/pathTest.ts'
import { modelOfInstance } from '../../engine/src/programme/rcpsp/modelOfInstance.ts'
import { proverOf } from '../../engine/src/programme/rcpsp/prove.ts'
import { searchPlan } from '../../engine/src/programme/search.ts'
import { listBy, serialPlan } from '../../engine/src/programme/serial.ts'
import { dayNumber, elapsedAt, instantOf, type Zone, zoneFrom } from '../../engine/src/programme/zone.ts'
import { listOf, numberOf, numbersOf, recordOf, rowsOf, textOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** What cases of this stage call by name, beside the formulas. */
export const functions: Record<string, VerifiedFunction> = {
  /** Durations, links [from, to, kind, lag] and promised finishes: early and late times, floats, the longest path. */
  'programme.network': networkTimes,
  /** The same network with 600 days more in the first activity of its longest path. */
  'programme.path-test': pathTested,
  /** Arrows [i, j, duration] between events: the same, by "i-j". */
  'programme.arrows': (inputs) => networkTimes(arrowsAsNetwork(inputs)),
  /** Working time on a calendar: `add` hours to a start, `subtract` from a finish, or `fit` in one piece. */
  'programme.calendar': workingTime,
  /** Elapsed hours of a shift of a local day. */
  'programme.shift': shiftHours,
  /** A network through several calendars. */
  'programme.calendars': severalCalendars,
  /** Durations, capacities, needs and precedence: bounds, lists by rule, and the optimum. */
  'programme.resources': underResources,
  /** Shortest first, then one pass backward and forward. */
  'programme.justification': justification,
  /** Extremes of a triangular duration from its 10 % and 90 % quantiles. */
  'programme.extremes': (inputs) => {
    const [least, greatest] = extremesOf(numberOf(inputs, 'p10'), numberOf(inputs, 'mode'), numberOf(inputs, 'p90'))
    return { least, greatest }
  },
  /** Durations as values with chances, a list and a resource: the finish of every run by the list, at best, and without it. */
  'programme.every-run': everyRun,
  /** Work in blocks of a week: jobs in one piece on a resource that rests. */
  'programme.week': weekOfCapacity,
}

const fixed = (d: number): Activity['work'] => [d, d, d]

function activity(id: string, work: Activity['work'], more: Partial<Activity> = {}): Activity {
  return {
    id,
    name: id,
    kind: 'typed',
    phase: '',
    calendar: 'always',
    work,
    interruptible: true,
    after: [],
    needs: {},
    from: [],
    fixedCost: 0,
    ...more,
  }
}

function networkFor(
  activities: readonly Activity[],
  resources: Readonly<Record<string, { capacity: number }>> = {},
  calendars: ReadonlyMap<string, Calendar> = new Map([['always', ALWAYS]]),
): Network {
  const made = networkOf({ activities: Object.fromEntries(activities.map((a) => [a.id, a])), calendars, resources })
  if (made.network === undefined) throw new Error(`a circle: ${made.circle.join(', ')}`)
  return made.network
}

type LinkRow = readonly [from: string, to: string, type: LinkType, lag: number]

const linkRows = (inputs: Inputs): LinkRow[] =>
  listOf(inputs, 'links').map((row) => {
    const [from, to, type, lag] = row as readonly Value[]
    return [String(from), String(to), String(type) as LinkType, Number(lag)]
  })

function typedNetwork(inputs: Inputs): Network {
  const links = linkRows(inputs)
  const promised = inputs.promised === undefined ? {} : recordOf(inputs, 'promised')
  return networkFor(
    Object.entries(recordOf(inputs, 'durations')).map(([id, d]) =>
      activity(id, fixed(Number(d)), {
        after: links.filter(([, to]) => to === id).map(([to, , type, lag]) => ({ to, type, lag })),
        ...(promised[id] === undefined ? {} : { finishBy: Number(promised[id]) }),
      }),
    ),
  )
}

function pathTested(inputs: Inputs): Record<string, Value> {
  const network = typedNetwork(inputs)
  const before = finishes(network, earlyDates(network)).end
  const moved = pathTest(network, () => 1)?.moved ?? Number.NaN
  return { before, after: before + moved, moved }
}

function networkTimes(inputs: Inputs): Record<string, Value> {
  const network = typedNetwork(inputs)
  const early = earlyDates(network)
  const { restart, end } = finishes(network, early)
  const late = lateDates(network, restart, end)
  const path = longestPath(network, early, targetOf(network, early))
  const by = (of: (i: number) => number): Record<string, number> =>
    Object.fromEntries(network.ids.map((id, i) => [id, of(i)]))
  return {
    finish: end,
    critical: network.ids.filter((_, i) => path.has(i)),
    ES: by((i) => early.start[i] as number),
    EF: by((i) => early.finish[i] as number),
    LS: by((i) => late.start[i] as number),
    LF: by((i) => late.finish[i] as number),
    totalFloat: by((i) => totalFloat(network, i, early.start[i] as number, late.start[i] as number)),
    freeFloat: by((i) => freeFloat(network, i, early, end)),
    interferingFloat: by((i) =>
      interferingFloat.value({
        T: totalFloat(network, i, early.start[i] as number, late.start[i] as number),
        F: freeFloat(network, i, early, end),
      }),
    ),
    independentFloat: by((i) => independentFloat(network, i, early, late, end)),
  }
}

function arrowsAsNetwork(inputs: Inputs): Inputs {
  const arrows = rowsOf(inputs, 'arrows').map(([i, j, d]) => ({ id: `${i}-${j}`, i, j, d: d as number }))
  return {
    durations: Object.fromEntries(arrows.map(({ id, d }) => [id, d])),
    links: arrows.flatMap(({ id, i }) => arrows.filter((a) => a.j === i).map((a) => [a.id, id, 'FS', 0])),
  }
}

const EVERY_DAY = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']

function ruleOf(value: Value): CalendarRule {
  const { days, shifts, holidays } = value as { days?: string[]; shifts: [string, string][]; holidays?: string[] }
  return {
    days: (days ?? EVERY_DAY) as CalendarRule['days'],
    shifts: shifts.map(([a, b]): [string, string] => [a, b]),
    hoursPerDay: 8,
    holidays: holidays ?? [],
    windLimited: false,
  }
}

const HOUR = 3600

/** Elapsed seconds of a local text such as "2026-06-04T14:00". */
function elapsed(zone: Zone, text: string): number {
  const [date, time] = text.split('T') as [string, string]
  const [h, m] = time.split(':').map(Number) as [number, number]
  return elapsedAt(zone, dayNumber(date), h * HOUR + m * 60)
}

const shown = (zone: Zone, time: number): string => instantOf(zone, time).slice(0, 16)

function workingTime(inputs: Inputs): Record<string, Value> {
  const zone = zoneFrom('2026-06-01', 'UTC', 3)
  const calendars = listOf(inputs, 'calendars').map((c, i) => calendarFrom(`c${i}`, ruleOf(c), zone))
  const calendar = intersectionOf(calendars)
  const at = elapsed(zone, textOf(inputs, 'at'))
  const work = numberOf(inputs, 'work')
  switch (textOf(inputs, 'do')) {
    case 'add':
      return {
        start: shown(zone, startAt(calendar, at)),
        finish: shown(zone, addWork(calendar, at, work)),
        next: shown(zone, startAt(calendar, addWork(calendar, at, work))),
      }
    case 'subtract':
      return { start: shown(zone, subtractWork(calendar, at, work)) }
    case 'elapse':
      return { finish: shown(zone, at + work), next: shown(zone, startAt(calendar, at + work)) }
    case 'fit': {
      const start = unbrokenFrom(calendar, at, work)
      return { start: shown(zone, start), finish: shown(zone, start + work) }
    }
    default:
      throw new Error('do: one of add, subtract, elapse, fit')
  }
}

function shiftHours(inputs: Inputs): Record<string, Value> {
  const zone = zoneFrom('2026-01-01', textOf(inputs, 'zone'), 2)
  const [start, end] = [elapsed(zone, textOf(inputs, 'from')), elapsed(zone, textOf(inputs, 'to'))]
  return { hours: (end - start) / HOUR, fromUtc: shown(zone, start), toUtc: shown(zone, end) }
}

function severalCalendars(inputs: Inputs): Record<string, Value> {
  const zone = zoneFrom('2026-06-01', 'UTC', 3)
  const calendars = new Map(
    Object.entries(recordOf(inputs, 'calendars')).map(([id, c]) => [id, calendarFrom(id, ruleOf(c), zone)]),
  )
  const network = networkFor(
    Object.entries(recordOf(inputs, 'activities')).map(([id, a]) => {
      const { calendar, work, after } = a as { calendar: string; work: number; after?: string[] }
      return activity(id, fixed(work), { calendar, after: (after ?? []).map((to) => ({ to, type: 'FS', lag: 0 })) })
    }),
    {},
    calendars,
  )
  const early = earlyDates(network)
  const { restart, end } = finishes(network, early)
  const late = lateDates(network, restart, end)
  return Object.fromEntries(
    network.ids.map((id, i) => [
      id,
      {
        start: shown(zone, early.start[i] as number),
        finish: shown(zone, early.finish[i] as number),
        lateStart: shown(zone, late.start[i] as number),
        lateFinish: shown(zone, late.finish[i] as number),
        totalFloat: totalFloat(network, i, early.start[i] as number, late.start[i] as number),
      },
    ]),
  )
}

function resourceNetwork(inputs: Inputs): Network {
  const capacities = numbersOf(inputs, 'capacities')
  const needs = recordOf(inputs, 'needs')
  const pairs = rowsOf(inputs, 'precedence').map((pair) => pair.map(String))
  return networkFor(
    Object.entries(recordOf(inputs, 'durations')).map(([id, d]) =>
      activity(id, fixed(Number(d)), {
        needs: Object.fromEntries((needs[id] as number[]).map((n, k) => [`R${k + 1}`, n])),
        after: pairs.filter(([, to]) => to === id).map(([from]) => ({ to: from as string, type: 'FS', lag: 0 })),
      }),
    ),
    Object.fromEntries(capacities.map((capacity, k) => [`R${k + 1}`, { capacity }])),
  )
}

function underResources(inputs: Inputs): Record<string, Value> {
  const network = resourceNetwork(inputs)
  const [finish, start] = priorities(network) as [Float64Array, Float64Array]
  const byRule = (rule: ArrayLike<number>) => {
    const list = listBy(network, rule)
    return {
      list: Array.from(list, (i) => Number(network.ids[i])),
      makespan: planOf(network, serialPlan(network, list)).end,
    }
  }
  const found = searchPlan(network, { effort: 500, seed: 1 }).plan
  const low = lowerBound(network, found.end, 0.25)
  return {
    criticalPath: finishes(network, earlyDates(network)).end,
    boundAtMost: low.value <= found.end,
    optimum: optimumOf(inputs, found.end, Array.from(found.dates.start)),
    quick: quickPlan(network).end,
    LFT: byRule(finish),
    LST: byRule(start),
    SPT: byRule(network.work),
  }
}

/** Proven by the search that learns from conflicts. */
function optimumOf(inputs: Inputs, makespan: number, starts: number[]): number | undefined {
  const durations = Object.values(recordOf(inputs, 'durations')).map(Number)
  const needs = Object.values(recordOf(inputs, 'needs')) as number[][]
  const pairs = rowsOf(inputs, 'precedence') as [number, number][]
  const n = durations.length
  const nothing = (needs[0] as number[]).map(() => 0)
  const instance = {
    durations: [0, ...durations, 0],
    successors: [
      durations.map((_, i) => i + 1),
      ...durations.map((_, i) => [...pairs.filter(([a]) => a === i + 1).map(([, b]) => b), n + 1]),
      [],
    ],
    needs: [nothing, ...needs, nothing],
    capacities: numbersOf(inputs, 'capacities'),
  }
  const known = { value: makespan, solution: [0, ...starts, makespan], bound: 0 }
  const proof = proverOf(modelOfInstance(instance, makespan), known).go(100_000)
  return proof.proven ? proof.value : undefined
}

/** Every combination of durations, with its chance: finishes by the serial scheme on a fixed list, proven least, and by path. */
function everyRun(inputs: Inputs): Record<string, Value> {
  const spread = Object.entries(recordOf(inputs, 'durations')) as [string, [number, number][]][]
  let runs: { durations: Record<string, number>; chance: number }[] = [{ durations: {}, chance: 1 }]
  for (const [id, values] of spread)
    runs = runs.flatMap((run) =>
      values.map(([d, p]) => ({ durations: { ...run.durations, [id]: d }, chance: run.chance * p })),
    )
  const rank = new Map(numbersOf(inputs, 'list').map((id, at) => [String(id), at]))
  const ends = runs.map(({ durations, chance }) => {
    const run = { ...inputs, durations }
    const network = resourceNetwork(run)
    const priority = network.ids.map((id) => rank.get(id) as number)
    const plan = planOf(network, serialPlan(network, listBy(network, priority)))
    const least = optimumOf(run, plan.end, Array.from(plan.dates.start)) ?? Number.NaN
    return { chance, byList: plan.end, least, path: finishes(network, earlyDates(network)).end }
  })
  const mean = (of: (e: (typeof ends)[number]) => number): number => ends.reduce((sum, e) => sum + e.chance * of(e), 0)
  const chances: Record<string, number> = {}
  for (const { byList, chance } of ends) chances[byList] = (chances[byList] ?? 0) + chance
  const percentile = (p: number): number => {
    let sum = 0
    for (const end of Object.keys(chances)
      .map(Number)
      .sort((a, b) => a - b)) {
      sum += chances[end] as number
      if (sum >= p - 1e-9) return end
    }
    return Number.NaN
  }
  const means = {
    mean: mean((e) => e.byList),
    meanAtBest: mean((e) => e.least),
    meanWithoutResources: mean((e) => e.path),
  }
  return { chances, P50: percentile(0.5), P80: percentile(0.8), ...means }
}

function justification(inputs: Inputs): Record<string, Value> {
  const network = resourceNetwork(inputs)
  const first = planOf(network, serialPlan(network, listBy(network, network.work)))
  const { plan } = justified(network, first, 1)
  const starts = (p: typeof plan) => Object.fromEntries(network.ids.map((id, i) => [id, p.dates.start[i] as number]))
  return { before: first.end, startsBefore: starts(first), after: plan.end, startsAfter: starts(plan) }
}

/** One day of the week is one unit of time; the resource rests after the working ones. */
function weekOfCapacity(inputs: Inputs): Record<string, Value> {
  const [working, resting] = [numberOf(inputs, 'working'), numberOf(inputs, 'resting')]
  const week = working + resting
  const calendar: CalendarRule = ruleOf({
    days: EVERY_DAY.slice(0, working),
    shifts: [['00:00', '24:00']],
  } as unknown as Value)
  if (week !== 7) throw new Error('a week has seven days')
  const zone = zoneFrom('2026-06-01', 'UTC', 3)
  const DAY = 86_400
  const pairs = rowsOf(inputs, 'precedence').map((pair) => pair.map(String))
  const network = networkFor(
    Object.entries(recordOf(inputs, 'durations')).map(([id, d]) =>
      activity(id, fixed(Number(d) * DAY), {
        calendar: 'week',
        interruptible: false,
        needs: { R1: 1 },
        after: pairs.filter(([, to]) => to === id).map(([from]) => ({ to: from as string, type: 'FS', lag: 0 })),
      }),
    ),
    { R1: { capacity: numberOf(inputs, 'capacity') } },
    new Map([['week', calendarFrom('week', calendar, zone)]]),
  )
  return { makespan: searchPlan(network, { effort: 500, seed: 1 }).plan.end / DAY }
}
