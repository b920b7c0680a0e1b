import type { Resource } from './model.ts'
import { add, closed, crossing, openReason, raise, type Trail, WRITTEN } from './trail.ts'

/** One resource with what uses it, largest need first, and room for its time table. */
export interface Cumulative {
  capacity: number
  start: Int32Array
  end: Int32Array
  offset: Int32Array
  need: Int32Array
  when: Int32Array
  /** Where each item runs whatever start it gets: from, below to; nowhere when from ≥ to. */
  from: Int32Array
  to: Int32Array
  /** Ends of parts (2j: begin, 2j + 1: end) by time, as last sorted, and those that count now. */
  order: Int32Array
  counted: Int32Array
  time: Int32Array
  /** Stretches of constant use, in order. */
  stretchFrom: Int32Array
  stretchTo: Int32Array
  level: Int32Array
  /** Greatest use anywhere. */
  peak: number
}

export function cumulativeOf({ capacity, items }: Resource): Cumulative {
  const sorted = [...items].sort((a, b) => b.need - a.need)
  const n = sorted.length
  return {
    capacity,
    start: Int32Array.from(sorted, (i) => i.start),
    end: Int32Array.from(sorted, (i) => i.end),
    offset: Int32Array.from(sorted, (i) => i.offset),
    need: Int32Array.from(sorted, (i) => i.need),
    when: Int32Array.from(sorted, (i) => i.when),
    from: new Int32Array(n),
    to: new Int32Array(n),
    order: Int32Array.from({ length: 2 * n }, (_, e) => e),
    counted: new Int32Array(2 * n),
    time: new Int32Array(2 * n),
    stretchFrom: new Int32Array(2 * n + 1),
    stretchTo: new Int32Array(2 * n + 1),
    level: new Int32Array(2 * n + 1),
    peak: 0,
  }
}

/**
 * Time table of a resource: where an item must run whatever its start, it counts. Too many at once is a conflict; an item that
 * no longer fits beside them is pushed on, one instant at a time, each push explained by what runs there.
 *
 * @returns place of a conflict in the explanations, or −1
 *
 * Source: A. Schutt, T. Feydy, P. J. Stuckey, M. G. Wallace, Constraints 16 (2011) 250-282 (abstract read, method from memory).
 */
export function timeTable(t: Trail, c: Cumulative): number {
  const stretches = profileOf(c, sortedEnds(t, c))
  if (c.peak > c.capacity) return overload(t, c, stretches)
  for (let j = 0; j < c.start.length; j++) {
    // largest needs come first: what is left fits beside everything
    if (c.peak + (c.need[j] as number) <= c.capacity) return -1
    const [s, e, when] = [2 * (c.start[j] as number), 2 * (c.end[j] as number), c.when[j] as number]
    if (when >= 0 && (t.bound[2 * when] as number) < 1) {
      if ((t.bound[2 * when + 1] as number) < 0) ruleOut(t, c, j, stretches)
      continue
    }
    if (t.bound[s] === -(t.bound[s + 1] as number) && t.bound[e] === -(t.bound[e + 1] as number)) continue
    let conflict = pushLater(t, c, j, stretches)
    if (conflict < 0) conflict = pushEarlier(t, c, j, stretches)
    if (conflict >= 0) return conflict
  }
  return -1
}

function overload(t: Trail, c: Cumulative, stretches: number): number {
  for (let s = 0; s < stretches; s++) {
    if ((c.level[s] as number) <= c.capacity) continue
    const at = ((c.stretchFrom[s] as number) + (c.stretchTo[s] as number) - 1) >> 1
    openReason(t, 3 * c.start.length)
    cover(t, c, at, at + 1, c.capacity, -1)
    return closed(t)
  }
  throw new Error('a peak above the capacity has no stretch')
}

/** Compulsory parts, and their ends by time: nearly sorted from last time. */
function sortedEnds(t: Trail, c: Cumulative): number {
  const { start, end, offset, when, from, to, order, counted, time } = c
  const { bound } = t
  for (let j = 0; j < start.length; j++) {
    const begin = -(bound[2 * (start[j] as number) + 1] as number)
    const finish = (bound[2 * (end[j] as number)] as number) + (offset[j] as number)
    const off = (when[j] as number) >= 0 && (bound[2 * (when[j] as number)] as number) < 1
    from[j] = begin
    to[j] = off ? begin : finish
    time[2 * j] = begin
    time[2 * j + 1] = finish
  }
  let count = 0
  for (let k = 0; k < order.length; k++) {
    const e = order[k] as number
    if ((from[e >> 1] as number) >= (to[e >> 1] as number)) continue
    const at = time[e] as number
    let p = count++
    while (p > 0 && (time[counted[p - 1] as number] as number) > at) {
      counted[p] = counted[p - 1] as number
      p--
    }
    counted[p] = e
  }
  keepOrder(c, count)
  return count
}

/** What counts keeps its new order, in the places it had. */
function keepOrder({ from, to, order, counted }: Cumulative, count: number): void {
  let next = 0
  for (let k = 0; k < order.length && next < count; k++) {
    const j = (order[k] as number) >> 1
    if ((from[j] as number) < (to[j] as number)) order[k] = counted[next++] as number
  }
}

function profileOf(c: Cumulative, count: number): number {
  const { counted, time, need, stretchFrom, stretchTo, level } = c
  let [stretches, use, peak] = [0, 0, 0]
  for (let k = 0; k < count; ) {
    const at = time[counted[k] as number] as number
    while (k < count && time[counted[k] as number] === at) {
      const e = counted[k++] as number
      use += (e & 1) === 0 ? (need[e >> 1] as number) : -(need[e >> 1] as number)
    }
    if (use <= 0 || k >= count) continue
    stretchFrom[stretches] = at
    stretchTo[stretches] = time[counted[k] as number] as number
    level[stretches++] = use
    if (use > peak) peak = use
  }
  c.peak = peak
  return stretches
}

/** What runs from an instant until another, until its needs pass a sum; each by the bounds that make it run there. */
function cover(t: Trail, c: Cumulative, at: number, until: number, sum: number, except: number): void {
  const { start, end, offset, need, when, from, to } = c
  let taken = 0
  for (let j = 0; j < start.length && taken <= sum; j++) {
    if (j === except || (from[j] as number) > at || until > (to[j] as number)) continue
    taken += need[j] as number
    add(t, 2 * (end[j] as number), until - (offset[j] as number))
    add(t, 2 * (start[j] as number) + 1, -at)
    if ((when[j] as number) >= 0) add(t, 2 * (when[j] as number), 1)
  }
}

/** What a push rests on: a literal of the item itself, its choice, and what runs all the while it would have to run in. */
interface Push {
  view: number
  value: number
  from: number
  until: number
}

function because(t: Trail, c: Cumulative, j: number, { view, value, from, until }: Push): number {
  openReason(t, 3 * c.start.length + 3)
  add(t, view, value)
  if ((c.when[j] as number) >= 0) add(t, 2 * (c.when[j] as number), 1)
  cover(t, c, from, until, c.capacity - (c.need[j] as number), j)
  return closed(t)
}

/** Steps of one duration teach more than one long step, but over a long stretch there would be too many. */
const MOST_STEPS = 8

function pushLater(t: Trail, c: Cumulative, j: number, stretches: number): number {
  const [view, endView, offset] = [2 * (c.start[j] as number), 2 * (c.end[j] as number), c.offset[j] as number]
  const room = c.capacity - (c.need[j] as number)
  for (let s = firstAfter(c, stretches, t.bound[view] as number); s < stretches; s++) {
    if ((c.stretchFrom[s] as number) >= (t.bound[endView] as number) + offset) return -1
    if (beside(c, s, j) <= room) continue
    while ((t.bound[view] as number) < (c.stretchTo[s] as number)) {
      const at = Math.min(c.stretchTo[s] as number, (t.bound[endView] as number) + offset) - 1
      // the end has its own variable and has not followed yet
      if (at < (t.bound[view] as number) || at < (c.stretchFrom[s] as number)) return -1
      const long = (c.stretchTo[s] as number) - at > MOST_STEPS * (at + 1 - (t.bound[view] as number))
      const until = long ? (c.stretchTo[s] as number) : at + 1
      const place = because(t, c, j, { view: endView, value: at + 1 - offset, from: at, until })
      if (!raise(t, view, until, WRITTEN, place)) return crossing(t, view)
    }
  }
  return -1
}

function pushEarlier(t: Trail, c: Cumulative, j: number, stretches: number): number {
  const [view, endView, offset] = [2 * (c.start[j] as number) + 1, 2 * (c.end[j] as number) + 1, c.offset[j] as number]
  const room = c.capacity - (c.need[j] as number)
  for (let s = lastBefore(c, stretches, -(t.bound[endView] as number) + offset); s >= 0; s--) {
    if ((c.stretchFrom[s] as number) >= -(t.bound[endView] as number) + offset) continue
    if ((c.stretchTo[s] as number) <= -(t.bound[view] as number)) return -1
    if (beside(c, s, j) <= room) continue
    while (-(t.bound[endView] as number) + offset > (c.stretchFrom[s] as number)) {
      const at = Math.max(c.stretchFrom[s] as number, -(t.bound[view] as number))
      if (at >= -(t.bound[endView] as number) + offset || at >= (c.stretchTo[s] as number)) return -1
      const length = -(t.bound[endView] as number) + offset - at
      const long = at - (c.stretchFrom[s] as number) > MOST_STEPS * length
      const from = long ? (c.stretchFrom[s] as number) : at
      const place = because(t, c, j, { view, value: -at, from, until: at + 1 })
      if (!raise(t, endView, offset - from, WRITTEN, place)) return crossing(t, endView)
    }
  }
  return -1
}

/** A choice that is still open goes where its item would have to run and does not fit. */
function ruleOut(t: Trail, c: Cumulative, j: number, stretches: number): void {
  const [s, e, offset] = [c.start[j] as number, c.end[j] as number, c.offset[j] as number]
  const [from, to] = [-(t.bound[2 * s + 1] as number), (t.bound[2 * e] as number) + offset]
  for (let k = 0; k < stretches; k++) {
    const at = Math.max(from, c.stretchFrom[k] as number)
    if (at >= Math.min(to, c.stretchTo[k] as number)) continue
    if ((c.level[k] as number) + (c.need[j] as number) <= c.capacity) continue
    openReason(t, 3 * c.start.length + 3)
    add(t, 2 * e, at + 1 - offset)
    add(t, 2 * s + 1, -at)
    cover(t, c, at, at + 1, c.capacity - (c.need[j] as number), j)
    raise(t, 2 * (c.when[j] as number) + 1, 0, WRITTEN, closed(t))
    return
  }
}

/** First stretch that ends after a time, by halving. */
function firstAfter({ stretchTo }: Cumulative, stretches: number, time: number): number {
  let [low, high] = [0, stretches]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((stretchTo[middle] as number) <= time) low = middle + 1
    else high = middle
  }
  return low
}

/** Last stretch that begins before a time, by halving. */
function lastBefore({ stretchFrom }: Cumulative, stretches: number, time: number): number {
  let [low, high] = [0, stretches]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((stretchFrom[middle] as number) < time) low = middle + 1
    else high = middle
  }
  return low - 1
}

/** Use of the others in a stretch: every part begins and ends with a stretch. */
const beside = ({ stretchFrom, stretchTo, level, need, from, to }: Cumulative, s: number, j: number): number =>
  (from[j] as number) <= (stretchFrom[s] as number) && (stretchTo[s] as number) <= (to[j] as number)
    ? (level[s] as number) - (need[j] as number)
    : (level[s] as number)
