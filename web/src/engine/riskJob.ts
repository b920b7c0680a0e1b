import { derive, type Stages } from '@shieldwright/engine'
import { measures, type SimulationResult, simulate } from '@shieldwright/engine/risk/index.ts'
import type { MeasureView, RiskView } from './protocol.ts'

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
  | { measures: readonly MeasureView[] }
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

function simulated(stages: Stages, { runs, seed }: RiskAsk): RiskMessage {
  const onProgress = (progress: number): void => tell({ progress, of: runs })
  const { result, reason } = simulate(stages.programme, stages.lift, stages.model, { runs, seed, onProgress })
  return result === undefined
    ? { fault: reason }
    : { result: riskView(result, Date.parse(stages.programme.origin ?? '')) }
}

/** Progress is told in simulations: one without any measure, then one for each. */
function boughtBy({ programme, lift, model }: Stages, { runs, seed }: RiskAsk): RiskMessage {
  const mitigations = Object.values(model.project.risks).filter((r) => r.mitigation !== undefined).length
  const of = 1 + mitigations + Object.keys(model.project.programme?.options ?? {}).length
  let progress = 0
  const onProgress = (done: number): void => {
    if (done >= runs) tell({ progress: ++progress, of })
  }
  const found = measures(programme, lift, model, { runs, seed, onProgress })
  return found === undefined ? { fault: 'there is no plan to simulate' } : { measures: found.measures }
}

/** Points of the curve: enough to draw it, few enough to send. */
const POINTS = 200

function riskView(result: SimulationResult, zero: number): RiskView {
  const at = (seconds: number): number => zero + seconds * 1000
  const { p10, p50, p80, p90, mean } = result.restart
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
    drivers: result.drivers.slice(0, 15),
    windWait: result.windWait,
    open: result.open,
    stuck: result.stuck,
    lost: result.lost,
    method: result.method,
    notes: result.notes,
  }
}
