import { FS, type Links, type Network, offsets, reversed, topological } from './network.ts'
import type { Dates } from './passes.ts'
import { setUpBetween } from './setUps.ts'

/** Units of a resource handed from one activity to the next in a plan. */
export interface HandOver {
  from: number
  to: number
  resource: number
  amount: number
  /** Elapsed seconds of set-up between the two. */
  setUp?: number
}

interface Free {
  /** −1: units that nobody has had yet. */
  activity: number
  amount: number
  at: number
}

/**
 * Who hands which unit to whom in a plan: activities by rising start take units that nobody had, then those of activities
 * that lead to them anyway, then the ones free for longest. As links they keep the plan's order at every resource, and any
 * durations then give a feasible plan.
 *
 * Source: C. Artigues, P. Michelon, S. Reusser, EJOR 149 (2003) 249-267 (from memory).
 */
export function resourceFlow(network: Network, { start, finish }: Dates): HandOver[] {
  const leads = leadsTo(network)
  const pools = Array.from(network.capacity, (amount): Free[] => [
    { activity: -1, amount, at: Number.NEGATIVE_INFINITY },
  ])
  const { first, resource, amount } = network.needs
  const handed: HandOver[] = []
  const last = new Map<number, number>()
  for (const i of risingStart(network, start, finish)) {
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      const r = resource[k] as number
      const pool = pools[r] as Free[]
      const need = Math.min(amount[k] as number, network.capacity[r] as number)
      const taken = takeUnits(pool, need, start[i] as number, (f) =>
        f.activity < 0 ? 0 : leads(f.activity, i) ? 1 : 2,
      )
      for (const { activity, amount: units } of taken) {
        if (activity >= 0) handed.push({ from: activity, to: i, resource: r, amount: units })
      }
      handed.push(...setUpBefore(network, r, i, last))
      pool.push({ activity: i, amount: need, at: finish[i] as number })
    }
  }
  return handed
}

/** The last of another kind on a resource that is set up between kinds, whoever handed it over since. */
function setUpBefore({ setUps }: Network, r: number, i: number, last: Map<number, number>): HandOver[] {
  const setUp = setUps[r]
  if (setUp === undefined || (setUp.kind[i] as number) < 0) return []
  const from = last.get(r)
  last.set(r, i)
  return from === undefined ? [] : [{ from, to: i, resource: r, amount: 0, setUp: setUpBetween(setUp, from, i) }]
}

function takeUnits(pool: Free[], need: number, when: number, rank: (free: Free) => number): Free[] {
  const usable = pool.filter((f) => f.amount > 0 && f.at <= when + 1e-3)
  usable.sort((a, b) => rank(a) - rank(b) || a.at - b.at)
  const taken: Free[] = []
  let left = need
  for (const free of usable) {
    if (left <= 0) break
    const amount = Math.min(left, free.amount)
    taken.push({ ...free, amount })
    free.amount -= amount
    left -= amount
  }
  for (let i = pool.length - 1; i >= 0; i--) if ((pool[i] as Free).amount <= 0) pool.splice(i, 1)
  return taken
}

/** Activities that hold something for some time, by rising start. */
function risingStart(network: Network, start: Float64Array, finish: Float64Array): Int32Array {
  const rank = new Int32Array(network.ids.length)
  network.order.forEach((i, at) => {
    rank[i] = at
  })
  return Int32Array.from(network.order)
    .filter((i) => (finish[i] as number) > (start[i] as number))
    .sort((a, b) => (start[a] as number) - (start[b] as number) || (rank[a] as number) - (rank[b] as number))
}

/** Whether one activity leads to another through finish-to-start links. */
export function leadsTo(network: Network): (from: number, to: number) => boolean {
  const n = network.ids.length
  const words = (n + 31) >> 5
  const ancestors = new Uint32Array(n * words)
  const { first, other, type } = network.before
  for (const i of network.order) {
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      if (type[k] !== FS) continue
      const p = other[k] as number
      for (let w = 0; w < words; w++)
        ancestors[i * words + w] = (ancestors[i * words + w] as number) | (ancestors[p * words + w] as number)
      const at = i * words + (p >> 5)
      ancestors[at] = (ancestors[at] as number) | (1 << (p & 31))
    }
  }
  return (from, to) => (((ancestors[to * words + (from >> 5)] as number) >>> (from & 31)) & 1) === 1
}

/** The network with hand-overs as finish-to-start links. */
export function withHandOvers(network: Network, handed: readonly HandOver[]): Network {
  const n = network.ids.length
  const extra = new Map<number, Map<number, number>>()
  for (const { from, to, setUp = 0 } of handed) {
    const own = extra.get(to) ?? new Map<number, number>()
    extra.set(to, own.set(from, Math.max(setUp, own.get(from) ?? 0)))
  }
  const { before } = network
  const counts = Array.from(
    { length: n },
    (_, i) => (before.first[i + 1] as number) - (before.first[i] as number) + (extra.get(i)?.size ?? 0),
  )
  const first = offsets(counts)
  const links: Links = {
    first,
    other: new Int32Array(first[n] as number),
    type: new Uint8Array(first[n] as number),
    lag: new Float64Array(first[n] as number),
    calendar: [],
  }
  const calendar: (typeof before.calendar)[number][] = []
  for (let i = 0; i < n; i++) {
    let at = first[i] as number
    for (let k = before.first[i] as number; k < (before.first[i + 1] as number); k++, at++) {
      links.other[at] = before.other[k] as number
      links.type[at] = before.type[k] as number
      links.lag[at] = before.lag[k] as number
      calendar[at] = before.calendar[k]
    }
    for (const [from, lag] of extra.get(i) ?? []) {
      links.other[at] = from
      links.lag[at++] = lag
    }
  }
  const all = { ...links, calendar }
  const after = reversed(all)
  return { ...network, before: all, after, order: topological(all, after) }
}
