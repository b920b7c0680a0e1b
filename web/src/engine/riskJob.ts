import { derive } from '@shieldwright/engine'
import { simulate } from '@shieldwright/engine/risk/index.ts'
import type { RiskView } from './protocol.ts'

export interface RiskAsk {
  document: unknown
  runs: number
  seed: number
}

export type RiskMessage = { progress: number } | { result: RiskView } | { fault: string }

const tell = (message: RiskMessage): void => postMessage(message)

/** One simulation in a worker of its own: ending the worker is how it is cancelled. */
self.onmessage = ({ data }: MessageEvent<RiskAsk>) => {
  try {
    tell(outcome(data))
  } catch (error) {
    tell({ fault: (error as Error).message })
  }
}

function outcome({ document, runs, seed }: RiskAsk): RiskMessage {
  const { stages, problems } = derive(document)
  if (stages === undefined) return { fault: problems[0]?.expected ?? 'the project cannot be read' }
  const onProgress = (done: number): void => tell({ progress: done })
  const { result, reason } = simulate(stages.programme, stages.lift, stages.model, { runs, seed, onProgress })
  if (result === undefined) return { fault: reason }
  const zero = Date.parse(stages.programme.origin ?? '')
  const at = (seconds: number): number => zero + seconds * 1000
  const { p10, p50, p80, p90, mean } = result.restart
  return {
    result: {
      runs: result.runs,
      p10: at(p10),
      p50: at(p50),
      p80: at(p80),
      p90: at(p90),
      mean: at(mean),
      band50: [at(result.band.p50[0]), at(result.band.p50[1])],
      band80: [at(result.band.p80[0]), at(result.band.p80[1])],
      cost: result.cost,
      drivers: result.drivers.slice(0, 15),
      method: result.method,
      notes: result.notes,
    },
  }
}
