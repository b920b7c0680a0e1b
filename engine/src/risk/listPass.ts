import { boundsFrom, earliestStart, type Network } from '../programme/index.ts'
import type { GoAhead, WindOnLifts } from './goAhead.ts'
import { place, type RunDates } from './pass.ts'

/** What the runs by list share: who comes first, and room to work in. */
export interface ListPolicy {
  /** Rank of each activity: by its start in the plan. */
  rank: Int32Array
  /** Users of each resource in the plan's order, and how many of them have begun in a row. */
  users: readonly Int32Array[]
  turn: Int32Array
  begun: Uint8Array
  waiting: Int32Array
  free: Float64Array
  queue: Queue
}

export function listPolicy(network: Network, plannedStart: ArrayLike<number>): ListPolicy {
  const n = network.ids.length
  const inOrder = Array.from({ length: n }, (_, i) => i).sort(
    (a, b) => (plannedStart[a] as number) - (plannedStart[b] as number) || a - b,
  )
  const rank = new Int32Array(n)
  inOrder.forEach((i, at) => {
    rank[i] = at
  })
  return {
    rank,
    users: usersOf(network, inOrder),
    turn: new Int32Array(network.resources.length),
    begun: new Uint8Array(n),
    waiting: new Int32Array(n),
    free: new Float64Array(network.resources.length),
    queue: emptyQueue(),
  }
}

function usersOf({ needs, resources }: Network, inOrder: readonly number[]): Int32Array[] {
  const users = resources.map((): number[] => [])
  for (const i of inOrder) {
    for (let k = needs.first[i] as number; k < (needs.first[i + 1] as number); k++)
      users[needs.resource[k] as number]?.push(i)
  }
  return users.map((of) => Int32Array.from(of))
}

/**
 * One run as a site works that decides anew whenever something ends: of all that could begin, first what the plan begins
 * first, if its crews and plant are free. Out of turn it begins only where what is next in line for each thing it needs would
 * still find enough: else a small job taken early would hold up the large one that the plan had put first. The site knows
 * what has ended and nothing more. A lift that waits for wind holds what it needs.
 *
 * Source: parallel scheme, R. Kolisch, EJOR 90 (1996) 320-333, from memory, on durations of the run.
 */
export function runByList(
  network: Network,
  delay: Float64Array,
  wind: WindOnLifts | undefined,
  policy: ListPolicy,
  dates: RunDates,
): void {
  const { before, after } = network
  const { rank, begun, waiting, free, queue } = policy
  const go: GoAhead = { begin: 0, held: 0, falseStarts: 0 }
  const ready: number[] = []
  free.set(network.capacity)
  policy.turn.fill(0)
  begun.fill(0)
  dates.falseStarts = 0
  for (let i = 0; i < waiting.length; i++) {
    waiting[i] = (before.first[i + 1] as number) - (before.first[i] as number)
    if (waiting[i] === 0) push(queue, earliest(network, i, dates, Number.NEGATIVE_INFINITY), i)
  }
  while (queue.times.length > 0) {
    const now = queue.times[0] as number
    while (queue.times.length > 0 && (queue.times[0] as number) <= now) {
      const what = pop(queue)
      if (what < 0) give(network, -what - 1, free, 1)
      else ready.push(what)
    }
    ready.sort((a, b) => (rank[a] as number) - (rank[b] as number))
    let kept = 0
    for (let k = 0; k < ready.length; k++) {
      const i = ready[k] as number
      if (!mayBegin(network, i, policy)) {
        ready[kept++] = i
        continue
      }
      const begin = earliest(network, i, dates, now)
      // where its shift is over it keeps what it needs overnight, or a later one would take it before the morning
      give(network, i, free, -1)
      begun[i] = 1
      place(network, i, begin, wind, go, dates)
      dates.finish[i] = (dates.finish[i] as number) + (delay[i] as number)
      push(queue, dates.finish[i] as number, -i - 1)
      for (let a = after.first[i] as number; a < (after.first[i + 1] as number); a++) {
        const j = after.other[a] as number
        waiting[j] = (waiting[j] as number) - 1
        if (waiting[j] === 0) push(queue, Math.max(now, earliest(network, j, dates, Number.NEGATIVE_INFINITY)), j)
      }
    }
    ready.length = kept
  }
}

function earliest(network: Network, i: number, { start, finish }: RunDates, now: number): number {
  const bound = boundsFrom(network, i, start, finish)
  return earliestStart(network, i, Math.max(now, bound.start), bound.finish)
}

/** A need above the capacity is taken as all of it, as the plan does. */
function needOf({ needs, capacity }: Network, k: number): number {
  return Math.min(needs.amount[k] as number, capacity[needs.resource[k] as number] as number)
}

function mayBegin(network: Network, i: number, { users, turn, begun, free }: ListPolicy): boolean {
  const { first, resource } = network.needs
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const r = resource[k] as number
    const line = users[r] as Int32Array
    while ((turn[r] as number) < line.length && begun[line[turn[r] as number] as number] === 1)
      turn[r] = (turn[r] as number) + 1
    const next = line[turn[r] as number] as number
    const due = next === i ? 0 : needFor(network, next, r)
    if (needOf(network, k) + due > (free[r] as number)) return false
  }
  return true
}

function needFor(network: Network, i: number, r: number): number {
  const { first, resource } = network.needs
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) if (resource[k] === r) return needOf(network, k)
  return 0
}

function give(network: Network, i: number, free: Float64Array, sign: 1 | -1): void {
  const { first, resource } = network.needs
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const r = resource[k] as number
    free[r] = (free[r] as number) + sign * needOf(network, k)
  }
}

/** A heap of instants: what may begin (its number) or ends (minus its number, less one). Ends come before beginnings. */
interface Queue {
  times: number[]
  what: number[]
}

const emptyQueue = (): Queue => ({ times: [], what: [] })

const sooner = ({ times, what }: Queue, a: number, b: number): boolean =>
  (times[a] as number) < (times[b] as number) || (times[a] === times[b] && (what[a] as number) < (what[b] as number))

function swap({ times, what }: Queue, a: number, b: number): void {
  const [t, w] = [times[a] as number, what[a] as number]
  times[a] = times[b] as number
  what[a] = what[b] as number
  times[b] = t
  what[b] = w
}

function push(queue: Queue, time: number, what: number): void {
  if (!Number.isFinite(time)) return
  let at = queue.times.push(time) - 1
  queue.what.push(what)
  while (at > 0) {
    const up = (at - 1) >> 1
    if (!sooner(queue, at, up)) break
    swap(queue, at, up)
    at = up
  }
}

function pop(queue: Queue): number {
  const last = queue.times.length - 1
  swap(queue, 0, last)
  const what = queue.what.pop() as number
  queue.times.pop()
  for (let at = 0; ; ) {
    let down = 2 * at + 1
    if (down >= last) break
    if (down + 1 < last && sooner(queue, down + 1, down)) down++
    if (!sooner(queue, down, at)) break
    swap(queue, at, down)
    at = down
  }
  return what
}
