import type { Shares } from './model.ts'
import { add, closed, openReason, type Trail } from './trail.ts'

/** Shares, with room for what is worked out of them. */
export interface Energy {
  whole: number
  start: Int32Array
  duration: Int32Array
  share: Int32Array
  /** By item: earliest start and latest end. */
  from: Int32Array
  until: Int32Array
  /** Of the items whose latest start comes before their earliest end: those two, and the share. */
  coreFrom: Int32Array
  coreUntil: Int32Array
  coreShare: Int32Array
  cores: number
  /** Share times what runs of these before the earliest start at a place of that line; −1: not worked out yet. */
  before: Int32Array
  /** Items by earliest start, latest first; by latest end, earliest first: nearly sorted from last time. */
  byFrom: Int32Array
  byUntil: Int32Array
  /** In the first of these orders: earliest start, latest end, and share times what runs at no fixed time. */
  lineFrom: Int32Array
  lineUntil: Int32Array
  lineFree: Int32Array
}

export function energyOf({ whole, items }: Shares): Energy {
  return {
    whole,
    start: Int32Array.from(items, ({ start }) => start),
    duration: Int32Array.from(items, ({ duration }) => duration),
    share: Int32Array.from(items, ({ share }) => share),
    from: new Int32Array(items.length),
    until: new Int32Array(items.length),
    coreFrom: new Int32Array(items.length),
    coreUntil: new Int32Array(items.length),
    coreShare: new Int32Array(items.length),
    cores: 0,
    before: new Int32Array(items.length),
    byFrom: Int32Array.from(items.keys()),
    byUntil: Int32Array.from(items.keys()),
    lineFrom: new Int32Array(items.length),
    lineUntil: new Int32Array(items.length),
    lineFree: new Int32Array(items.length),
  }
}

/**
 * Whether some span must hold more than the whole times its length: of the jobs that lie in it all their time, of the others what runs from
 * latest start to earliest end.
 *
 * Source: P. Vilím, CPAIOR 2011, LNCS 6697, 230-245 (time-table edge finding, here the check alone; from memory).
 *
 * @returns place of a conflict in the explanations, or −1
 */
export function overfull(t: Trail, e: Energy): number {
  read(t, e)
  const { until, byUntil, lineFrom, lineUntil, lineFree, whole } = e
  const n = until.length
  for (let k = n - 1; k >= 0; k--) {
    const to = until[byUntil[k] as number] as number
    if (k + 1 < n && until[byUntil[k + 1] as number] === to) continue
    const cores = coresBefore(e, to)
    let free = 0
    for (let i = 0; i < n; i++) {
      if ((lineUntil[i] as number) > to) continue
      free += lineFree[i] as number
      const begin = lineFrom[i] as number
      const room = whole * (to - begin) - free
      if (room < cores && room < cores - coresBeforeItem(e, i)) return because(t, e, begin, to)
    }
  }
  return -1
}

function read(t: Trail, e: Energy): void {
  const { start, duration, share, from, until, coreFrom, coreUntil, coreShare, byFrom, byUntil } = e
  let cores = 0
  for (let j = 0; j < start.length; j++) {
    const view = 2 * (start[j] as number)
    const first = t.bound[view] as number
    const last = -(t.bound[view + 1] as number)
    const d = duration[j] as number
    from[j] = first
    until[j] = last + d
    if (last >= first + d) continue
    coreFrom[cores] = last
    coreUntil[cores] = first + d
    coreShare[cores++] = share[j] as number
  }
  e.cores = cores
  e.before.fill(-1)
  sort(byFrom, from, -1)
  sort(byUntil, until, 1)
  for (let i = 0; i < byFrom.length; i++) {
    const j = byFrom[i] as number
    e.lineFrom[i] = from[j] as number
    e.lineUntil[i] = until[j] as number
    e.lineFree[i] = freeOf(e, j)
  }
}

/** By insertion, since little has moved. */
function sort(order: Int32Array, key: Int32Array, sign: 1 | -1): void {
  for (let k = 1; k < order.length; k++) {
    const j = order[k] as number
    const at = sign * (key[j] as number)
    let p = k
    while (p > 0 && sign * (key[order[p - 1] as number] as number) > at) {
      order[p] = order[p - 1] as number
      p--
    }
    order[p] = j
  }
}

/** Share times the time that does not run from latest start to earliest end. */
const freeOf = ({ share, duration, from, until }: Energy, j: number): number =>
  (share[j] as number) *
  Math.min(duration[j] as number, (until[j] as number) - (from[j] as number) - (duration[j] as number))

/** Share times what runs before an instant between latest start and earliest end, of all. */
function coresBefore({ coreFrom, coreUntil, coreShare, cores }: Energy, at: number): number {
  let sum = 0
  for (let k = 0; k < cores; k++) {
    const length = Math.min(coreUntil[k] as number, at) - (coreFrom[k] as number)
    if (length > 0) sum += (coreShare[k] as number) * length
  }
  return sum
}

function coresBeforeItem(e: Energy, i: number): number {
  const known = e.before[i] as number
  if (known >= 0) return known
  const sum = coresBefore(e, e.lineFrom[i] as number)
  e.before[i] = sum
  return sum
}

/** The least of a job that runs in a span, wherever it goes between its earliest start and latest end. */
export function leastIn(duration: number, from: number, until: number, begin: number, to: number): number {
  const [late, early] = [from + duration - begin, to - until + duration]
  return Math.max(0, Math.min(duration, to - begin, late, early))
}

const partIn = ({ duration, from, until }: Energy, j: number, begin: number, to: number): number =>
  leastIn(duration[j] as number, from[j] as number, until[j] as number, begin, to)

const energyIn = (e: Energy, begin: number, to: number): number =>
  e.share.reduce((sum, share, j) => sum + share * partIn(e, j, begin, to), 0)

/** Each by the bounds that hold so much of it in the span; what is more than enough is given away, the last items first. */
function because(t: Trail, e: Energy, begin: number, to: number): number {
  const { start, duration, share, whole } = e
  openReason(t, 2 * start.length)
  let spare = energyIn(e, begin, to) - whole * (to - begin) - 1
  for (let j = start.length - 1; j >= 0; j--) {
    let part = partIn(e, j, begin, to)
    const away = Math.min(part, Math.floor(spare / (share[j] as number)))
    part -= away
    spare -= away * (share[j] as number)
    if (part === 0) continue
    const view = 2 * (start[j] as number)
    add(t, view, begin - (duration[j] as number) + part)
    add(t, view + 1, part - to)
  }
  return closed(t)
}

/** A span, how full it must be, and the least of each item in it. */
export interface Span {
  begin: number
  to: number
  /** Of the whole times its length. */
  fullness: number
}

/** Shorter spans say little of what is to come. */
const LEAST_SPAN = 10

/** The fullest span from an earliest start to a latest end. */
export function fullest(t: Trail, e: Energy): Span {
  read(t, e)
  let best: Span = { begin: 0, to: 0, fullness: 0 }
  for (const begin of new Set(e.from)) {
    for (const to of new Set(e.until)) {
      if (to - begin < LEAST_SPAN) continue
      const fullness = energyIn(e, begin, to) / (e.whole * (to - begin))
      if (fullness > best.fullness) best = { begin, to, fullness }
    }
  }
  return best
}

export function fullnessOf(t: Trail, e: Energy, { begin, to }: Span): number {
  read(t, e)
  return energyIn(e, begin, to) / (e.whole * (to - begin))
}
