import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { applyDelta } from './delta.ts'
import type { AnswerTo, Ask, FromWorker, Preview, Requests, Summary, ToWorker } from './protocol.ts'
import type { RiskAsk, RiskMessage } from './riskJob.ts'

export interface EngineClient {
  ask<K extends keyof Requests>(kind: K, ask: Ask<K>): Promise<AnswerTo<K>>
  /** A preview of which only the latest matters: one that waits when the next is asked for is never worked out, and answers undefined. */
  preview(patch: Patch): Promise<Preview | undefined>
}

interface Waiting {
  kind: keyof Requests
  resolve: (answer: never) => void
  reject: (fault: Error) => void
}

/** The engine in a worker of its own: the page stays free while it works. */
export function engineClient(): EngineClient {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
  const waiting = new Map<number, Waiting>()
  let last = 0
  let shown: Summary | undefined
  /** Of a summary only what changed crosses from the worker; it is put together here. */
  const whole = (answer: AnswerTo<'keep'>): AnswerTo<'keep'> => {
    const { delta, ...rest } = answer
    const summary = shown !== undefined && delta !== undefined ? applyDelta(shown, delta) : rest.summary
    if (summary !== undefined) shown = summary
    return { ...rest, summary }
  }
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    const asked = waiting.get(data.id)
    waiting.delete(data.id)
    if ('fault' in data) asked?.reject(new Error(data.fault))
    else if (asked?.kind === 'open' || asked?.kind === 'keep')
      asked.resolve(whole(data.answer as AnswerTo<'keep'>) as never)
    else asked?.resolve(data.answer as never)
  }
  const ask: EngineClient['ask'] = (kind, ask) =>
    new Promise((resolve, reject) => {
      const message: ToWorker = { id: ++last, kind, ask }
      waiting.set(message.id, { kind, resolve: resolve as Waiting['resolve'], reject })
      worker.postMessage(message)
    })
  return { ask, preview: latestOnly((patch: Patch) => ask('preview', { patch })) }
}

/**
 * Of calls that come while one is at work only the last is made; those it overtakes answer undefined. So is the one at work,
 * when a later call has come before its answer.
 */
export function latestOnly<A, R>(work: (ask: A) => Promise<R>): (ask: A) => Promise<R | undefined> {
  let atWork = false
  let waiting: { ask: A; go: () => void; drop: () => void } | undefined
  let turn = 0
  const begin = async (ask: A, mine: number): Promise<R | undefined> => {
    atWork = true
    try {
      const answer = await work(ask)
      return mine === turn ? answer : undefined
    } finally {
      atWork = false
      const next = waiting
      waiting = undefined
      next?.go()
    }
  }
  return (ask) => {
    const mine = ++turn
    if (!atWork) return begin(ask, mine)
    waiting?.drop()
    return new Promise((resolve, reject) => {
      waiting = { ask, go: () => begin(ask, mine).then(resolve, reject), drop: () => resolve(undefined) }
    })
  }
}

export interface RiskRun {
  /** Rejects with the reason when there is nothing to simulate. */
  done: Promise<RiskResult>
  cancel: () => void
}

/** What a simulation ends with: the restart, or what each measure buys. */
export type RiskResult = Exclude<RiskMessage, { fault: string } | { progress: number }>

/** How far a simulation is. */
export interface Progress {
  done: number
  of: number
}

/** A simulation beside the page and the engine; it tells how far it is and can be ended at any time. */
export function startRisk(ask: RiskAsk, onProgress: (progress: Progress) => void): RiskRun {
  const worker = new Worker(new URL('./riskJob.ts', import.meta.url), { type: 'module' })
  const done = new Promise<RiskResult>((resolve, reject) => {
    worker.onmessage = ({ data }: MessageEvent<RiskMessage>) => {
      if ('progress' in data) return onProgress({ done: data.progress, of: data.of })
      worker.terminate()
      if ('fault' in data) reject(new Error(data.fault))
      else resolve(data)
    }
  })
  worker.postMessage(ask)
  return { done, cancel: () => worker.terminate() }
}
