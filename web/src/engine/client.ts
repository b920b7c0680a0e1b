import type { AnswerTo, Ask, FromWorker, Requests, RiskView, ToWorker } from './protocol.ts'
import type { RiskAsk, RiskMessage } from './riskJob.ts'

export interface EngineClient {
  ask<K extends keyof Requests>(kind: K, ask: Ask<K>): Promise<AnswerTo<K>>
}

interface Waiting {
  resolve: (answer: never) => void
  reject: (fault: Error) => void
}

/** The engine in a worker of its own: the page stays free while it works. */
export function engineClient(): EngineClient {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
  const waiting = new Map<number, Waiting>()
  let last = 0
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    const asked = waiting.get(data.id)
    waiting.delete(data.id)
    if ('fault' in data) asked?.reject(new Error(data.fault))
    else asked?.resolve(data.answer as never)
  }
  return {
    ask: (kind, ask) =>
      new Promise((resolve, reject) => {
        const message: ToWorker = { id: ++last, kind, ask }
        waiting.set(message.id, { resolve: resolve as Waiting['resolve'], reject })
        worker.postMessage(message)
      }),
  }
}

export interface RiskRun {
  /** Rejects with the reason when there is nothing to simulate. */
  done: Promise<RiskView>
  cancel: () => void
}

/** A simulation beside the page and the engine; it tells how far it is and can be ended at any time. */
export function startRisk(ask: RiskAsk, onProgress: (done: number) => void): RiskRun {
  const worker = new Worker(new URL('./riskJob.ts', import.meta.url), { type: 'module' })
  const done = new Promise<RiskView>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<RiskMessage>) => {
      if ('progress' in data) return onProgress(data.progress)
      worker.terminate()
      if ('fault' in data) reject(new Error(data.fault))
      else resolve(data.result)
    }
  })
  worker.postMessage(ask)
  return { done, cancel: () => worker.terminate() }
}
