import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import { costOf } from './cost.ts'
import { type Attribution, attribute, emptyAttribution } from './drivers.ts'
import { drawDurations } from './durations.ts'
import { drawEvents } from './events.ts'
import { listPolicy, runByList } from './listPass.ts'
import type { Measures } from './measure.ts'
import { emptyRun, type RunDates, runOnce } from './pass.ts'
import { type Prepared, prepare } from './prepare.ts'
import { resultOf, type SimulationResult } from './result.ts'

export interface SimulationOptions extends Measures {
  runs: number
  seed: number
  /** Also the restart were the site to decide anew whenever something ends: twice the work. */
  byList?: boolean
  /** Asked every few runs; false ends the simulation with the runs made so far. */
  shouldContinue?: () => boolean
  onProgress?: (done: number, runs: number) => void
}

export type SimulationOutcome =
  | { result: SimulationResult; reason?: undefined }
  | { result?: undefined; reason: string }

/**
 * Monte Carlo on the resource-constrained network. The same seed gives the same result; every activity, event, cause and hour
 * of wind has numbers of its own, so that two what-ifs differ by what was changed and by nothing else.
 */
export function simulate(
  programme: ProgrammeResult,
  lifts: LiftResult,
  model: Model,
  options: SimulationOptions,
): SimulationOutcome {
  const made = simulatedRuns(programme, lifts, model, options)
  return 'reason' in made ? made : { result: made.result }
}

/** A simulation with its runs in the order in which they were made, so that two can be compared run by run. */
export function simulatedRuns(
  programme: ProgrammeResult,
  lifts: LiftResult,
  model: Model,
  options: SimulationOptions,
): { result: SimulationResult; runs: Runs } | { reason: string } {
  const { solved } = programme
  if (solved === undefined || programme.restart === undefined) return { reason: 'there is no plan to simulate' }
  if (options.runs < 2) return { reason: 'a simulation needs two runs or more' }
  const prepared = prepare(programme, solved, lifts, model, options.seed, options)
  const runs = manyRuns(prepared, options)
  return { result: resultOf(programme, solved.zone, prepared, runs, options.seed), runs }
}

const ASK_EVERY = 50

/** What the runs made, and their sums. */
export interface Runs {
  restart: Float64Array
  /** The same runs by list; of length nought where they were not asked for. */
  listed: Float64Array
  cost: Float64Array
  attribution: Attribution
  /** Sums over the runs, by activity. */
  ready: Float64Array
  finish: Float64Array
  windWait: number
  falseStarts: number
  stuck: Uint8Array
}

function manyRuns(prepared: Prepared, { runs, byList = false, shouldContinue, onProgress }: SimulationOptions): Runs {
  const { target, durations, events, wind } = prepared
  const n = prepared.network.ids.length
  const drawn = emptyDraw(prepared)
  const network = { ...prepared.network, before: prepared.binding, work: drawn.work }
  const dates = emptyRun(n)
  const [policy, listDates] = [listPolicy(prepared.unbound, prepared.planned.start), emptyRun(n)]
  const unbound = { ...prepared.unbound, work: drawn.work }
  const attribution = emptyAttribution(n, prepared.strikes.length, durations.extras.length)
  const made: Runs = {
    restart: new Float64Array(runs),
    listed: new Float64Array(byList ? runs : 0),
    cost: new Float64Array(runs),
    attribution,
    ready: new Float64Array(n),
    finish: new Float64Array(n),
    windWait: 0,
    falseStarts: 0,
    stuck: dates.stuck,
  }
  let done = 0
  while (done < runs) {
    drawDurations(durations, done, drawn.common, drawn.work, drawn.extra)
    const spent = drawEvents(events, done, drawn)
    wind?.series.begin(done)
    runOnce(network, drawn.delay, wind, dates)
    const finish = dates.finish[target] as number
    made.restart[done] = finish
    made.cost[done] = costOf(prepared.cost, drawn.work, finish, spent + prepared.price)
    if (byList) {
      runByList(unbound, drawn.delay, wind, policy, listDates)
      made.listed[done] = listDates.finish[target] as number
    }
    count(made, dates)
    attribute(attribution, prepared, drawn, dates)
    done++
    if (done % ASK_EVERY === 0) {
      onProgress?.(done, runs)
      if (shouldContinue?.() === false) break
    }
  }
  const [restart, listed, cost] = [made.restart, made.listed, made.cost].map((of) => of.subarray(0, done))
  return { ...made, restart, listed, cost } as Runs
}

/** What one run draws. */
export interface Draw {
  work: Float64Array
  extra: Float64Array
  common: Float64Array
  delay: Float64Array
  byStrike: Float64Array
  whether: Float64Array
  howLong: Float64Array
}

const emptyDraw = ({ network, durations, events, strikes }: Prepared): Draw => ({
  work: new Float64Array(network.ids.length),
  extra: new Float64Array(durations.extras.length),
  common: new Float64Array(durations.groupKey.length),
  delay: new Float64Array(network.ids.length),
  byStrike: new Float64Array(strikes.length),
  whether: new Float64Array(events.rows),
  howLong: new Float64Array(events.rows),
})

function count(made: Runs, { ready, finish, waited, held, falseStarts }: RunDates): void {
  made.falseStarts += falseStarts
  for (let i = 0; i < ready.length; i++) {
    made.windWait += (waited[i] as number) + (held[i] as number)
    made.ready[i] = (made.ready[i] as number) + (ready[i] as number)
    made.finish[i] = (made.finish[i] as number) + (finish[i] as number)
  }
}
