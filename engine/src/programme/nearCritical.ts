import { ancestorsOf } from './bound.ts'
import type { Network } from './network.ts'
import { type Dates, drivers, INSTANT, lateDates, longestPath, targetOf, totalFloat } from './passes.ts'
import type { Planned } from './plan.ts'

/** A chain beside the longest path that has little float of its own. */
export interface NearPath {
  /** Least float along it, s of working time of the activity that has it, and that activity. */
  float: number
  tightest: string
  /** Off the longest path and off the paths before it, first to last. */
  activities: readonly string[]
  /** Where it comes from these, absent when it begins by itself; and where it joins them again. */
  leaves?: string
  joins?: string
}

/**
 * Paths of the plan, hand-overs included, whose float is at most a number of working days of each activity's calendar, least
 * float first. Only what leads to the restart is looked at. Every activity with that little float is on one of them, and stands in one only.
 *
 * @param day clock seconds of a working day of an activity
 */
export function nearCriticalPaths({ bound, plan }: Planned, most: number, day: (i: number) => number): NearPath[] {
  const late = lateDates(bound, plan.restart, plan.end)
  const path = longestPath(bound, plan.dates, targetOf(bound, plan.dates))
  const float = Float64Array.from(bound.ids, (_, i) =>
    totalFloat(bound, i, plan.dates.start[i] as number, late.start[i] as number),
  )
  const leading = ancestorsOf(bound, targetOf(bound, plan.dates))
  const near = [...bound.order].filter(
    (i) => leading.has(i) && !path.has(i) && (bound.work[i] as number) > 0 && (float[i] as number) <= most * day(i),
  )
  near.sort((a, b) => (float[a] as number) - (float[b] as number))
  const taken = new Set<number>(path)
  return near.flatMap((i) => (taken.has(i) ? [] : [pathThrough(bound, plan.dates, float, taken, i)]))
}

function pathThrough(
  network: Network,
  dates: Dates,
  float: Float64Array,
  taken: Set<number>,
  through: number,
): NearPath {
  const chain = [through]
  const least = (from: readonly number[]): number | undefined =>
    from.reduce<number | undefined>(
      (best, j) => (best === undefined || (float[j] as number) < (float[best] as number) - INSTANT ? j : best),
      undefined,
    )
  let before = least(drivers(network, through, dates))
  while (before !== undefined && !taken.has(before)) {
    chain.unshift(before)
    before = least(drivers(network, before, dates))
  }
  let after = least(successorsOf(network, through))
  while (after !== undefined && !taken.has(after)) {
    chain.push(after)
    after = least(successorsOf(network, after))
  }
  for (const i of chain) taken.add(i)
  const id = (i: number): string => network.ids[i] as string
  return {
    float: float[through] as number,
    tightest: id(through),
    activities: chain.map(id),
    ...(before === undefined ? {} : { leaves: id(before) }),
    ...(after === undefined ? {} : { joins: id(after) }),
  }
}

function successorsOf({ after }: Network, i: number): number[] {
  return Array.from(after.other.subarray(after.first[i] as number, after.first[i + 1] as number))
}
