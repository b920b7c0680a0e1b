import { leastCost } from '../../numeric/linear-programme.ts'
import { earlyDates, lateDates } from '../passes.ts'
import { leastIn } from './energy.ts'
import { type Instance, networkOfInstance } from './instance.ts'
import type { Shares } from './model.ts'
import { reachOf } from './modelOfInstance.ts'

/** Where shares of an instance's jobs come from. */
export interface SharesSource {
  /** Those that make most of the whole time, of its first half and of its second half. */
  first: () => readonly Shares[]
  /** Those that make most of what must be in a span, for bounds of the jobs' starts by view. */
  filling: (begin: number, to: number, bound: Int32Array) => Shares | undefined
}

/** Where more sets than this can run together they are not listed: resources bind little there. */
const MOST_SETS = 5000

/** @param horizon no later end is looked for */
export function sharesSourceOf(instance: Instance, horizon: number): SharesSource {
  let sets: readonly (readonly number[])[] | undefined
  const making = (most: readonly number[]): Shares | undefined => {
    sets ??= fullSets(instance) ?? []
    return sets.length === 0 ? undefined : sharesMaking(instance, sets, most)
  }
  const first = (): Shares[] => {
    const parts = [
      [0, 1],
      [0, 1 / 2],
      [1 / 2, 1],
    ].map(([from, to]) => likelyIn(instance, horizon, (from as number) * horizon, (to as number) * horizon))
    return parts.flatMap((part) => making(part) ?? [])
  }
  const filling = (begin: number, to: number, bound: Int32Array): Shares | undefined =>
    making(
      instance.durations.map((d, j) => {
        const [from, until] = [bound[2 * j] as number, d - (bound[2 * j + 1] as number)]
        return leastIn(d, from, until, begin, to) + OUTSIDE_PART * d
      }),
    )
  return { first, filling }
}

/** Of every duration something counts, so that each job gets the share that costs the others nothing. */
const [LEAST_PART, OUTSIDE_PART] = [0.05, 0.02]

/** How much of each job is in a span, if it may be anywhere between its earliest start and latest end. */
function likelyIn(instance: Instance, horizon: number, begin: number, to: number): number[] {
  const network = networkOfInstance(instance)
  const earliest = earlyDates(network).start
  const latest = lateDates(network, horizon, horizon).finish
  return instance.durations.map((d, j) => {
    const [from, until] = [earliest[j] as number, latest[j] as number]
    const inside = Math.min(until, to) - Math.max(from, begin)
    return d * Math.max(LEAST_PART, inside / Math.max(1, until - from))
  })
}

const NEW_EACH = 10
const MOST_ROUNDS = 200
const NOISE = 1e-6
/** Shares are counted in so many to the whole: most simple fractions are whole numbers of 2³ · 3² · 5 · 7. */
const PARTS = 2520

/**
 * A share for each job, such that jobs that can run together never have more than the whole between them, and share times `most` adds up to
 * as much as it can. Where no more than two of the jobs can ever run at once, each may have a half.
 *
 * The linear relaxation by sets that can run together, a few sets more as prices ask for them: A. Mingozzi, V. Maniezzo,
 * S. Ricciardelli, L. Bianco, Management Science 44 (1998) 714-729 (from memory). What it gives is rounded down, and the whole is
 * then what the fullest set really has: valid whatever the arithmetic lost.
 */
function sharesMaking(
  { durations }: Instance,
  sets: readonly (readonly number[])[],
  most: readonly number[],
): Shares | undefined {
  const jobs = durations.flatMap((d, j) => (d > 0 ? [j] : []))
  const place = new Map(jobs.map((j, i) => [j, i]))
  const columnOf = (set: readonly number[], amount = 1): number[] => {
    const column = jobs.map(() => 0)
    for (const j of set) column[place.get(j) as number] = amount
    return column
  }
  const surplus = jobs.map((j) => columnOf([j], -1))
  const columns = jobs.map((j) => columnOf([j]))
  const sum = jobs.map((j) => most[j] as number)
  let share = durations.map(() => 0)
  const totalOf = (set: readonly number[]): number => set.reduce((s, j) => s + (share[j] as number), 0)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const cost = [...surplus.map(() => 0), ...columns.map(() => 1)]
    const answer = leastCost({ columns: [...surplus, ...columns], cost, sum })
    if (answer.kind !== 'least') return undefined
    share = durations.map((d, j) => (d > 0 ? Math.max(0, answer.prices[place.get(j) as number] as number) : 0))
    const over = sets.map((set) => ({ set, total: totalOf(set) })).filter(({ total }) => total > 1 + NOISE)
    if (over.length === 0) break
    over.sort((a, b) => b.total - a.total)
    for (const { set } of over.slice(0, NEW_EACH)) columns.push(columnOf(set))
  }
  share = share.map((s) => Math.floor(s * PARTS + NOISE * PARTS))
  const whole = sets.reduce((fullest, set) => Math.max(fullest, totalOf(set)), 0)
  const items = jobs.filter((j) => (share[j] as number) > 0)
  return {
    whole,
    items: items.map((j) => ({ start: j, duration: durations[j] as number, share: share[j] as number })),
  }
}

/** Sets of jobs that can run together and to which none can be added; undefined when there are too many. */
export function fullSets({ durations, successors, needs, capacities }: Instance): number[][] | undefined {
  const reach = reachOf(successors)
  const jobs = durations.flatMap((d, j) => (d > 0 ? [j] : []))
  const isTied = (a: number, b: number): boolean => (reach[a] as Set<number>).has(b) || (reach[b] as Set<number>).has(a)
  const withJob = (use: readonly number[], j: number): number[] => use.map((u, k) => u + (needs[j]?.[k] as number))
  const isRoom = (use: readonly number[]): boolean => use.every((u, k) => u <= (capacities[k] as number))
  const found: number[][] = []
  let steps = 0
  /** @param open jobs that can be added; @param passed those that could, but were tried before */
  const extend = (
    set: number[],
    use: readonly number[],
    open: readonly number[],
    passed: readonly number[],
  ): boolean => {
    if (++steps > STEPS_EACH * MOST_SETS || found.length > MOST_SETS) return false
    if (open.length === 0 && passed.length === 0) found.push(set)
    return open.every((j, at) => {
      const next = withJob(use, j)
      const fits = (other: number): boolean => !isTied(j, other) && isRoom(withJob(next, other))
      return extend([...set, j], next, open.slice(at + 1).filter(fits), [...passed, ...open.slice(0, at)].filter(fits))
    })
  }
  const none = capacities.map(() => 0)
  const alone = jobs.filter((j) => isRoom(withJob(none, j)))
  return extend([], none, alone, []) ? found : undefined
}

/** Steps of the listing for each set that may be found. */
const STEPS_EACH = 20
