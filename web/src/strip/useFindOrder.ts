import { useEffect, useRef, useState } from 'react'
import type { OrderAsk, OrderMessage, OrderProgress } from '../engine/orderJob.ts'
import { useShown } from '../state.ts'
import type { FoundOrderView } from './orderView.ts'

/** A search for an order: run beside the page, how far it is, ended at any time, and stale once the project has changed. */
export function useFindOrder() {
  const { document, revision } = useShown()
  const [found, setFound] = useState<{ view: FoundOrderView; revision: number }>()
  const [progress, setProgress] = useState<OrderProgress>()
  const [said, setSaid] = useState<string>()
  const job = useRef<Worker>(undefined)
  const end = (): void => {
    job.current?.terminate()
    job.current = undefined
    setProgress(undefined)
  }
  useEffect(() => () => job.current?.terminate(), [])
  const run = (): void => {
    end()
    setSaid(undefined)
    setProgress({ done: 0, of: 0 })
    const worker = new Worker(new URL('../engine/orderJob.ts', import.meta.url), { type: 'module' })
    job.current = worker
    worker.onmessage = ({ data }: MessageEvent<OrderMessage>) => {
      if ('progress' in data) return setProgress(data.progress)
      if ('result' in data) setFound({ view: data.result, revision })
      else setSaid(data.fault)
      end()
    }
    const ask: OrderAsk = { document }
    worker.postMessage(ask)
  }
  const cancel = (): void => {
    end()
    setSaid('cancelled; nothing was changed')
  }
  return { found: found?.view, stale: found !== undefined && found.revision !== revision, progress, said, run, cancel }
}
