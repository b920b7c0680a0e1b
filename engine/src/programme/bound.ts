import { type Calendar, unionOf, workAt } from './calendar.ts'
import type { Network } from './network.ts'
import { type Dates, earlyDates, finishes, INSTANT, lateDates } from './passes.ts'

/** No plan is earlier than this, and why. */
export interface Bound {
  value: number
  /** The longest path; or a resource that has more to do in a span than it can. */
  kind: 'path' | 'resource'
  resource?: string
  /** How many there are of it. */
  units?: number
  from?: number
  to?: number
  /** Unit-seconds of working time needed in the span, and there. */
  needed?: number
  there?: number
  /** Activities that would lie whole in the span, and what each needs: `evidence.ts` checks them one by one. */
  work?: readonly { activity: string; needed: number }[]
}

interface Overload {
  resource: number
  from: number
  to: number
  needed: number
  there: number
  work: readonly { i: number; needed: number }[]
}

/**
 * Lower bound on the restart, by trial: suppose it is done by a time, count the latest dates back from there, and add up what
 * each resource must do between the earliest start and the latest finish of any set of activities. More than there is: no
 * plan is so early. The longest path is the first trial.
 *
 * @param best restart of the best plan known; trials end there
 * @param precision s
 */
export function lowerBound(network: Network, best: number, precision: number): Bound {
  const early = earlyDates(network)
  const path = finishes(network, early).restart
  const users = usersOf(network, early)
  let low: Bound = { value: path, kind: 'path' }
  let high = best
  while (high - low.value > precision) {
    const trial = (low.value + high) / 2
    const overload = overloadBy(network, users, trial)
    if (overload === undefined) high = trial
    else low = { ...named(network, overload), value: trial, kind: 'resource' }
  }
  return low
}

const named = (network: Network, { resource, work, ...rest }: Overload): Omit<Bound, 'value' | 'kind'> => ({
  ...rest,
  resource: network.resources[resource] as string,
  units: network.capacity[resource] as number,
  work: work.map(({ i, needed }) => ({ activity: network.ids[i] as string, needed })),
})

interface Users {
  resource: number
  capacity: number
  /** Times at which any of its users may work. */
  calendar: Calendar
  /** With their earliest start, and the work that could be done before it. */
  activities: readonly { i: number; energy: number; from: number; done: number }[]
  /** Distinct earliest starts, latest first. */
  starts: readonly { from: number; done: number }[]
}

/** For each resource, the activities that lead to the restart, all of them where there is none, and need it. */
function usersOf(network: Network, early: Dates): Users[] {
  const leading = network.restart < 0 ? network.ids.keys() : ancestorsOf(network, network.restart)
  const users = network.resources.map((): { i: number; energy: number }[] => [])
  for (const i of leading) {
    for (let k = network.needs.first[i] as number; k < (network.needs.first[i + 1] as number); k++) {
      const r = network.needs.resource[k] as number
      const amount = Math.min(network.needs.amount[k] as number, network.capacity[r] as number)
      if ((network.work[i] as number) > 0 && amount > 0)
        users[r]?.push({ i, energy: amount * (network.work[i] as number) })
    }
  }
  const unions = new Map<string, Calendar>()
  return users.flatMap((activities, resource) => {
    if (activities.length < 2) return []
    const calendars = [...new Set(activities.map(({ i }) => network.calendar[i] as Calendar))]
    const key = calendars.map((c) => c.id).join(' ')
    const calendar = unions.get(key) ?? unionOf(calendars)
    unions.set(key, calendar)
    const timed = activities.map(({ i, energy }) => {
      const from = early.start[i] as number
      return { i, energy, from, done: workAt(calendar, from) }
    })
    const starts = [...new Map(timed.map(({ from, done }) => [from, { from, done }])).values()]
    starts.sort((a, b) => b.from - a.from)
    return [{ resource, capacity: network.capacity[resource] as number, calendar, activities: timed, starts }]
  })
}

/** A target and everything that leads to it. */
export function ancestorsOf(network: Network, target: number): Set<number> {
  const found = new Set([target])
  const open = [target]
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    for (let k = network.before.first[i] as number; k < (network.before.first[i + 1] as number); k++) {
      const p = network.before.other[k] as number
      if (!found.has(p)) {
        found.add(p)
        open.push(p)
      }
    }
  }
  return found
}

function overloadBy(network: Network, users: readonly Users[], restart: number): Overload | undefined {
  const late = lateDates(network, restart, network.restart < 0 ? restart : Number.MAX_SAFE_INTEGER)
  for (const user of users) {
    const found = overloadOf(user, late)
    if (found !== undefined) return found
  }
  return undefined
}

/** Most work over what is there, over all spans from an earliest start to a latest finish. */
function overloadOf({ resource, capacity, calendar, activities, starts }: Users, late: Dates): Overload | undefined {
  const jobs = activities
    .map(({ i, energy, from }) => ({ i, energy, from, to: late.finish[i] as number }))
    .sort((a, b) => a.to - b.to)
  const reached = Float64Array.from(jobs, ({ to }) => workAt(calendar, to))
  for (const { from, done } of starts) {
    let needed = 0
    for (let j = 0; j < jobs.length; j++) {
      const job = jobs[j] as (typeof jobs)[number]
      if (job.from < from) continue
      needed += job.energy
      const there = capacity * ((reached[j] as number) - done)
      if (needed > there + INSTANT) {
        const inside = jobs.slice(0, j + 1).filter((k) => k.from >= from)
        const work = inside.map((k) => ({ i: k.i, needed: k.energy }))
        return { resource, from, to: job.to, needed, there, work }
      }
    }
  }
  return undefined
}
