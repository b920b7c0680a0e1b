import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import {
  dayLengths,
  type Links,
  type Network,
  type ProgrammeResult,
  type Solved,
  targetOf,
} from '../programme/index.ts'
import { given, missingUnder } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { bindingLinks } from './bindingLinks.ts'
import { type CostRule, costRule } from './cost.ts'
import { type DurationSource, durationSource } from './durations.ts'
import { type Events, eventSources } from './events.ts'
import type { GoPolicy, WindOnLifts } from './goAhead.ts'
import type { Measures } from './measure.ts'
import { hourPlaces, levelsOf, stoppingMean, windSeries } from './wind.ts'

/** Everything that the runs of a simulation share. */
export interface Prepared {
  /** The plan's network with the hand-overs of resources as links; and without, for a site that decides anew. */
  network: Network
  unbound: Network
  /** Of the links with the hand-overs, those that can bind in a run. */
  binding: Links
  /** Finish of the target in the plan, and how long each activity lasts in it. */
  planned: { restart: number; start: Float64Array; lasts: Float64Array }
  target: number
  durations: DurationSource
  events: Events
  /** Events and extras by the activity they strike, as places in what a run draws. */
  strikesOn: readonly (readonly number[])[]
  strikes: readonly { id: string; name: string }[]
  extrasOn: readonly (readonly number[])[]
  wind: WindOnLifts | undefined
  cost: CostRule
  /** Price of the measures taken. */
  price: number
  open: readonly string[]
  notes: readonly string[]
}

/** What a simulation is made from; nothing is drawn yet. */
export function prepare(
  programme: ProgrammeResult,
  solved: Solved,
  lifts: LiftResult,
  model: Model,
  seed: number,
  measures: Measures,
): Prepared {
  const { network } = solved
  const { bound, plan } = solved.planned
  const typed = model.project.programme
  const events = eventSources(model, stillAhead(network, programme), seed, measures)
  const durations = durationSource(model, programme, seed, measures)
  const strikes = events.events.flatMap((e) => e.strikes.map((s) => ({ ...s, id: e.id, name: e.name })))
  const { wind, open } = measures.frozen?.includes('wind')
    ? { open: [], wind: undefined }
    : windOn(programme, solved, lifts, model, seed)
  const unknown = Object.values(programme.activities).flatMap((a) => a.unknown ?? [])
  const { start, finish } = plan.dates
  return {
    network: bound,
    unbound: network,
    binding: bindingLinks(bound, durations.least),
    planned: { restart: plan.restart, start, lasts: finish.map((f, i) => f - (start[i] as number)) },
    target: targetOf(network, plan.dates),
    durations,
    events,
    strikes,
    strikesOn: byActivity(network.ids.length, strikes),
    extrasOn: byActivity(network.ids.length, durations.extras),
    wind,
    cost: costRule(model, programme, dayLengths(typed as NonNullable<typeof typed>)),
    price: priceOf(model, measures),
    open: [...new Set([...unknown, ...open])],
    notes: notesOf(model, events),
  }
}

const stillAhead = ({ ids }: Network, { activities }: ProgrammeResult): ReadonlyMap<string, number> =>
  new Map(ids.map((id, i) => [id, activities[id]?.state === 'done' ? -1 : i]))

function byActivity(activities: number, places: readonly { activity: number }[]): number[][] {
  const found = Array.from({ length: activities }, (): number[] => [])
  places.forEach(({ activity }, place) => {
    found[activity]?.push(place)
  })
  return found
}

function priceOf({ project }: Model, { mitigations = [], options = [] }: Measures): number {
  const mitigating = mitigations.reduce((sum, id) => sum + (project.risks[id]?.mitigation?.cost ?? 0), 0)
  return options.reduce((sum, id) => sum + (project.programme?.options[id]?.cost ?? 0), mitigating)
}

function notesOf({ project: { programme } }: Model, { triangle }: Events): string[] {
  const points = programme?.points === 'P10 and P90' ? 'P10 and P90' : 'extremes'
  return [
    `durations ${programme?.durations ?? 'triangular'}; least and greatest are ${points}`,
    ...(programme?.durations === 'lognormal' && points === 'extremes'
      ? ['a lognormal has no end: the greatest is passed once in a hundred, and the least is not used']
      : []),
    ...(triangle === undefined ? ['the correlations contradict each other and are left out'] : []),
    programme?.windPolicy === undefined
      ? 'the wind of a whole lift is known when it starts'
      : 'lifts start on a forecast: false starts and waiting in the air are counted',
  ]
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
  const limits: number[] = []
  const open: string[] = []
  network.ids.forEach((id, i) => {
    const { lift, calendar, interruptible, state } = programme.activities[id] as ProgrammeResult['activities'][string]
    if (lift === undefined || interruptible || state === 'done' || typed?.calendars[calendar]?.windLimited !== true)
      return
    const limit = stoppingMean(model, lifts.lifts, lift)
    if (limit.value === undefined || climate === undefined) {
      open.push(...missingUnder(limit))
      return
    }
    const known = limits.indexOf(limit.value)
    row[i] = known >= 0 ? known : limits.push(limit.value) - 1
  })
  if (limits.length === 0 || climate === undefined) return { wind: undefined, open }
  const series = windSeries(seed, climate.persistence.value as number, HORIZON)
  const levels = limits.map((limit) => levelsOf(climate, limit))
  const returns = returnsOf(programme, network, lifts, row)
  const policy = policyOf(model, limits, returns.shares)
  const unsaid = policy === undefined ? [] : returns.open
  return { wind: { row, levels, places: hourPlaces(zone, HORIZON), series, policy }, open: [...open, ...unsaid] }
}

/** Points of no return as shares of the time that the activity takes; what is not known counts as once lifted it goes on. */
function returnsOf(
  { activities }: ProgrammeResult,
  { ids }: Network,
  { lifts }: LiftResult,
  row: Int32Array,
): { shares: Float64Array; open: string[] } {
  const shares = new Float64Array(ids.length)
  const open: string[] = []
  ids.forEach((id, i) => {
    const { lift, work } = activities[id] as ProgrammeResult['activities'][string]
    if ((row[i] as number) < 0 || lift === undefined) return
    const { time } = lifts[lift]?.pointOfNoReturn ?? { time: given('s', pointerOf('lifts', lift), undefined) }
    if (time.value === undefined) open.push(...missingUnder(time))
    else if (work[1] > 0) shares[i] = Math.min(1, time.value / work[1])
  })
  return { shares, open }
}

/** Hours of weather that a run may ask for: ten years. */
const HORIZON = 10 * 366 * 24

function policyOf({ project }: Model, limits: readonly number[], noReturn: Float64Array): GoPolicy | undefined {
  const { climate, programme } = project
  const policy = programme?.windPolicy
  if (policy === undefined || climate === undefined) return undefined
  const go = policy.go.value as number
  return {
    sees: policy.sees.value as number,
    again: policy.again.value as number,
    levels: limits.map((limit) => levelsOf(climate, limit * go)),
    noReturn,
  }
}
