import type { Instance } from './instance.ts'

/** An instance on a grid of whole time steps, with room for the use of its resources: schedules are made on it by the thousand. */
export interface Grid {
  durations: Int32Array
  /** Jobs × resources, row by row; capacities by resource. */
  needs: Int32Array
  capacities: Int32Array
  before: readonly Int32Array[]
  after: readonly Int32Array[]
  /** Steps × resources: what is in use at each step of the schedule in hand. */
  use: Int32Array
}

export function gridOf({ durations, successors, needs, capacities }: Instance): Grid {
  const before = durations.map((): number[] => [])
  successors.forEach((next, i) => {
    for (const j of next) before[j]?.push(i)
  })
  const horizon = durations.reduce((a, b) => a + b, 0) + 1
  return {
    durations: Int32Array.from(durations),
    needs: Int32Array.from(needs.flat()),
    capacities: Int32Array.from(capacities),
    before: before.map((jobs) => Int32Array.from(jobs)),
    after: successors.map((jobs) => Int32Array.from(jobs)),
    use: new Int32Array(horizon * capacities.length),
  }
}

/**
 * Serial scheme on the grid: in the order of the list, which has predecessors first, each job at its earliest start.
 *
 * @param starts is filled with the start of each job
 * @returns end of the last job
 */
export function earliestOn(grid: Grid, list: Int32Array, starts: Int32Array): number {
  const { durations, before, use } = grid
  use.fill(0)
  let end = 0
  for (let at = 0; at < list.length; at++) {
    const job = list[at] as number
    const jobs = before[job] as Int32Array
    let start = 0
    for (let k = 0; k < jobs.length; k++) {
      const p = jobs[k] as number
      const due = (starts[p] as number) + (durations[p] as number)
      if (due > start) start = due
    }
    for (let full = lastFull(grid, job, start); full >= 0; full = lastFull(grid, job, start)) start = full + 1
    starts[job] = start
    occupy(grid, job, start)
    const finish = start + (durations[job] as number)
    if (finish > end) end = finish
  }
  return end
}

/** Mirror of the serial scheme: each job as late as its successors and the end allow, successors first in the list. */
export function latestOn(grid: Grid, list: Int32Array, end: number, starts: Int32Array): void {
  const { durations, after, use } = grid
  use.fill(0)
  for (let at = 0; at < list.length; at++) {
    const job = list[at] as number
    const jobs = after[job] as Int32Array
    let finish = end
    for (let k = 0; k < jobs.length; k++) finish = Math.min(finish, starts[jobs[k] as number] as number)
    let start = finish - (durations[job] as number)
    for (let full = firstFull(grid, job, start); full >= 0; full = firstFull(grid, job, start))
      start = full - (durations[job] as number)
    starts[job] = start
    occupy(grid, job, start)
  }
}

/** Last step of a job, were it to begin at a time, at which a resource has no room for it; −1 when it fits. */
function lastFull({ durations, needs, capacities, use }: Grid, job: number, start: number): number {
  const many = capacities.length
  for (let step = start + (durations[job] as number) - 1; step >= start; step--) {
    for (let k = 0; k < many; k++)
      if ((use[step * many + k] as number) + (needs[job * many + k] as number) > (capacities[k] as number)) return step
  }
  return -1
}

/** First such step. */
function firstFull({ durations, needs, capacities, use }: Grid, job: number, start: number): number {
  const many = capacities.length
  const finish = start + (durations[job] as number)
  for (let step = start; step < finish; step++) {
    for (let k = 0; k < many; k++)
      if ((use[step * many + k] as number) + (needs[job * many + k] as number) > (capacities[k] as number)) return step
  }
  return -1
}

function occupy({ durations, needs, capacities, use }: Grid, job: number, start: number): void {
  const many = capacities.length
  for (let step = start; step < start + (durations[job] as number); step++)
    for (let k = 0; k < many; k++)
      use[step * many + k] = (use[step * many + k] as number) + (needs[job * many + k] as number)
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
