import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import { meanOf, quantileBand, quantileOf } from '../numeric/statistics.ts'
import { dayLengths, localAt, type ProgrammeResult, type Solved, targetOf } from '../programme/index.ts'
import { missingUnder } from '../working/answer.ts'
import { type CostRule, costOf, costRule } from './cost.ts'
import { type Attribution, attribute, emptyAttribution, shares } from './drivers.ts'
import { emptyRun, runOnce, type WindOnLifts } from './pass.ts'
import {
  type DurationSource,
  drawDurations,
  drawEvents,
  durationSource,
  type EventSource,
  eventSources,
  type Measures,
} from './sources.ts'
import { hourPlaces, levelsOf, stoppingMean, windSeries } from './wind.ts'

export interface SimulationOptions extends Measures {
  runs: number
  seed: number
  /** Asked every few runs; false ends the simulation with the runs made so far. */
  shouldContinue?: () => boolean
  onProgress?: (done: number, runs: number) => void
}

export interface Percentiles {
  p10: number
  p50: number
  p80: number
  p90: number
  mean: number
}

/** A simulation's result. Dates are elapsed seconds from the start of the programme. */
export interface SimulationResult {
  runs: number
  seed: number
  /** What each run is: the policy, and what the three points mean. */
  method: string
  restart: Percentiles
  /** The same as local dates. */
  dates: Readonly<Record<keyof Percentiles, string>>
  /** Interval that holds the percentile with 95 % confidence, from order statistics. */
  band: { p50: readonly [number, number]; p80: readonly [number, number] }
  cost: Percentiles
  /** Shares of the spread of the restart, largest first; they add up to one. */
  drivers: readonly { id: string; name: string; share: number }[]
  /** Share of runs in which an activity is on the driving path, where it is not nought. */
  criticality: Readonly<Record<string, number>>
  /** Mean wait for wind over all lifts of a run, s. */
  windWait: number
  /** Restart planned, without any of this. */
  planned: number
  /** Inputs that are missing; the result then says nothing about what hangs on them. */
  open: readonly string[]
  /** Lifts that in some run found no window within two years. */
  stuck: readonly string[]
  /** Risks none of whose activities is in the network. */
  lost: readonly string[]
  notes: readonly string[]
  /** Restarts of all runs, earliest first. */
  sorted: Float64Array
}

export type SimulationOutcome =
  | { result: SimulationResult; reason?: undefined }
  | { result?: undefined; reason: string }

const METHOD =
  'early start on the planned hand-overs of resources: no run re-plans and none looks ahead; durations triangular; event delays in calendar time after the activity; hourly wind at the mast, Weibull by month, first-order persistence, calm for the whole of a lift inside one shift'

/**
 * Monte Carlo on the resource-constrained network. The same seed gives the same result; every activity, event and hour of
 * wind has numbers of its own, so that two what-ifs differ by what was changed and by nothing else.
 */
export function simulate(
  programme: ProgrammeResult,
  lifts: LiftResult,
  model: Model,
  options: SimulationOptions,
): SimulationOutcome {
  const { solved } = programme
  if (solved === undefined || programme.restart === undefined) return { reason: 'there is no plan to simulate' }
  if (options.runs < 2) return { reason: 'a simulation needs two runs or more' }
  const prepared = prepare(programme, solved, lifts, model, options)
  const made = manyRuns(prepared, options)
  return { result: resultOf(programme, solved, prepared, made, options) }
}

interface Prepared {
  target: number
  durations: DurationSource
  events: readonly EventSource[]
  triangle: number[][] | undefined
  rows: number
  strikesOn: readonly (readonly number[])[]
  strikeIds: readonly string[]
  wind: WindOnLifts | undefined
  cost: CostRule
  extra: number
  open: readonly string[]
  lost: readonly string[]
  notes: readonly string[]
  solved: Solved
}

function prepare(
  programme: ProgrammeResult,
  solved: Solved,
  lifts: LiftResult,
  model: Model,
  options: SimulationOptions,
): Prepared {
  const { network } = solved
  const { events, lost, rows, triangle } = eventSources(model, network.index, options.seed, options)
  const strikesOn = network.ids.map((): number[] => [])
  const strikeIds: string[] = []
  for (const event of events) {
    for (const { activity } of event.strikes) (strikesOn[activity] as number[]).push(strikeIds.push(event.id) - 1)
  }
  const wind = options.frozen?.includes('wind')
    ? { open: [], wind: undefined }
    : windOn(programme, solved, lifts, model, options.seed)
  const unknown = Object.values(programme.activities).flatMap((a) => a.unknown ?? [])
  const { risks } = model.project
  const extra =
    (options.mitigations ?? []).reduce((sum, id) => sum + (risks[id]?.mitigation?.cost ?? 0), 0) +
    (options.options ?? []).reduce((sum, id) => sum + (model.project.programme?.options[id]?.cost ?? 0), 0)
  const day = dayLengths(model.project.programme as NonNullable<Model['project']['programme']>)
  return {
    target: targetOf(network, solved.planned.plan.dates),
    durations: durationSource(model, programme, options.seed, options),
    events,
    triangle,
    rows: rows.length,
    strikesOn,
    strikeIds,
    wind: wind.wind,
    cost: costRule(model, programme, day),
    extra,
    open: [...new Set([...unknown, ...wind.open])],
    lost,
    notes: [
      model.project.programme?.points === 'P10 and P90'
        ? 'least and greatest durations are P10 and P90'
        : 'least and greatest durations are extremes',
      ...(triangle === undefined ? ['the correlations contradict each other and are left out'] : []),
    ],
    solved,
  }
}

/** Levels of every lift that waits for wind; what is not known is named and does not wait. */
function windOn(
  programme: ProgrammeResult,
  { network, zone }: Solved,
  lifts: LiftResult,
  model: Model,
  seed: number,
): { wind: WindOnLifts | undefined; open: string[] } {
  const { climate, programme: typed } = model.project
  const row = new Int32Array(network.ids.length).fill(-1)
  const levels: Float64Array[] = []
  const rows = new Map<number, number>()
  const open: string[] = []
  network.ids.forEach((id, i) => {
    const { lift, calendar, interruptible } = programme.activities[id] as ProgrammeResult['activities'][string]
    if (lift === undefined || interruptible || typed?.calendars[calendar]?.windLimited !== true) return
    const limit = stoppingMean(model, lifts.lifts, lift)
    if (limit.value === undefined || climate === undefined) {
      open.push(...missingUnder(limit))
      return
    }
    const known = rows.get(limit.value) ?? levels.push(levelsOf(climate, limit.value)) - 1
    rows.set(limit.value, known)
    row[i] = known
  })
  if (levels.length === 0 || climate === undefined) return { wind: undefined, open }
  const rho = climate.persistence.value as number
  return { wind: { row, levels, places: hourPlaces(zone, HORIZON), series: windSeries(seed, rho, HORIZON) }, open }
}

/** Hours of weather that a run may ask for: ten years. */
const HORIZON = 10 * 366 * 24
const ASK_EVERY = 50

interface Runs {
  restart: Float64Array
  cost: Float64Array
  attribution: Attribution
  windWait: number
  stuck: Uint8Array
}

function manyRuns(prepared: Prepared, { runs, shouldContinue, onProgress }: SimulationOptions): Runs {
  const { solved, target, durations, events, triangle, strikesOn, strikeIds, wind } = prepared
  const { bound } = solved.planned
  const n = bound.ids.length
  const work = new Float64Array(n)
  const network = { ...bound, work }
  const dates = emptyRun(n)
  const delay = new Float64Array(n)
  const byStrike = new Float64Array(strikeIds.length)
  const common = new Float64Array(durations.shared.length)
  const normals = { whether: new Float64Array(prepared.rows), howLong: new Float64Array(prepared.rows) }
  let next = 0
  const drawn = { delay, byEvent: byStrike, at: events.map(({ strikes }) => strikes.map(() => next++)) }
  const attribution = emptyAttribution(n, strikeIds.length)
  const origin = solved.planned.plan.restart
  const standing = solved.planned.plan.dates
  const planned = standing.finish.map((f, i) => f - (standing.start[i] as number))
  const [restart, cost] = [new Float64Array(runs), new Float64Array(runs)]
  let [done, windWait] = [0, 0]
  while (done < runs) {
    drawDurations(durations, common, work)
    const spent = drawEvents(events, triangle, normals, drawn)
    wind?.series.begin(done)
    runOnce(network, delay, wind, dates)
    const finish = dates.finish[target] as number
    restart[done] = finish
    cost[done] = costOf(prepared.cost, work, finish, spent + prepared.extra)
    windWait += sumOf(dates.waited)
    attribute(attribution, { network, dates, target, strikesOn, byStrike, planned }, origin)
    done++
    if (done % ASK_EVERY === 0) {
      onProgress?.(done, runs)
      if (shouldContinue?.() === false) break
    }
  }
  return {
    restart: restart.subarray(0, done),
    cost: cost.subarray(0, done),
    attribution,
    windWait: windWait / done,
    stuck: dates.stuck,
  }
}

const sumOf = (values: Float64Array): number => values.reduce((sum, v) => sum + v, 0)

const CONFIDENCE = 1.959964

function resultOf(
  programme: ProgrammeResult,
  { zone, network }: Solved,
  prepared: Prepared,
  { restart, cost, attribution, windWait, stuck }: Runs,
  { seed }: SimulationOptions,
): SimulationResult {
  const sorted = restart.slice().sort()
  const percentiles = percentilesOf(sorted, restart)
  const names = network.ids
  return {
    runs: restart.length,
    seed,
    method: METHOD,
    restart: percentiles,
    dates: Object.fromEntries(Object.entries(percentiles).map(([name, t]) => [name, localAt(zone, t).date])) as Record<
      keyof Percentiles,
      string
    >,
    band: { p50: quantileBand(sorted, 0.5, CONFIDENCE), p80: quantileBand(sorted, 0.8, CONFIDENCE) },
    cost: percentilesOf(cost.slice().sort(), cost),
    drivers: driversOf(programme, prepared, attribution),
    criticality: Object.fromEntries(
      names.flatMap((id, i) =>
        attribution.onPath[i] === 0 ? [] : [[id, (attribution.onPath[i] as number) / attribution.runs]],
      ),
    ),
    windWait,
    planned: programme.restart as number,
    open: prepared.open,
    stuck: names.filter((_, i) => stuck[i] === 1),
    lost: prepared.lost,
    notes: prepared.notes,
    sorted,
  }
}

const percentilesOf = (sorted: Float64Array, values: Float64Array): Percentiles => ({
  p10: quantileOf(sorted, 0.1),
  p50: quantileOf(sorted, 0.5),
  p80: quantileOf(sorted, 0.8),
  p90: quantileOf(sorted, 0.9),
  mean: meanOf(values),
})

const LEAST_SHARE = 0.005

/** Events by id, wind as one, activities one by one where they count, the rest together, and the shifts. */
function driversOf(programme: ProgrammeResult, { solved, events, strikeIds }: Prepared, attribution: Attribution) {
  const { ids } = solved.network
  const share = shares(attribution)
  const found = new Map<string, { id: string; name: string; share: number }>()
  const add = (id: string, name: string, value: number): void => {
    const known = found.get(id)
    found.set(id, { id, name, share: (known?.share ?? 0) + value })
  }
  ids.forEach((id, i) => {
    const value = share[i] as number
    if (Math.abs(value) >= LEAST_SHARE) add(id, programme.activities[id]?.name ?? id, value)
    else add('other activities', 'Durations of all other activities', value)
    add('wind', 'Waiting for wind', share[ids.length + strikeIds.length + i] as number)
  })
  strikeIds.forEach((id, s) => {
    add(id, events.find((e) => e.id === id)?.name ?? id, share[ids.length + s] as number)
  })
  add('rest', 'Nights, weekends, holidays, and float used up before a path drives', share[share.length - 1] as number)
  return [...found.values()].sort((a, b) => b.share - a.share)
}
