import { type Bound, lowerBound } from '../bound.ts'
import { searchPlan } from '../search.ts'
import { type Instance, networkOfInstance } from './instance.ts'
import { modelOfInstance } from './modelOfInstance.ts'
import { proverOf } from './prove.ts'

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
  schedules: number
  conflicts: number
}

export interface SolveOptions {
  /** Conflicts to learn from; one schedule of the search before it for every five. */
  effort: number
  seed: number
  shouldContinue?: () => boolean
}

/**
 * A short schedule of an instance and a bound: the programme's own quick plan and search first, then a proof search that
 * learns from conflicts. Same instance, effort and seed: same answer.
 */
export function solveInstance(instance: Instance, { effort, seed, shouldContinue }: SolveOptions): InstanceSolution {
  const network = networkOfInstance(instance)
  const going = shouldContinue === undefined ? {} : { shouldContinue }
  const first = lowerBound(network, Number.MAX_SAFE_INTEGER / 4, Number.MAX_SAFE_INTEGER)
  const found = searchPlan(network, { effort: searchEffort(instance, effort), seed, bound: first.value, ...going })
  const low = lowerBound(network, found.plan.end, 0.25)
  const bound = low.kind === 'path' ? Math.ceil(low.value) : Math.floor(low.value) + 1
  const boundBy = boundWords(low)
  const base = { makespan: found.plan.end, starts: Array.from(found.plan.dates.start), bound, evidence: low }
  if (base.makespan <= bound) return { ...base, boundBy, proven: true, schedules: found.schedules, conflicts: 0 }
  const prover = proverOf(modelOfInstance(instance, base.makespan), {
    value: base.makespan,
    solution: base.starts,
    bound,
    ...going,
  })
  const proof = prover.go(effort)
  return {
    makespan: proof.value,
    starts: proof.solution.slice(0, instance.durations.length),
    bound: proof.bound,
    evidence: low,
    boundBy: proof.bound > bound ? 'proof search that learns from conflicts' : boundBy,
    proven: proof.proven,
    schedules: found.schedules,
    conflicts: proof.conflicts,
  }
}

/** A bound without search in words, with the figures that make it. */
export function boundWords({ kind, resource, from, to, needed, there }: Bound): string {
  if (kind === 'path') return 'longest path'
  return `work on ${resource}: from ${from} to ${Math.floor(to as number)}, ${needed} are needed and ${Math.floor(there as number)} are there`
}

const LEAST_SCHEDULES = 200
const MOST_SCHEDULES = 5000

const searchEffort = (instance: Instance, effort: number): number =>
  Math.min(MOST_SCHEDULES, Math.max(LEAST_SCHEDULES, Math.min(effort / 5, instance.durations.length * 60)))

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
