import type { Scheduled } from './activity.ts'
import { interferingFloat } from './float.formulas.ts'
import { type HandOver, resourceFlow, withHandOvers } from './flow.ts'
import { type Plan, planOf, priorities, quickPlan } from './improve.ts'
import type { Network } from './network.ts'
import {
  type Dates,
  drivers,
  earlyDates,
  finishes,
  freeFloat,
  independentFloat,
  lateDates,
  longestPath,
  targetOf,
  totalFloat,
} from './passes.ts'
import { listBy, serialPlan } from './serial.ts'

/** The plan of a network with everything that is read off it. */
export interface Planned {
  plan: Plan
  /** Dates of every activity, by id. */
  scheduled: Readonly<Record<string, Scheduled>>
  handOvers: readonly HandOver[]
  /** The network with the hand-overs as links: what simulation walks over. */
  bound: Network
  /** Without resources. */
  unlimited: { restart: number; end: number }
  /** Whether an adopted sequence was followed, or the default rule. */
  adopted: boolean
}

/**
 * The plan as adopted: the serial scheme in the order given, the rest by the default rule. Without one, the quick plan.
 */
export function planned(network: Network, sequence: readonly string[]): Planned {
  const adopted = sequence.length > 0
  const plan = adopted ? planInOrder(network, sequence) : quickPlan(network)
  const handOvers = resourceFlow(network, plan.dates)
  const bound = withHandOvers(network, handOvers)
  const early = earlyDates(network)
  const unlimited = finishes(network, early)
  return { plan, handOvers, bound, unlimited, adopted, scheduled: scheduledOf(network, bound, early, plan, handOvers) }
}

/** The plan of the serial scheme in an order of ids; activities it does not name come after those, by latest finish. */
export function planInOrder(network: Network, sequence: readonly string[]): Plan {
  const place = new Map(sequence.map((id, at) => [id, at]))
  const [latestFinish] = priorities(network) as [Float64Array]
  const greatest = latestFinish.reduce((m, v) => Math.max(m, Math.abs(v)), 1)
  const priority = network.ids.map(
    (id, i) => place.get(id) ?? sequence.length + 1 + (latestFinish[i] as number) / greatest,
  )
  return planOf(network, serialPlan(network, listBy(network, priority)))
}

function scheduledOf(
  network: Network,
  bound: Network,
  early: Dates,
  plan: Plan,
  handOvers: readonly HandOver[],
): Record<string, Scheduled> {
  const free = finishes(network, early)
  const late = lateDates(network, free.restart, free.end)
  const path = longestPath(network, early, targetOf(network, early))
  const planLate = lateDates(bound, plan.restart, plan.end)
  const planPath = longestPath(bound, plan.dates, targetOf(bound, plan.dates))
  const waits = waiting(network, bound, plan.dates, handOvers)
  return Object.fromEntries(
    network.ids.flatMap((id, i): [string, Scheduled][] => {
      // one whose calendar never has the time has no dates
      if (!Number.isFinite(plan.dates.finish[i] as number)) return []
      const wait = waits(i)
      const total = totalFloat(network, i, early.start[i] as number, late.start[i] as number)
      const spare = freeFloat(network, i, early, free.end)
      return [
        [
          id,
          {
            start: plan.dates.start[i] as number,
            finish: plan.dates.finish[i] as number,
            earlyStart: early.start[i] as number,
            earlyFinish: early.finish[i] as number,
            lateStart: late.start[i] as number,
            lateFinish: late.finish[i] as number,
            totalFloat: total,
            freeFloat: spare,
            interferingFloat: interferingFloat.value({ T: total, F: spare }),
            independentFloat: independentFloat(network, i, early, late, free.end),
            critical: path.has(i),
            planFloat: totalFloat(network, i, plan.dates.start[i] as number, planLate.start[i] as number),
            planCritical: planPath.has(i),
            ...(wait === undefined ? {} : { waitsFor: wait }),
          },
        ],
      ]
    }),
  )
}

/** What holds an activity back in the plan: a link where one does, else the hand-over it waits for. */
function waiting(network: Network, bound: Network, dates: Dates, handOvers: readonly HandOver[]) {
  return (i: number): Scheduled['waitsFor'] => {
    const [link] = drivers(network, i, dates)
    if (link !== undefined) return { activity: network.ids[link] as string }
    const [holder] = drivers(bound, i, dates)
    if (holder === undefined) return undefined
    const handed = handOvers.find((h) => h.from === holder && h.to === i)
    const resource = handed === undefined ? undefined : network.resources[handed.resource]
    return { activity: network.ids[holder] as string, ...(resource === undefined ? {} : { resource }) }
  }
}
