import type { AnswerTo, Ask, FromWorker, Requests, ToWorker } from './protocol.ts'

export interface EngineClient {
  ask<K extends keyof Requests>(
    kind: K,
    ask: Ask<K>,
    onProgress?: (done: number, of: number) => void,
  ): Promise<AnswerTo<K>>
  /** Ends the newest request of this kind that is still under way, if any. */
  cancel(kind: keyof Requests): void
}

interface Waiting {
  kind: keyof Requests
  resolve: (answer: never) => void
  reject: (fault: Error) => void
  onProgress?: (done: number, of: number) => void
}

/** The engine in a worker of its own: the page stays free while it works. */
export function engineClient(): EngineClient {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
  const waiting = new Map<number, Waiting>()
  let last = 0
  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    const asked = waiting.get(data.id)
    if (asked === undefined) return
    if ('progress' in data) return asked.onProgress?.(data.progress.done, data.progress.of)
    waiting.delete(data.id)
    if ('fault' in data) asked.reject(new Error(data.fault))
    else asked.resolve(data.answer as never)
  }
  const send = (message: ToWorker): void => worker.postMessage(message)
  return {
    ask: (kind, ask, onProgress) =>
      new Promise((resolve, reject) => {
        const id = ++last
        waiting.set(id, { kind, resolve: resolve as Waiting['resolve'], reject, ...(onProgress ? { onProgress } : {}) })
        send({ id, kind, ask })
      }),
    cancel: (kind) => {
      const newest = [...waiting].filter(([, w]) => w.kind === kind).at(-1)
      if (newest !== undefined) send({ cancel: newest[0] })
    },
  }
}
