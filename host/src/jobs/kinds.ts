import type { Stages } from '@shieldwright/engine'
import { type SimulationResult, simulate } from '@shieldwright/engine/risk/simulation.ts'
import { type FoundOrder, findOrder, type StripResult } from '@shieldwright/engine/strip/index.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import type { JobOutcome, Progress } from './job.ts'

/** An order that reaches targets, looked for. */
export interface OrderRequest {
  kind: 'order'
  targets?: readonly string[]
  effort?: number
}

/** Restart and cost under uncertainty. */
export interface SimulateRequest {
  kind: 'simulate'
  runs: number
  seed: number
}

export type JobRequest = OrderRequest | SimulateRequest

/** An order with what the file's own comes to. */
export interface OrderResult {
  found: FoundOrder
  adopted: Pick<StripResult, 'feasible' | 'failures'>
}

/** A simulation, and the instant its seconds count from. */
export interface SimulateResult {
  simulation: SimulationResult
  origin: string | undefined
}

interface Results {
  order: OrderResult
  simulate: SimulateResult
}

/** What a kind of job gives. */
export type JobResult<K extends JobRequest['kind'] = JobRequest['kind']> = Results[K]

/** How a job is told to stop, and tells how far it has come. */
export interface Reins {
  shouldContinue: () => boolean
  progress: (progress: Progress) => void
}

type Jobs = {
  [K in JobRequest['kind']]: (
    stages: Stages,
    request: Extract<JobRequest, { kind: K }>,
    reins: Reins,
  ) => JobOutcome<Results[K]>
}

/** Long computations by kind; each is a pure function of the stages, the request and its seed. */
export const jobs: Jobs = {
  order: ({ model, mass, strip }, { targets, effort }, { shouldContinue }) => ({
    result: {
      found: findOrder(model, mass, { targets, effort, shouldContinue }, freshMemory()),
      adopted: { feasible: strip.feasible, failures: strip.failures },
    },
  }),
  simulate: ({ model, lift, programme }, { runs, seed }, { shouldContinue, progress }) => {
    const onProgress = (done: number, of: number): void => progress({ done, of })
    const outcome = simulate(programme, lift, model, { runs, seed, shouldContinue, onProgress })
    if (outcome.result !== undefined) return { result: { simulation: outcome.result, origin: programme.origin } }
    return {
      problems: [{ pointer: '/programme', found: outcome.reason, expected: 'a programme that can be simulated' }],
    }
  },
}
