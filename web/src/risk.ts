import { useCallback, useRef, useState } from 'react'
import { type RiskRun, startRisk } from './engine/client.ts'
import type { RiskView } from './engine/protocol.ts'

export const RUNS = 2000
const SEED = 1

interface Held {
  document: unknown
  revision: number
}

/** The simulation of the project held: run, how far it is, cancelled, and stale once the project has changed. */
export function useRisk(held: Held | undefined) {
  const [kept, setKept] = useState<{ view: RiskView; revision: number }>()
  const [running, setRunning] = useState<number>()
  const [fault, setFault] = useState<string>()
  const job = useRef<RiskRun>(undefined)

  const cancel = useCallback(() => {
    job.current?.cancel()
    job.current = undefined
    setRunning(undefined)
  }, [])
  const run = useCallback(() => {
    if (held === undefined) return
    cancel()
    setFault(undefined)
    setRunning(0)
    const started = startRisk({ document: held.document, runs: RUNS, seed: SEED }, setRunning)
    job.current = started
    started.done
      .then((view) => setKept({ view, revision: held.revision }))
      .catch((error: Error) => setFault(error.message))
      .finally(() => setRunning(undefined))
  }, [held, cancel])

  const riskStale = kept !== undefined && kept.revision !== held?.revision
  return { run, cancel, shown: { risk: kept?.view, riskStale, riskRunning: running, riskFault: fault } }
}
