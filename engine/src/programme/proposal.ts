import type { Patch } from '../working/patch.ts'
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
  ended: 'bound reached' | 'effort spent' | 'stopped'
  seed: number
  /** Order in which activities take their resources. */
  sequence: readonly string[]
  /** Puts the sequence into the project file; empty when nothing earlier was found. */
  patch: Patch
}

const MINUTE = 60

/** Looks for an earlier plan of a programme; undefined when there is none to begin with. */
export function improvePlan(
  programme: ProgrammeResult,
  options: Omit<SearchOptions, 'bound'>,
): PlanProposal | undefined {
  const { solved, restart, bound } = programme
  if (solved === undefined || restart === undefined || bound === undefined) return undefined
  const { network } = solved
  const found = searchPlan(network, { ...options, bound: bound.value + MINUTE })
  const sequence = Array.from(found.list, (i) => network.ids[i] as string)
  const earlier = found.plan.restart < restart - 1
  return {
    before: restart,
    restart: Math.min(restart, found.plan.restart),
    bound: bound.value,
    proven: Math.min(restart, found.plan.restart) - bound.value < MINUTE,
    schedules: found.schedules,
    ended: found.ended,
    seed: options.seed,
    sequence,
    patch: earlier ? [{ op: 'add', path: '/programme/sequence', value: sequence }] : [],
  }
}
