import { derive, type Stages } from '@shieldwright/engine'
import {
  type BreakthroughResult,
  forecastBreakthrough,
  measures,
  type Percentiles,
  type SimulationResult,
  simulate,
  simulationsFor,
} from '@shieldwright/engine/risk/index.ts'
import type { RiskView, WhatIfView } from './protocol.ts'

export interface RiskAsk {
  document: unknown
  runs: number
  seed: number
  /** Also what each mitigation and each option buys by itself, in place of the restart alone. */
  measures: boolean
}

export type RiskMessage =
  | { progress: number; of: number }
  | { result: RiskView }
  | { whatIfs: WhatIfView }
  | { fault: string }

const tell = (message: RiskMessage): void => postMessage(message)

/** One simulation in a worker of its own: ending the worker is how it is cancelled. */
self.onmessage = ({ data }: MessageEvent<RiskAsk>) => {
  try {
    tell(outcome(data))
  } catch (error) {
    tell({ fault: (error as Error).message })
  }
}

function outcome(ask: RiskAsk): RiskMessage {
  const { stages, problems } = derive(ask.document)
  if (stages === undefined) return { fault: problems[0]?.expected ?? 'the project cannot be read' }
  return ask.measures ? boughtBy(stages, ask) : simulated(stages, ask)
}

function simulated({ programme, lift, model }: Stages, { runs, seed }: RiskAsk): RiskMessage {
  const onProgress = (progress: number): void => tell({ progress, of: runs })
  const { result, reason } = simulate(programme, lift, model, { runs, seed, byList: true, onProgress })
  if (result === undefined) return { fault: reason }
  const drive = forecastBreakthrough(result, programme, model, { seed })
  return { result: riskView(result, drive, Date.parse(programme.origin ?? '')) }
}

/** Progress is told in simulations: one without any measure, then one for each. */
function boughtBy({ programme, lift, model }: Stages, { runs, seed }: RiskAsk): RiskMessage {
  const of = simulationsFor(model)
  let progress = 0
  const onProgress = (done: number): void => {
    if (done >= runs) tell({ progress: ++progress, of })
  }
  const found = measures(programme, lift, model, { runs, seed, onProgress })
  if (found === undefined) return { fault: 'there is no plan to simulate' }
  return { whatIfs: { measures: found.measures, still: found.still } }
}

const DAY = 86_400

const eachOf = ({ p10, p50, p80, p90, mean }: Percentiles, of: (value: number) => number): Percentiles => ({
  p10: of(p10),
  p50: of(p50),
  p80: of(p80),
  p90: of(p90),
  mean: of(mean),
})

/** Points of the curve: enough to draw it, few enough to send. */
const POINTS = 200

function riskView(result: SimulationResult, drive: BreakthroughResult | undefined, zero: number): RiskView {
  const at = (seconds: number): number => zero + seconds * 1000
  const { p10, p50, p80, p90, mean } = result.restart
  const { error, listed } = result
  const last = result.sorted.length - 1
  return {
    runs: result.runs,
    seed: result.seed,
    p10: at(p10),
    p50: at(p50),
    p80: at(p80),
    p90: at(p90),
    mean: at(mean),
    band50: [at(result.band.p50[0]), at(result.band.p50[1])],
    band80: [at(result.band.p80[0]), at(result.band.p80[1])],
    curve: Array.from({ length: POINTS + 1 }, (_, i) => at(result.sorted[Math.round((i / POINTS) * last)] as number)),
    cost: result.cost,
    error: eachOf(error, (s) => s / DAY),
    listed: listed && eachOf(listed, at),
    day: result.day,
    merges: result.merges.map(({ id, name, paths, bias }) => ({ id, name, paths, days: bias / DAY })),
    course: (drive?.course ?? []).map((c) => ({ at: c.at, p10: at(c.p10), p50: at(c.p50), p80: at(c.p80) })),
    reaches: (drive?.reaches ?? []).map(({ to, reached }) => ({ to, p50: at(reached.p50), p80: at(reached.p80) })),
    falseStarts: result.falseStarts,
    drivers: result.drivers.slice(0, 15),
    windWait: result.windWait,
    open: result.open,
    stuck: result.stuck,
    lost: result.lost,
    method: result.method,
    notes: result.notes,
  }
}
