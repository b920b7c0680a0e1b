import type { ScenarioTable } from '@shieldwright/engine'
import { useHostJob } from '../parts/hostJob.ts'

/** Runs of each scenario. */
export const SCENARIO_RUNS = 2000

/** The table of scenarios as the host works it out. */
export function useScenarioJob() {
  const { kept, running, fault, run, cancel } = useHostJob<ScenarioTable>()
  return {
    kept: kept && { table: kept.result, revision: kept.revision },
    running,
    fault,
    run: () => run({ kind: 'scenarios', runs: SCENARIO_RUNS, seed: 1 }),
    cancel,
  }
}
