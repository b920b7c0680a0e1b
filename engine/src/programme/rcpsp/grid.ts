import type { Instance } from './instance.ts'

/** An instance on a grid of whole time steps, with what is free of its resources: schedules are made on it by the thousand. */
export interface Grid {
  durations: Int32Array
  /** Jobs × resources, row by row; capacities by resource. */
  needs: Int32Array
  capacities: Int32Array
  before: readonly Int32Array[]
  after: readonly Int32Array[]
  packed: Packed
}

/**
 * Amounts of several resources in fields of one word, so that one subtraction tells whether all of them suffice. Above each
 * field is a bit that is set in what is free: after the subtraction it is gone exactly where the field was too small. No need is
 * greater than what there is: reading refuses such an instance.
 */
interface Packed {
  words: number
  steps: number
  /** Words × jobs: what a job needs. */
  needs: Int32Array
  /** By word: what is there, with the bits above the fields set; and those bits alone. */
  capacity: Int32Array
  above: Int32Array
  /** Words × steps: what is free at each step of the schedule in hand, with those bits set. */
  free: Int32Array
}

export function gridOf({ durations, successors, needs, capacities }: Instance): Grid {
  const before = durations.map((): number[] => [])
  successors.forEach((next, i) => {
    for (const j of next) before[j]?.push(i)
  })
  return {
    durations: Int32Array.from(durations),
    needs: Int32Array.from(needs.flat()),
    capacities: Int32Array.from(capacities),
    before: before.map((jobs) => Int32Array.from(jobs)),
    after: successors.map((jobs) => Int32Array.from(jobs)),
    packed: packedOf(needs, capacities, durations.reduce((a, b) => a + b, 0) + 1),
  }
}

const WORD = 32

function packedOf(needs: readonly (readonly number[])[], capacities: readonly number[], steps: number): Packed {
  const field = WORD - Math.clz32(Math.max(1, ...capacities)) + 1
  const each = Math.floor(WORD / field)
  const words = Math.max(1, Math.ceil(capacities.length / each))
  const pack = (amounts: readonly number[], w: number): number =>
    amounts.slice(w * each, (w + 1) * each).reduce((word, amount, k) => word | (amount << (k * field)), 0)
  const byWord = (of: (w: number) => number | number[]): Int32Array =>
    Int32Array.from(Array.from({ length: words }, (_, w) => of(w)).flat())
  const bits = capacities.map(() => 1 << (field - 1))
  return {
    words,
    steps,
    needs: byWord((w) => needs.map((amounts) => pack(amounts, w))),
    capacity: byWord((w) => pack(capacities, w) | pack(bits, w)),
    above: byWord((w) => pack(bits, w)),
    free: new Int32Array(words * steps),
  }
}

/**
 * Serial scheme on the grid: in the order of the list, which has predecessors first, each job at its earliest start.
 *
 * @param starts is filled with the start of each job
 * @returns end of the last job
 */
export function earliestOn({ durations, before, packed }: Grid, list: Int32Array, starts: Int32Array): number {
  clear(packed)
  let end = 0
  for (let at = 0; at < list.length; at++) {
    const job = list[at] as number
    const duration = durations[job] as number
    const jobs = before[job] as Int32Array
    let start = 0
    for (let k = 0; k < jobs.length; k++) {
      const p = jobs[k] as number
      const due = (starts[p] as number) + (durations[p] as number)
      if (due > start) start = due
    }
    // steps behind a full one have been seen to be free: of the next place only its own are looked at
    let full = lastFull(packed, job, start, start + duration)
    while (full >= 0) {
      const seen = start + duration
      start = full + 1
      full = lastFull(packed, job, seen, start + duration)
    }
    starts[job] = start
    occupy(packed, job, start, start + duration)
    if (start + duration > end) end = start + duration
  }
  return end
}

/** Mirror of the serial scheme: each job as late as its successors and the end allow, successors first in the list. Before time 0 all is free. */
export function latestOn({ durations, after, packed }: Grid, list: Int32Array, end: number, starts: Int32Array): void {
  clear(packed)
  for (let at = 0; at < list.length; at++) {
    const job = list[at] as number
    const duration = durations[job] as number
    const jobs = after[job] as Int32Array
    let finish = end
    for (let k = 0; k < jobs.length; k++) finish = Math.min(finish, starts[jobs[k] as number] as number)
    let full = firstFull(packed, job, finish - duration, finish)
    while (full >= 0) {
      const seen = finish - duration
      finish = full
      full = firstFull(packed, job, finish - duration, seen)
    }
    starts[job] = finish - duration
    occupy(packed, job, finish - duration, finish)
  }
}

function clear({ words, steps, capacity, free }: Packed): void {
  for (let w = 0; w < words; w++) free.fill(capacity[w] as number, w * steps, (w + 1) * steps)
}

/** Last of the steps from one until another at which a resource has no room for a job; −1 when there is room at all. */
function lastFull({ words, steps, needs, above, free }: Packed, job: number, from: number, until: number): number {
  const jobs = needs.length / words
  let last = -1
  for (let w = 0; w < words; w++) {
    const need = needs[w * jobs + job] as number
    const bits = above[w] as number
    const least = w * steps + Math.max(from, last + 1)
    for (let at = w * steps + until - 1; at >= least; at--) {
      if ((((free[at] as number) - need) & bits) === bits) continue
      last = at - w * steps
      break
    }
  }
  return last
}

/** First such step. */
function firstFull({ words, steps, needs, above, free }: Packed, job: number, from: number, until: number): number {
  const jobs = needs.length / words
  let first = -1
  for (let w = 0; w < words; w++) {
    const need = needs[w * jobs + job] as number
    const bits = above[w] as number
    const end = w * steps + (first < 0 ? until : first)
    for (let at = w * steps + Math.max(from, 0); at < end; at++) {
      if ((((free[at] as number) - need) & bits) === bits) continue
      first = at - w * steps
      break
    }
  }
  return first
}

function occupy({ words, steps, needs, free }: Packed, job: number, from: number, until: number): void {
  const jobs = needs.length / words
  for (let w = 0; w < words; w++) {
    const need = needs[w * jobs + job] as number
    for (let at = w * steps + Math.max(from, 0); at < w * steps + until; at++) free[at] = (free[at] as number) - need
  }
}

/** Puts a list into rising order of a value by job, and leaves jobs of equal value as they stood. */
export function sortBy(list: Int32Array, value: Int32Array): void {
  for (let at = 1; at < list.length; at++) {
    const job = list[at] as number
    const own = value[job] as number
    let p = at
    while (p > 0 && (value[list[p - 1] as number] as number) > own) {
      list[p] = list[p - 1] as number
      p--
    }
    list[p] = job
  }
}
