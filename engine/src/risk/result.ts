import { meanOf, quantileBand, quantileOf } from '../numeric/statistics.ts'
import { FS, localAt, type ProgrammeResult, type Zone } from '../programme/index.ts'
import type { CostRule } from './cost.ts'
import { shares } from './drivers.ts'
import type { Prepared } from './prepare.ts'
import type { Runs } from './simulation.ts'

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
  /** The same runs were the site to decide anew whenever something ends, by the plan's order; where it was asked for. */
  listed?: Percentiles
  /** The same as local dates. */
  dates: Readonly<Record<keyof Percentiles, string>>
  /** Interval that holds the percentile with 95 % confidence, from order statistics. */
  band: { p10: Band; p50: Band; p80: Band; p90: Band }
  /** Standard error of each percentile, from its band, and of the mean; s. */
  error: Percentiles
  cost: Percentiles
  /** What one more day costs at the P50 and at the P80 restart: standing, and damages once they run. */
  day: { p50: number; p80: number }
  /** Shares of the spread of the restart, largest first; they add up to one. */
  drivers: readonly { id: string; name: string; share: number }[]
  /** Share of runs in which an activity is on the driving path, where it is not nought. */
  criticality: Readonly<Record<string, number>>
  /**
   * Where several paths meet and the latest decides: mean wait beyond the mean finish of the latest of them, s; largest first,
   * of activities that only wait for others to finish.
   */
  merges: readonly { id: string; name: string; paths: number; bias: number }[]
  /** Mean wait for wind over all lifts of a run, time held in the air in it, s; and false starts of a run. */
  windWait: number
  falseStarts: number
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

type Band = readonly [number, number]

const METHOD =
  'early start on the planned hand-overs of resources: no run re-plans and none looks ahead; event delays in calendar time after the activity; hourly wind at the mast, Weibull by month, first-order persistence; a lift goes in one piece inside one shift'

const CONFIDENCE = 1.959964
const DAY = 86_400

/** The runs as percentiles, bands, drivers and costs. */
export function resultOf(
  programme: ProgrammeResult,
  zone: Zone,
  prepared: Prepared,
  runs: Runs,
  seed: number,
): SimulationResult {
  const { restart, listed, cost, attribution, windWait, falseStarts, stuck } = runs
  const sorted = restart.slice().sort()
  const percentiles = percentilesOf(sorted, restart)
  const band = (p: number): Band => quantileBand(sorted, p, CONFIDENCE)
  const bands = { p10: band(0.1), p50: band(0.5), p80: band(0.8), p90: band(0.9) }
  const names = prepared.network.ids
  return {
    runs: restart.length,
    seed,
    method: METHOD,
    restart: percentiles,
    ...(listed.length === 0 ? {} : { listed: percentilesOf(listed.slice().sort(), listed) }),
    dates: datesOf(zone, percentiles),
    band: bands,
    error: errorsOf(bands, restart, percentiles.mean),
    cost: percentilesOf(cost.slice().sort(), cost),
    day: { p50: costOfDay(prepared.cost, percentiles.p50), p80: costOfDay(prepared.cost, percentiles.p80) },
    drivers: driversOf(programme, prepared, runs),
    criticality: Object.fromEntries(
      names.flatMap((id, i) =>
        attribution.onPath[i] === 0 ? [] : [[id, (attribution.onPath[i] as number) / attribution.runs]],
      ),
    ),
    merges: mergesOf(programme, prepared, runs),
    windWait: windWait / restart.length,
    falseStarts: falseStarts / restart.length,
    planned: programme.restart as number,
    open: prepared.open,
    stuck: names.filter((_, i) => stuck[i] === 1),
    lost: prepared.events.lost,
    notes: prepared.notes,
    sorted,
  }
}

export const percentilesOf = (sorted: Float64Array, values: Float64Array): Percentiles => ({
  p10: quantileOf(sorted, 0.1),
  p50: quantileOf(sorted, 0.5),
  p80: quantileOf(sorted, 0.8),
  p90: quantileOf(sorted, 0.9),
  mean: meanOf(values),
})

export const datesOf = (zone: Zone, times: Percentiles): Record<keyof Percentiles, string> => ({
  p10: localAt(zone, times.p10).date,
  p50: localAt(zone, times.p50).date,
  p80: localAt(zone, times.p80).date,
  p90: localAt(zone, times.p90).date,
  mean: localAt(zone, times.mean).date,
})

function errorsOf(bands: SimulationResult['band'], values: Float64Array, mean: number): Percentiles {
  const of = ([low, high]: Band): number => (high - low) / (2 * CONFIDENCE)
  let squares = 0
  for (const value of values) squares += (value - mean) ** 2
  const ofMean = Math.sqrt(squares / (values.length - 1) / values.length)
  return { p10: of(bands.p10), p50: of(bands.p50), p80: of(bands.p80), p90: of(bands.p90), mean: ofMean }
}

const costOfDay = ({ standingPerDay, damagesPerDay, damagesFrom }: CostRule, restart: number): number =>
  standingPerDay + (restart + DAY > damagesFrom ? damagesPerDay : 0)

const MOST_MERGES = 10
const LEAST_BIAS = 3600

function mergesOf(programme: ProgrammeResult, { network }: Prepared, { ready, finish, restart }: Runs) {
  const { first, other, type, lag } = network.before
  const found = network.ids.flatMap((id, i) => {
    const links = Array.from(
      { length: (first[i + 1] as number) - (first[i] as number) },
      (_, k) => (first[i] as number) + k,
    )
    if (links.length < 2 || links.some((k) => type[k] !== FS || lag[k] !== 0)) return []
    const latest = Math.max(...links.map((k) => finish[other[k] as number] as number))
    const bias = ((ready[i] as number) - latest) / restart.length
    return bias < LEAST_BIAS ? [] : [{ id, name: programme.activities[id]?.name ?? id, paths: links.length, bias }]
  })
  return found.sort((a, b) => b.bias - a.bias).slice(0, MOST_MERGES)
}

const LEAST_SHARE = 0.005

/** Events and causes by id, wind as one, activities one by one where they count, the rest together, and the shifts. */
function driversOf(programme: ProgrammeResult, { network, strikes, durations }: Prepared, { attribution }: Runs) {
  const { ids } = network
  const share = shares(attribution)
  const found = new Map<string, { id: string; name: string; share: number }>()
  const add = (id: string, name: string, value: number): void => {
    const known = found.get(id)
    found.set(id, { id, name, share: (known?.share ?? 0) + value })
  }
  let at = 0
  for (const id of ids) {
    const value = share[at++] as number
    if (Math.abs(value) >= LEAST_SHARE) add(id, programme.activities[id]?.name ?? id, value)
    else add('other activities', 'Durations of all other activities', value)
  }
  for (const { id, name } of strikes) add(id, name, share[at++] as number)
  for (let i = 0; i < ids.length; i++) add('wind', 'Waiting for wind', share[at++] as number)
  for (const { id, name } of durations.extras) add(id, name, share[at++] as number)
  add('rest', 'Nights, weekends, holidays, and float used up before a path drives', share[at] as number)
  return [...found.values()].sort((a, b) => b.share - a.share)
}
