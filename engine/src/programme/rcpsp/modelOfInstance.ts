import type { Instance } from './instance.ts'
import { eitherFirst, emptyModel, lagBetween, type Model, variable } from './model.ts'

/** Pairs that exclude each other get a variable for which is first, up to so many. */
const MOST_PAIRS = 1500

/**
 * An instance as a model: a start for each job, finish-to-start lags, a time table for each resource, and for two jobs that
 * need more together than there is, which of them is first.
 */
export function modelOfInstance(instance: Instance, horizon: number, pairs = MOST_PAIRS): Model {
  const { durations, successors, needs, capacities } = instance
  const model = emptyModel()
  model.starts = durations.map(() => variable(model, 0, horizon))
  model.objective = durations.length - 1
  successors.forEach((next, i) => {
    for (const j of next) lagBetween(model, i, j, durations[i] as number)
  })
  model.resources = capacities.map((capacity, k) => ({
    capacity,
    items: durations.flatMap((offset, job) => {
      const need = needs[job]?.[k] as number
      return need > 0 && offset > 0 ? [{ start: job, end: job, offset, need, when: -1 }] : []
    }),
  }))
  for (const [a, b] of excluding(instance).slice(0, pairs)) {
    const [x, y] = [a, b].map((j) => ({ start: j, end: j, offset: durations[j] as number })) as [Side, Side]
    eitherFirst(model, x, y, { ab: 0, ba: 0 })
  }
  return model
}

interface Side {
  start: number
  end: number
  offset: number
}

/** Pairs of jobs that cannot run together, save those whose order the links settle. */
export function excluding({ durations, successors, needs, capacities }: Instance): [number, number][] {
  const reach = reachOf(successors)
  const pairs: [number, number][] = []
  for (let a = 0; a < durations.length; a++) {
    for (let b = a + 1; b < durations.length; b++) {
      if (durations[a] === 0 || durations[b] === 0 || reach[a]?.has(b) || reach[b]?.has(a)) continue
      if (capacities.some((c, k) => (needs[a]?.[k] as number) + (needs[b]?.[k] as number) > c)) pairs.push([a, b])
    }
  }
  return pairs
}

/** All that follow each job. */
export function reachOf(successors: readonly (readonly number[])[]): Set<number>[] {
  const known: (Set<number> | undefined)[] = successors.map(() => undefined)
  const of = (i: number): Set<number> => {
    const found = known[i]
    if (found !== undefined) return found
    const all = new Set<number>()
    for (const j of successors[i] as readonly number[]) {
      all.add(j)
      for (const k of of(j)) all.add(k)
    }
    known[i] = all
    return all
  }
  return successors.map((_, i) => of(i))
}
