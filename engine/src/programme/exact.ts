import { byRisingStart, isBetter, justified, type Plan, planOf } from './improve.ts'
import type { Network } from './network.ts'
import { modelOfNetwork, type NetworkModel } from './rcpsp/modelOfNetwork.ts'
import { proverOf } from './rcpsp/prove.ts'
import { type List, listBy, serialPlan } from './serial.ts'

/** What a proof search made of a plan. */
export interface ExactResult {
  plan: Plan
  list: List
  /** No plan restarts before, s; −Infinity when nothing was ruled out. */
  bound: number
  /** Nothing is left to look for. */
  closed: boolean
  conflicts: number
}

export interface ExactOptions {
  /** Conflicts to learn from. */
  effort: number
  plan: Plan
  /** No plan is known to restart before. */
  bound: number
  shouldContinue?: () => boolean
}

const ROUND = 500

/**
 * Proves a plan the earliest, or finds an earlier one, on the network itself: calendars, lags and lifts in one piece. Each
 * solution of the engine, which counts in whole seconds, becomes a list for the serial scheme; only a plan made by that, on the
 * true durations, counts.
 */
export function proveExact(network: Network, { effort, plan, bound, shouldContinue }: ExactOptions): ExactResult {
  const best: ExactResult = { plan, list: byRisingStart(network, plan.dates), bound, closed: false, conflicts: 0 }
  // what is less than a second earlier is the same plan
  const made = modelOfNetwork(network, Math.ceil(plan.restart) - 1)
  const prover = proverOf(made.model, { ...(shouldContinue === undefined ? {} : { shouldContinue }) })
  if (prover.proof.proven) return { ...best, bound: Math.max(bound, plan.restart), closed: true }
  prover.tell({ value: Number.POSITIVE_INFINITY, solution: [], bound: Math.floor(bound) })
  let known = Number.POSITIVE_INFINITY
  while (best.conflicts < effort && !prover.proof.proven && shouldContinue?.() !== false) {
    const proof = prover.go(Math.min(ROUND, effort - best.conflicts))
    best.conflicts = proof.conflicts
    if (proof.value < known) {
      known = proof.value
      adopt(network, made, proof.solution, best)
    }
  }
  const { proof } = prover
  best.closed = proof.proven
  const ruledOut = proof.proven && !Number.isFinite(proof.value) ? Math.ceil(plan.restart) - 1 : proof.bound
  return { ...best, bound: Math.max(bound, Math.min(ruledOut, best.plan.restart)) }
}

/** The plan of the serial scheme in the order of a solution's starts, improved; kept when it is better. */
function adopt(
  network: Network,
  { activities, starts }: NetworkModel,
  solution: readonly number[],
  best: ExactResult,
): void {
  const priority = new Float64Array(network.ids.length).fill(Number.MAX_SAFE_INTEGER)
  activities.forEach((i, k) => {
    priority[i] = solution[starts[k] as number] as number
  })
  const { plan } = justified(network, planOf(network, serialPlan(network, listBy(network, priority))), 2)
  if (!isBetter(plan, best.plan)) return
  best.plan = plan
  best.list = byRisingStart(network, plan.dates)
}
