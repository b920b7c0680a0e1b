import { useCallback, useMemo, useRef, useState } from 'react'
import { type Progress, type RiskResult, type RiskRun, startRisk } from '../engine/client.ts'
import type { RiskView, WhatIfView } from '../engine/protocol.ts'

export const RUNS = 2000
/** Of each measure: as many simulations as there are measures have to be made. */
export const MEASURE_RUNS = 1000
const SEED = 1

interface Held {
  document: unknown
  revision: number
}

/** A long computation as the page shows it. */
export interface JobView<R> {
  kept: R | undefined
  /** The project has changed since. */
  stale: boolean
  running: Progress | undefined
  fault: string | undefined
}

/** Simulations of the project held: run, how far they are, cancelled, and stale once the project has changed. */
export function useRisk(held: Held | undefined) {
  const restart = useJob<RiskView>(held, false, RUNS, (r) => ('result' in r ? r.result : undefined))
  const bought = useJob<WhatIfView>(held, true, MEASURE_RUNS, (r) => ('whatIfs' in r ? r.whatIfs : undefined))
  const { run: runRisk, cancel: cancelRisk } = restart
  const { run: runMeasures, cancel: cancelMeasures } = bought
  return {
    act: useMemo(
      () => ({ runRisk, cancelRisk, runMeasures, cancelMeasures }),
      [runRisk, cancelRisk, runMeasures, cancelMeasures],
    ),
    shown: {
      risk: restart.view.kept,
      riskStale: restart.view.stale,
      riskRunning: restart.view.running?.done,
      riskFault: restart.view.fault,
      measures: bought.view,
    },
  }
}

function useJob<R>(
  held: Held | undefined,
  measures: boolean,
  runs: number,
  of: (result: RiskResult) => R | undefined,
): { view: JobView<R>; run: () => void; cancel: () => void } {
  const [kept, setKept] = useState<{ value: R | undefined; revision: number }>()
  const [running, setRunning] = useState<Progress>()
  const [fault, setFault] = useState<string>()
  const job = useRef<RiskRun>(undefined)
  const pick = useRef(of)

  const cancel = useCallback(() => {
    job.current?.cancel()
    job.current = undefined
    setRunning(undefined)
  }, [])
  const run = useCallback(() => {
    if (held === undefined) return
    cancel()
    setFault(undefined)
    setRunning({ done: 0, of: runs })
    const started = startRisk({ document: held.document, runs, seed: SEED, measures }, setRunning)
    job.current = started
    started.done
      .then((result) => setKept({ value: pick.current(result), revision: held.revision }))
      .catch((error: Error) => setFault(error.message))
      .finally(() => setRunning(undefined))
  }, [held, measures, runs, cancel])

  const stale = kept !== undefined && kept.revision !== held?.revision
  return { view: { kept: kept?.value, stale, running, fault }, run, cancel }
}
