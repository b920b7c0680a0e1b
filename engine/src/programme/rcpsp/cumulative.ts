import { explain, raise, type Trail, WRITTEN } from './trail.ts'

/** One resource with its jobs, and room for its time table. */
export interface Cumulative {
  capacity: number
  job: Int32Array
  duration: Int32Array
  need: Int32Array
  /** Where each job runs whatever start it gets; from ≥ to where it need not run at any time. */
  from: Int32Array
  to: Int32Array
  /** Stretches of constant use, in order. */
  stretchFrom: Int32Array
  stretchTo: Int32Array
  level: Int32Array
  /** Ends of the parts, for sorting: time and change of use. */
  at: Int32Array
  change: Int32Array
}

export function cumulativeOf(
  capacity: number,
  jobs: readonly { job: number; duration: number; need: number }[],
): Cumulative {
  const room = 2 * jobs.length + 1
  return {
    capacity,
    job: Int32Array.from(jobs, (j) => j.job),
    duration: Int32Array.from(jobs, (j) => j.duration),
    need: Int32Array.from(jobs, (j) => j.need),
    from: new Int32Array(jobs.length),
    to: new Int32Array(jobs.length),
    stretchFrom: new Int32Array(room),
    stretchTo: new Int32Array(room),
    level: new Int32Array(room),
    at: new Int32Array(room),
    change: new Int32Array(room),
  }
}

/** Literals that cannot all hold, as (view, value) pairs; undefined when there is no conflict. */
export type Conflict = number[] | undefined

/**
 * Time table of a resource: where a job must run whatever its start, it counts. Too many at once is a conflict; a job that no
 * longer fits beside them is pushed on, one instant at a time, each push explained by the jobs that run there.
 *
 * Source: A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, Constraints 16 (2011) 250-282 (abstract read, method from memory).
 */
export function timeTable(t: Trail, c: Cumulative): Conflict {
  const stretches = profileOf(c, ends(t, c))
  for (let s = 0; s < stretches; s++) {
    if ((c.level[s] as number) > c.capacity)
      return coverOf(c, ((c.stretchFrom[s] as number) + (c.stretchTo[s] as number) - 1) >> 1, c.capacity, -1)
  }
  if (stretches === 0) return undefined
  for (let j = 0; j < c.job.length; j++) {
    const view = 2 * (c.job[j] as number)
    if (t.bound[view] === -(t.bound[view + 1] as number)) continue
    const conflict = pushLater(t, c, j, stretches) ?? pushEarlier(t, c, j, stretches)
    if (conflict !== undefined) return conflict
  }
  return undefined
}

/** Compulsory parts, and their ends sorted by time. */
function ends(t: Trail, { job, duration, need, from, to, at, change }: Cumulative): number {
  let count = 0
  for (let j = 0; j < job.length; j++) {
    const view = 2 * (job[j] as number)
    const begin = -(t.bound[view + 1] as number)
    const end = (t.bound[view] as number) + (duration[j] as number)
    from[j] = begin
    to[j] = end
    if (begin >= end) continue
    count = inserted(at, change, count, begin, need[j] as number)
    count = inserted(at, change, count, end, -(need[j] as number))
  }
  return count
}

function inserted(at: Int32Array, change: Int32Array, count: number, time: number, by: number): number {
  let k = count
  while (k > 0 && (at[k - 1] as number) > time) {
    at[k] = at[k - 1] as number
    change[k] = change[k - 1] as number
    k--
  }
  at[k] = time
  change[k] = by
  return count + 1
}

function profileOf({ at, change, stretchFrom, stretchTo, level }: Cumulative, count: number): number {
  let [stretches, use] = [0, 0]
  for (let k = 0; k < count; ) {
    const time = at[k] as number
    while (k < count && at[k] === time) use += change[k++] as number
    if (use <= 0 || k >= count) continue
    stretchFrom[stretches] = time
    stretchTo[stretches] = at[k] as number
    level[stretches++] = use
  }
  return stretches
}

/** Jobs that run at an instant until their needs pass a sum; each by the two bounds that make it run there. */
function coverOf({ job, duration, need, from, to }: Cumulative, at: number, sum: number, except: number): number[] {
  const there: number[] = []
  for (let j = 0; j < job.length; j++)
    if (j !== except && (from[j] as number) <= at && at < (to[j] as number)) there.push(j)
  there.sort((a, b) => (need[b] as number) - (need[a] as number))
  const literals: number[] = []
  let taken = 0
  for (const j of there) {
    if (taken > sum) break
    taken += need[j] as number
    literals.push(2 * (job[j] as number), at - (duration[j] as number) + 1, 2 * (job[j] as number) + 1, -at)
  }
  return literals
}

function pushLater(t: Trail, c: Cumulative, j: number, stretches: number): Conflict {
  const view = 2 * (c.job[j] as number)
  const [duration, room] = [c.duration[j] as number, c.capacity - (c.need[j] as number)]
  let start = t.bound[view] as number
  for (let s = 0; s < stretches; s++) {
    if ((c.stretchTo[s] as number) <= start) continue
    if ((c.stretchFrom[s] as number) >= start + duration) return undefined
    if (beside(c, s, j) <= room) continue
    while (start < (c.stretchTo[s] as number)) {
      const at = Math.min(c.stretchTo[s] as number, start + duration) - 1
      const place = explain(t, [view, at - duration + 1, ...coverOf(c, at, room, j)])
      start = at + 1
      if (!raise(t, view, start, WRITTEN, place)) return crossing(t, view)
    }
  }
  return undefined
}

function pushEarlier(t: Trail, c: Cumulative, j: number, stretches: number): Conflict {
  const view = 2 * (c.job[j] as number) + 1
  const [duration, room] = [c.duration[j] as number, c.capacity - (c.need[j] as number)]
  let start = -(t.bound[view] as number)
  for (let s = stretches - 1; s >= 0; s--) {
    if ((c.stretchFrom[s] as number) >= start + duration) continue
    if ((c.stretchTo[s] as number) <= start) return undefined
    if (beside(c, s, j) <= room) continue
    while (start + duration > (c.stretchFrom[s] as number)) {
      const at = Math.max(c.stretchFrom[s] as number, start)
      const place = explain(t, [view, -at, ...coverOf(c, at, room, j)])
      start = at - duration
      if (!raise(t, view, -start, WRITTEN, place)) return crossing(t, view)
    }
  }
  return undefined
}

/** Use of the others in a stretch: every part begins and ends with a stretch. */
const beside = ({ stretchFrom, stretchTo, level, need, from, to }: Cumulative, s: number, j: number): number =>
  (from[j] as number) <= (stretchFrom[s] as number) && (stretchTo[s] as number) <= (to[j] as number)
    ? (level[s] as number) - (need[j] as number)
    : (level[s] as number)

/** A view pushed past its opposite. */
export const crossing = (t: Trail, view: number): number[] => {
  const most = -(t.bound[view ^ 1] as number)
  return [view, most + 1, view ^ 1, -most]
}
