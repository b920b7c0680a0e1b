import { CLAUSE, isFalse, isTrue, raise, type Trail, wider } from './trail.ts'

/** Of its literals one at least is true. Pairs (view, value); the first two are watched. */
export interface Clause {
  literals: Int32Array
  /** Levels it spanned when it was learnt: the fewer the more it is worth. 0: given, never dropped. */
  spread: number
  activity: number
}

export interface Clauses {
  all: Clause[]
  /** Places of dropped clauses, to be used again. */
  free: number[]
  learnt: number
  /**
   * By view and by the bound from which the watched literal there is false, in so many ranges of a view; four by four: a clause,
   * that bound, and a literal that satisfies the clause if true. A bound that rises a little looks at the ranges it passes through.
   */
  watching: Int32Array[]
  watchers: Int32Array
  ranges: number
  /** By view: least bound, and width of a range as a power of two. */
  least: Int32Array
  width: Uint8Array
}

const [MOST_RANGES, MOST_LISTS] = [64, 1 << 16]

/** @param bound of each view at the root */
export function clausesOf(bound: Int32Array): Clauses {
  const views = bound.length
  const ranges = Math.max(1, Math.min(MOST_RANGES, Math.floor(MOST_LISTS / views)))
  const width = Uint8Array.from(bound, (least, view) => {
    const span = Math.max(1, -(bound[view ^ 1] as number) - least + 1)
    return Math.ceil(Math.log2(Math.max(1, span / ranges)))
  })
  return {
    all: [],
    free: [],
    learnt: 0,
    watching: new Array(views * ranges).fill(NONE_YET),
    watchers: new Int32Array(views * ranges),
    ranges,
    least: bound.slice(),
    width,
  }
}

const NONE_YET = new Int32Array(0)

/** The list of a view for literals that are false from a bound on. */
function listFor({ ranges, least, width }: Clauses, view: number, from: number): number {
  const range = (from - (least[view] as number)) >> (width[view] as number)
  return view * ranges + Math.max(0, Math.min(ranges - 1, range))
}

/** Adds a clause of two literals or more. */
export function addClause(c: Clauses, literals: Int32Array, spread: number): number {
  const at = c.free.pop() ?? c.all.length
  c.all[at] = { literals, spread, activity: 0 }
  if (spread > 0) c.learnt++
  watch(c, at, literals, 0)
  watch(c, at, literals, 2)
  return at
}

const [WIDTH, FIRST_ROOM] = [4, 16]

/** A literal (view, v) is false once its negation holds: the opposite view at 1 − v or more. The other watched one is kept beside it. */
function watch(c: Clauses, clause: number, literals: Int32Array, which: 0 | 2): void {
  const from = 1 - (literals[which + 1] as number)
  const at = listFor(c, (literals[which] as number) ^ 1, from)
  const count = c.watchers[at] as number
  let list = c.watching[at] as Int32Array
  if (count + WIDTH > list.length) {
    list = wider(list, Math.max(FIRST_ROOM, 2 * list.length))
    c.watching[at] = list
  }
  list[count] = clause
  list[count + 1] = from
  list[count + 2] = literals[2 - which] as number
  list[count + 3] = literals[3 - which] as number
  c.watchers[at] = count + WIDTH
}

/**
 * Looks at the clauses that watch a view whose bound rose: those of which a literal has become false since the bound before.
 *
 * @returns the clause all of whose literals are false, or −1
 */
export function watched(c: Clauses, t: Trail, view: number, before: number): number {
  const last = listFor(c, view, t.bound[view] as number)
  for (let at = listFor(c, view, before + 1); at <= last; at++) {
    if (c.watchers[at] === 0) continue
    const broken = watchedIn(c, t, view, before, at)
    if (broken >= 0) return broken
  }
  return -1
}

function watchedIn(c: Clauses, t: Trail, view: number, before: number, at: number): number {
  const list = c.watching[at] as Int32Array
  const { bound } = t
  const now = bound[view] as number
  const stop = c.watchers[at] as number
  let kept = 0
  for (let k = 0; k < stop; k += WIDTH) {
    const from = list[k + 1] as number
    if (from > before && now >= from && (bound[list[k + 2] as number] as number) < (list[k + 3] as number)) {
      const id = list[k] as number
      const state = settle(c, t, view, id, (c.all[id] as Clause).literals)
      if (state === MOVED) continue
      if (state === BROKEN) {
        list.copyWithin(kept, k, stop)
        c.watchers[at] = kept + stop - k
        return id
      }
    }
    if (kept !== k) shift(list, k, kept)
    kept += WIDTH
  }
  c.watchers[at] = kept
  return -1
}

function shift(list: Int32Array, from: number, to: number): void {
  list[to] = list[from] as number
  list[to + 1] = list[from + 1] as number
  list[to + 2] = list[from + 2] as number
  list[to + 3] = list[from + 3] as number
}

const KEPT = 0
const MOVED = 1
const BROKEN = 2

function settle(c: Clauses, t: Trail, view: number, id: number, literals: Int32Array): number {
  // of a clause no two literals stand on one view; the watched one on this view is put second
  if (((literals[0] as number) ^ 1) === view) swap(literals, 0, 2)
  const other = literals[0] as number
  const otherValue = literals[1] as number
  if (isTrue(t, other, otherValue)) return KEPT
  for (let i = 4; i < literals.length; i += 2) {
    if (isFalse(t, literals[i] as number, literals[i + 1] as number)) continue
    swap(literals, 2, i)
    watch(c, id, literals, 2)
    return MOVED
  }
  if (isFalse(t, other, otherValue)) return BROKEN
  raise(t, other, otherValue, CLAUSE, id)
  return KEPT
}

function swap(literals: Int32Array, i: number, j: number): void {
  const view = literals[i] as number
  const value = literals[i + 1] as number
  literals[i] = literals[j] as number
  literals[i + 1] = literals[j + 1] as number
  literals[j] = view
  literals[j + 1] = value
}

/**
 * Drops the lesser half of what was learnt, save those that force something now, and clauses of small spread while these are no
 * more than a number.
 */
export function forget(c: Clauses, t: Trail, most: number): void {
  const kept = new Set(c.free)
  for (let at = 0; at < t.length; at++) if (t.kind[at] === CLAUSE) kept.add(t.place[at] as number)
  const small = c.all.reduce((n, { spread }) => n + (spread === 1 || spread === 2 ? 1 : 0), 0)
  const least = small > most ? 0 : 2
  const candidates: number[] = []
  c.all.forEach(({ spread }, id) => {
    if (spread > least && !kept.has(id)) candidates.push(id)
  })
  candidates.sort((a, b) => {
    const [x, y] = [c.all[a] as Clause, c.all[b] as Clause]
    return y.spread - x.spread || x.activity - y.activity || a - b
  })
  const dropped = candidates.slice(0, candidates.length >> 1)
  drop(c, new Set(dropped))
  for (const clause of c.all) clause.activity /= 2
}

function drop(c: Clauses, dropped: ReadonlySet<number>): void {
  for (let at = 0; at < c.watching.length; at++) {
    const list = c.watching[at] as Int32Array
    const stop = c.watchers[at] as number
    let kept = 0
    for (let k = 0; k < stop; k += WIDTH) {
      if (dropped.has(list[k] as number)) continue
      shift(list, k, kept)
      kept += WIDTH
    }
    c.watchers[at] = kept
  }
  for (const id of dropped) {
    c.all[id] = NOTHING
    c.free.push(id)
  }
  c.learnt -= dropped.size
}

const NOTHING: Clause = { literals: new Int32Array(0), spread: 0, activity: 0 }
