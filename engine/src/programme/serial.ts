import { startAt } from './calendar.ts'
import { boundsFrom, earliestStart, finishOf, inOnePiece, type Network } from './network.ts'
import { type Dates, INSTANT, lateBounds, latestStart } from './passes.ts'
import { crowdedFrom, crowdedUntil, emptyProfile, occupy, type Profile } from './profile.ts'
import { setUpBetween } from './setUps.ts'

/** An order in which activities take their times: predecessors before successors. */
export type List = Int32Array

/**
 * The list that takes, of the activities whose predecessors stand in it already, always the one with the least priority
 * value; ties go to the one that stands first in the network.
 */
export function listBy(network: Network, priority: ArrayLike<number>): List {
  const n = network.ids.length
  const { first, other } = network.after
  const waiting = Int32Array.from(
    { length: n },
    (_, i) => (network.before.first[i + 1] as number) - (network.before.first[i] as number),
  )
  const open: number[] = []
  for (let i = 0; i < n; i++) if (waiting[i] === 0) open.push(i)
  const list = new Int32Array(n)
  for (let at = 0; at < n; at++) {
    let best = 0
    for (let k = 1; k < open.length; k++) if (comesFirst(priority, open[k] as number, open[best] as number)) best = k
    const i = open[best] as number
    open[best] = open[open.length - 1] as number
    open.pop()
    list[at] = i
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      const j = other[k] as number
      waiting[j] = (waiting[j] as number) - 1
      if (waiting[j] === 0) open.push(j)
    }
  }
  return list
}

const comesFirst = (priority: ArrayLike<number>, a: number, b: number): boolean => {
  const [pa, pb] = [priority[a] as number, priority[b] as number]
  return pa < pb || (pa === pb && a < b)
}

/**
 * Serial scheme: in the order of the list, each activity at its earliest start that its predecessors, its calendar and what
 * is left of its resources allow. It holds its resources from start to finish, over the breaks between shifts too. A need
 * above the capacity is taken as all of it: the plan stays readable, and the check of that resource fails.
 */
export function serialPlan(network: Network, list: List): Dates {
  const dates = emptyDates(network)
  const held = nothingHeld(network)
  for (const i of list) {
    const bound = boundsFrom(network, i, dates.start, dates.finish)
    let start = earliestStart(network, i, bound.start, bound.finish)
    let finish = finishOf(network, i, start)
    for (;;) {
      const later = conflictEnd(network, held, dates, { i, start, finish })
      if (later === undefined) break
      start = earliestStart(network, i, later, bound.finish)
      finish = finishOf(network, i, start)
    }
    dates.start[i] = start
    dates.finish[i] = finish
    take(network, held, i, start, finish)
  }
  return dates
}

/** Mirror of the serial scheme: each as late as its successors, the restart and the end allow. */
export function latestPlan(network: Network, list: List, restart: number, end: number): Dates {
  const dates = emptyDates(network)
  const held = nothingHeld(network)
  for (const i of list) {
    const bound = lateBounds(network, i, dates)
    let limit = Math.min(bound.finish, end, i === network.restart ? restart : end)
    let { start, finish } = placedBefore(network, i, limit, bound.start)
    for (;;) {
      const earlier = conflictStart(network, held, dates, { i, start, finish })
      if (earlier === undefined) break
      // the last bits of a sum may carry a finish past its limit again: then an instant earlier
      limit = Math.min(earlier, limit - INSTANT)
      ;({ start, finish } = placedBefore(network, i, limit, bound.start))
    }
    dates.start[i] = start
    dates.finish[i] = finish
    take(network, held, i, start, finish)
  }
  return dates
}

/** What the activities placed so far hold of each resource, and, where it is set up between kinds of work, which they are. */
interface Held {
  profiles: Profile[]
  placed: (number[] | undefined)[]
}

const nothingHeld = ({ resources, setUps }: Network): Held => ({
  profiles: resources.map(emptyProfile),
  placed: resources.map((_, r) => (setUps[r] === undefined ? undefined : [])),
})

const NOBODY: readonly number[] = []

/** An activity where it is tried. */
interface Tried {
  i: number
  start: number
  finish: number
}

const emptyDates = (network: Network): Dates => ({
  start: new Float64Array(network.ids.length),
  finish: new Float64Array(network.ids.length),
})

function placedBefore(network: Network, i: number, finishBound: number, startBound: number) {
  const calendar = network.calendar[i] as Network['calendar'][number]
  if ((network.work[i] as number) <= 0) {
    const at = Math.min(finishBound, startBound)
    return { start: at, finish: at }
  }
  const latest = latestStart(network, i, finishBound)
  // the end of a shift is no start: an activity bound to start by then starts with the next shift, the same working instant
  const start = startBound < latest ? startAt(calendar, startBound) : latest
  if (inOnePiece(network, i)) {
    const fits = start > startBound ? latestStart(network, i, startBound + (network.work[i] as number)) : start
    return { start: fits, finish: fits + (network.work[i] as number) }
  }
  return { start, finish: finishOf(network, i, start) }
}

function take(network: Network, { profiles, placed }: Held, i: number, start: number, finish: number): void {
  const { first, resource, amount } = network.needs
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const r = resource[k] as number
    if (finish > start) placed[r]?.push(i)
    occupy(profiles[r] as Profile, start, finish, Math.min(amount[k] as number, network.capacity[r] as number))
  }
}

function conflictEnd(network: Network, { profiles, placed }: Held, dates: Dates, { i, start, finish }: Tried) {
  const { first, resource, amount } = network.needs
  let latest: number | undefined
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const r = resource[k] as number
    const capacity = network.capacity[r] as number
    const room = capacity - Math.min(amount[k] as number, capacity)
    const end = crowdedUntil(profiles[r] as Profile, start, finish, room)
    if (end !== undefined && (latest === undefined || end > latest)) latest = end
    for (const other of placed[r] ?? NOBODY) {
      const gap = apart(network, r, dates, { i, start, finish }, other)
      if (gap !== undefined && (latest === undefined || gap.after > latest)) latest = gap.after
    }
  }
  return latest
}

function conflictStart(network: Network, { profiles, placed }: Held, dates: Dates, { i, start, finish }: Tried) {
  const { first, resource, amount } = network.needs
  let earliest: number | undefined
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const r = resource[k] as number
    const capacity = network.capacity[r] as number
    const room = capacity - Math.min(amount[k] as number, capacity)
    const begin = crowdedFrom(profiles[r] as Profile, start, finish, room)
    if (begin !== undefined && (earliest === undefined || begin < earliest)) earliest = begin
    for (const other of placed[r] ?? NOBODY) {
      const gap = apart(network, r, dates, { i, start, finish }, other)
      if (gap !== undefined && (earliest === undefined || gap.before < earliest)) earliest = gap.before
    }
  }
  return earliest
}

/** Where two that the set-up keeps apart come too near: the latest finish before the other, the earliest start after it. */
function apart(network: Network, r: number, dates: Dates, { i, start, finish }: Tried, other: number) {
  const setUp = network.setUps[r]
  const before = (dates.start[other] as number) - setUpBetween(setUp, i, other)
  const after = (dates.finish[other] as number) + setUpBetween(setUp, other, i)
  return finish > start && finish > before && start < after ? { before, after } : undefined
}
