import type { Patch } from '../working/patch.ts'
import { proveExact } from './exact.ts'
import { isBetter } from './improve.ts'
import type { ProgrammeResult } from './programme.ts'
import { type SearchOptions, searchPlan } from './search.ts'

/** A plan proposed by a search: adopted by applying the patch. */
export interface PlanProposal {
  /** Restart in the plan that stands, in the proposed one, and the earliest that is not ruled out, s from the start. */
  before: number
  restart: number
  bound: number
  proven: boolean
  schedules: number
  /** Conflicts that the proof search learnt from after that. */
  conflicts: number
  /** What the bound rests on. */
  reason: string
  ended: 'bound reached' | 'effort spent' | 'stopped'
  seed: number
  /** Order in which activities take their resources. */
  sequence: readonly string[]
  /** Puts the sequence into the project file; empty when nothing earlier was found. */
  patch: Patch
}

const MINUTE = 60

/**
 * Looks for an earlier plan of a programme; undefined when there is none to begin with. First through schedules, then, while
 * the plan is later than what is ruled out, by a proof search that learns from as many conflicts.
 */
export function improvePlan(
  programme: ProgrammeResult,
  options: Omit<SearchOptions, 'bound'>,
): PlanProposal | undefined {
  const { solved, restart, bound } = programme
  if (solved === undefined || restart === undefined || bound === undefined) return undefined
  const { network, planned } = solved
  const found = searchPlan(network, { ...options, bound: bound.value + MINUTE })
  const start = isBetter(planned.plan, found.plan) ? planned.plan : found.plan
  const open = start.restart - bound.value >= MINUTE && found.ended !== 'stopped'
  const exact = open ? proveExact(network, { ...options, plan: start, bound: bound.value }) : undefined
  const plan = exact?.plan ?? found.plan
  const sequence = Array.from(exact?.list ?? found.list, (i) => network.ids[i] as string)
  const least = exact?.bound ?? bound.value
  const proven = Math.min(restart, plan.restart) - least < MINUTE
  return {
    before: restart,
    restart: Math.min(restart, plan.restart),
    bound: least,
    proven,
    schedules: found.schedules,
    conflicts: exact?.conflicts ?? 0,
    reason: least > bound.value ? proofReason(exact?.conflicts ?? 0) : bound.reason,
    ended: proven && found.ended === 'effort spent' ? 'bound reached' : found.ended,
    seed: options.seed,
    sequence,
    patch: plan.restart < restart - 1 ? [{ op: 'add', path: '/programme/sequence', value: sequence }] : [],
  }
}

const proofReason = (conflicts: number): string =>
  `every order in which the resources could serve the work sooner was ruled out, through ${conflicts} contradictions`
