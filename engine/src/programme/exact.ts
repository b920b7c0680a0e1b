import { byRisingStart, isBetter, justified, type Plan, planOf } from './improve.ts'
import type { Network } from './network.ts'
import { modelOfNetwork, type NetworkModel } from './rcpsp/modelOfNetwork.ts'
import { type Proof, type Prover, proverOf } from './rcpsp/prove.ts'
import type { News, Side } from './rcpsp/side.ts'
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
  plan: Plan
  /** No plan is known to restart before. */
  bound: number
  shouldContinue?: (() => boolean) | undefined
}

/** A proof search on a network, as one of two sides. */
export interface ExactSide extends Side {
  result: () => ExactResult
}

const ROUND = 500

/** A proof search alone, through so many conflicts. */
export function proveExact(network: Network, options: ExactOptions & { effort: number }): ExactResult {
  const side = exactSide(network, options)
  side.go(options.effort)
  return side.result()
}

interface State {
  network: Network
  made: NetworkModel
  prover: Prover
  best: ExactResult
  /** Earliest restart in whole seconds of the engine's own solutions, and of what it was told to beat. */
  known: number
  told: number
}

/**
 * Proves a plan the earliest, or finds an earlier one, on the network itself: calendars, lags and lifts in one piece. Each
 * solution of the engine, which counts in whole seconds, becomes a list for the serial scheme; only a plan made by that, on the
 * true durations, counts.
 */
export function exactSide(network: Network, { plan, bound, shouldContinue }: ExactOptions): ExactSide {
  // what is less than a second earlier is the same plan
  const told = Math.ceil(plan.restart)
  const made = modelOfNetwork(network, told - 1)
  const prover = proverOf(made.model, shouldContinue === undefined ? {} : { shouldContinue })
  const best: ExactResult = { plan, list: byRisingStart(network, plan.dates), bound, closed: false, conflicts: 0 }
  const state: State = { network, made, prover, best, known: Number.POSITIVE_INFINITY, told }
  prover.tell({ value: Number.POSITIVE_INFINITY, solution: [], bound: Math.floor(bound) })
  settle(state)
  return {
    go: (effort) => {
      go(state, effort, shouldContinue)
      return newsOf(state)
    },
    tell: (news) => {
      tell(state, news)
      return newsOf(state)
    },
    result: () => ({ ...best }),
  }
}

function go(state: State, effort: number, shouldContinue: (() => boolean) | undefined): void {
  const { prover, best } = state
  const stop = best.conflicts + effort
  while (best.conflicts < stop && !prover.proof.proven && shouldContinue?.() !== false) {
    const proof = prover.go(Math.min(ROUND, stop - best.conflicts))
    best.conflicts = proof.conflicts
    if (proof.value < state.known && proof.value < state.told) adopt(state, proof)
    settle(state)
  }
}

/** A plan of the other side is to be beaten by a second at least. */
function tell(state: State, { value, starts, bound }: News): void {
  const { network, prover, best } = state
  best.bound = Math.max(best.bound, Math.min(bound, best.plan.restart))
  const whole = Math.ceil(value)
  const isNew = starts.length > 0 && whole < Math.min(state.told, state.known)
  if (isNew) state.told = whole
  prover.tell({ value: isNew ? whole : Number.POSITIVE_INFINITY, solution: [], bound: Math.floor(bound) })
  if (starts.length > 0 && value < best.plan.restart) keep(network, Float64Array.from(starts), best)
  settle(state)
}

/** What is ruled out: all that was supposed when nothing was found in it, or all before the engine's own best. */
function settle({ prover: { proof }, best, told, known }: State): void {
  best.closed = proof.proven
  const ruledOut = proof.proven && told <= known ? told - 1 : proof.bound
  best.bound = Math.max(best.bound, Math.min(ruledOut, best.plan.restart))
}

const newsOf = ({ best }: State): News => ({
  value: best.plan.restart,
  starts: Array.from(best.plan.dates.start),
  bound: best.bound,
  closed: best.closed,
  schedules: 0,
  conflicts: best.conflicts,
})

/** The starts of a solution, as priorities; what does not lead to the restart comes last. */
function adopt(state: State, { solution, value }: Proof): void {
  const { network, made, best } = state
  state.known = value
  const priority = new Float64Array(network.ids.length).fill(Number.MAX_SAFE_INTEGER)
  made.activities.forEach((i, k) => {
    priority[i] = solution[made.starts[k] as number] as number
  })
  keep(network, priority, best)
}

/** The plan of the serial scheme in an order, improved; kept when it is better. */
function keep(network: Network, priority: Float64Array, best: ExactResult): void {
  const { plan } = justified(network, planOf(network, serialPlan(network, listBy(network, priority))), 2)
  if (!isBetter(plan, best.plan)) return
  best.plan = plan
  best.list = byRisingStart(network, plan.dates)
}
