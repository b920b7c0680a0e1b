import type { Network } from './network.ts'
import { type Dates, earlyDates, finishes, lateDates } from './passes.ts'
import { type List, latestPlan, listBy, serialPlan } from './serial.ts'

/** A plan with its worth: the restart first, then the end. */
export interface Plan {
  dates: Dates
  restart: number
  end: number
}

export function planOf(network: Network, dates: Dates): Plan {
  return { dates, ...finishes(network, dates) }
}

/** Differences below half a second are none. */
const SECOND = 0.5

/** Whether a plan is earlier at the restart, or as early there and earlier at the end, by more than half a second. */
export function isBetter(a: Plan, b: Plan): boolean {
  if (Math.abs(a.restart - b.restart) > SECOND) return a.restart < b.restart
  return a.end < b.end - SECOND
}

/**
 * Forward-backward improvement (double justification): by falling finish shift each as late as restart and end allow, then by
 * rising start as early as it goes; again until nothing is gained. It never lengthens.
 *
 * Source: V. Valls, F. Ballestin, S. Quintanilla, EJOR 165 (2005) 375-386 (from memory).
 */
export function justified(network: Network, plan: Plan, rounds: number): { plan: Plan; schedules: number } {
  let best = plan
  let schedules = 0
  if (!Number.isFinite(plan.end)) return { plan, schedules }
  for (let round = 0; round < rounds; round++) {
    const late = latestPlan(network, byFallingFinish(network, best.dates), best.restart, best.end)
    const next = planOf(network, serialPlan(network, byRisingStart(network, late)))
    schedules += 2
    if (!isBetter(next, best)) break
    best = next
  }
  return { plan: best, schedules }
}

/** Activities by rising start; predecessors first where starts are equal. */
export function byRisingStart(network: Network, { start, finish }: Dates): List {
  return sorted(
    network,
    (a, b) => (start[a] as number) - (start[b] as number) || (finish[a] as number) - (finish[b] as number),
  )
}

function byFallingFinish(network: Network, { start, finish }: Dates): List {
  return sorted(
    network,
    (a, b) => (finish[a] as number) - (finish[b] as number) || (start[a] as number) - (start[b] as number),
  ).reverse()
}

function sorted(network: Network, compare: (a: number, b: number) => number): List {
  const rank = new Int32Array(network.ids.length)
  network.order.forEach((i, at) => {
    rank[i] = at
  })
  const wanted = Int32Array.from(network.order).sort(
    (a, b) => compare(a, b) || (rank[a] as number) - (rank[b] as number),
  )
  const place = new Int32Array(wanted.length)
  wanted.forEach((i, at) => {
    place[i] = at
  })
  // links other than finish-to-start may put a successor's dates before its predecessor's
  return listBy(network, place)
}

/** Priority values by the rules that do well: latest finish, and latest start. */
export function priorities(network: Network): readonly Float64Array[] {
  const early = earlyDates(network)
  const { restart, end } = finishes(network, early)
  const late = lateDates(network, restart, end)
  return [late.finish, late.start]
}

/** The quick plan: serial scheme by each rule, improved forward and backward; the best of them. Same in, same out. */
export function quickPlan(network: Network, rounds = 6): Plan {
  return priorities(network)
    .map((rule) => justified(network, planOf(network, serialPlan(network, listBy(network, rule))), rounds).plan)
    .reduce((best, plan) => (isBetter(plan, best) ? plan : best))
}
