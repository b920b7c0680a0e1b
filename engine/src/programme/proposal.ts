import type { Programme } from '../model/index.ts'
import type { Patch } from '../working/patch.ts'
import { lowerBound } from './bound.ts'
import { exactSide } from './exact.ts'
import { type ProgrammeResult, reasonOf } from './programme.ts'
import { type Far, near, together } from './rcpsp/side.ts'
import { improverOf, type SideOrder } from './sides.ts'
import { findWays, type WayTaken, waysPatch } from './ways.ts'

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
  /** Stopped: the plan and the bound as they stood then. */
  ended: 'bound reached' | 'effort spent' | 'stopped'
  seed: number
  /** Order in which activities take their resources. */
  sequence: readonly string[]
  /** Activities that the proposal does in another way. */
  ways: readonly WayTaken[]
  /** Puts sequence and ways into the project file; empty when nothing earlier was found. */
  patch: Patch
}

const MINUTE = 60

/** Of the effort, the share that may go into plans with other ways. */
const WAYS_SHARE = 0.1

export interface ImproveOptions {
  /** With it, other ways of doing things are looked for as well. */
  typed?: Programme | undefined
  /** Schedules of the side that improves, conflicts of the side that proves. */
  effort: number
  seed: number
  shouldContinue?: () => boolean
  onProgress?: (done: number, of: number) => void
  /** Where the side that improves works; here when not given. */
  elsewhere?: (order: SideOrder) => Far
}

/**
 * Looks for an earlier plan of a programme; undefined when there is none to begin with. One side makes schedules, the other
 * proves by learning from conflicts; they exchange at fixed effort, so that effort and seed decide the answer.
 */
export function improvePlan(programme: ProgrammeResult, options: ImproveOptions): PlanProposal | undefined {
  const { restart } = programme
  const begun = beginning(programme, options)
  if (begun === undefined || restart === undefined) return undefined
  const { network, plan: first, bound, reason, taken } = begun
  const { seed, shouldContinue, elsewhere } = options
  const order: SideOrder = { kind: 'network', network, seed, bound: bound + MINUTE }
  const open = first.restart - bound >= MINUTE
  const exact = exactSide(network, { plan: first, bound, shouldContinue })
  const far = open ? (elsewhere?.(order) ?? near(improverOf(order, shouldContinue))) : IDLE
  const found = together(exact, far, { ...options, effort: open ? options.effort : 0 })
  const { plan, list, bound: least, conflicts } = exact.result()
  const sequence = Array.from(list, (i) => network.ids[i] as string)
  const proven = Math.min(restart, plan.restart) - least < MINUTE
  return {
    before: restart,
    restart: Math.min(restart, plan.restart),
    bound: least,
    proven,
    schedules: found.schedules,
    conflicts,
    reason: least > bound ? proofReason(conflicts, programme) : reason,
    ended: proven ? 'bound reached' : found.ended,
    seed,
    sequence,
    ways: taken,
    patch:
      plan.restart < restart - 1
        ? [
            ...(options.typed === undefined ? [] : waysPatch(options.typed, taken)),
            { op: 'add', path: '/programme/sequence', value: sequence },
          ]
        : [],
  }
}

/** The plan that stands; or, where other ways bring the restart forward, the plan with these, and what bounds it. */
function beginning(programme: ProgrammeResult, { typed, effort, shouldContinue }: ImproveOptions) {
  const { solved, bound } = programme
  if (solved === undefined || bound === undefined) return undefined
  const { network, planned, zone } = solved
  const stands = { network, plan: planned.plan, bound: bound.value, reason: bound.reason, taken: [] as WayTaken[] }
  if (typed === undefined || Object.keys(typed.ways).length === 0) return stands
  const found = findWays(typed, programme, { effort: Math.ceil(effort * WAYS_SHARE), shouldContinue })
  if (found.taken.length === 0) return stands
  const low = lowerBound(found.network, found.plan.restart, HOUR)
  const reason = `${reasonOf(low, zone)}, with the ways chosen`
  return { network: found.network, plan: found.plan, bound: low.value, reason, taken: [...found.taken] }
}

const HOUR = 3600

/** Nothing to do: the plan stands at its bound. */
const IDLE: Far = {
  begin: () => undefined,
  end: () => {
    throw new Error('nothing was begun')
  },
}

/** What was ruled out by search, with the scarcest resource as far as it tells by itself. */
const proofReason = (conflicts: number, { bound }: ProgrammeResult): string => {
  const alone = bound?.evidence.kind === 'resource' ? `; before that: ${bound.reason}` : ''
  return `every order in which the resources could serve the work sooner was ruled out, through ${conflicts} contradictions${alone}`
}
