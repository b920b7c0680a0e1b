import type { Bound } from '../bound.ts'
import type { SideOrder } from '../sides.ts'
import type { Instance } from './instance.ts'
import { groundOf, instanceImprover, instanceProver } from './instanceSides.ts'
import { type Far, near, together } from './side.ts'

/** Solution of an instance. */
export interface InstanceSolution {
  makespan: number
  /** Start of each job, in their order. */
  starts: readonly number[]
  /** No schedule is shorter; what it rests on. */
  bound: number
  boundBy: string
  /** The path, or the resource with its span, that alone rules out less than a bound without search: anyone can recount it. */
  evidence: Bound
  proven: boolean
  /** Schedules of the side that improves, conflicts of the side that proves. */
  schedules: number
  conflicts: number
  ended: 'bound reached' | 'effort spent' | 'stopped'
}

export interface SolveOptions {
  /** Conflicts of the side that proves; the side that improves works as long, eighteen schedules for a conflict. */
  effort: number
  seed: number
  shouldContinue?: () => boolean
  /** Where the side that improves works; here when not given. */
  elsewhere?: (order: SideOrder) => Far
}

/**
 * A short schedule of an instance and a bound: one side improves, by a genetic search and by large neighbourhoods, the other
 * proves, by a search that learns from conflicts. Same instance, effort and seed: same answer, in one thread or in two.
 */
export function solveInstance(instance: Instance, options: SolveOptions): InstanceSolution {
  const { effort, seed, shouldContinue, elsewhere } = options
  const ground = groundOf(instance)
  const far =
    elsewhere?.({ kind: 'instance', instance, seed }) ?? near(instanceImprover(instance, ground, seed, shouldContinue))
  const found = together(instanceProver(instance, ground, seed, shouldContinue), far, { effort, shouldContinue })
  const { value, starts, bound, schedules, conflicts, ended } = found
  return {
    makespan: value,
    starts,
    bound,
    boundBy: bound > ground.bound ? 'proof search that learns from conflicts' : boundWords(ground.evidence),
    evidence: ground.evidence,
    proven: value <= bound,
    schedules,
    conflicts,
    ended,
  }
}

/** A bound without search in words, with the figures that make it. */
export function boundWords({ kind, resource, from, to, needed, there }: Bound): string {
  if (kind === 'path') return 'longest path'
  return `work on ${resource}: from ${from} to ${Math.floor(to as number)}, ${needed} are needed and ${Math.floor(there as number)} are there`
}

/** Faults of a schedule, counted from the instance alone: jobs that start before a predecessor ends, resources overdrawn. */
export function scheduleFaults(
  { durations, successors, needs, capacities }: Instance,
  starts: readonly number[],
): string[] {
  const end = (job: number): number => (starts[job] as number) + (durations[job] as number)
  const early = successors.flatMap((next, i) =>
    next.filter((j) => (starts[j] as number) < end(i)).map((j) => `job ${j + 1} starts before job ${i + 1} ends`),
  )
  const over = capacities.flatMap((capacity, k) =>
    starts.flatMap((at, job) => {
      const use = starts.reduce((sum, s, i) => sum + (s <= at && at < end(i) ? (needs[i]?.[k] as number) : 0), 0)
      return use > capacity ? [`resource ${k + 1} holds ${use} of ${capacity} when job ${job + 1} starts`] : []
    }),
  )
  return [...early, ...over]
}
