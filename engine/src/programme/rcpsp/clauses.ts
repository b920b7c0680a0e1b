import { CLAUSE, isFalse, isTrue, raise, type Trail } from './trail.ts'

/** Something learnt: of its literals one at least is true. Pairs (view, value); the first two are watched. */
export interface Clause {
  literals: Int32Array
  /** Levels it spanned when it was learnt: the fewer the more it is worth. */
  spread: number
  activity: number
  dropped: boolean
}

export interface Clauses {
  all: Clause[]
  /** By view: pairs of a clause and the bound from which its watched literal there is false. */
  watching: number[][]
}

export const clausesOf = (views: number): Clauses => ({ all: [], watching: Array.from({ length: views }, () => []) })

export function addClause(c: Clauses, literals: Int32Array, spread: number): number {
  const at = c.all.push({ literals, spread, activity: 0, dropped: false }) - 1
  if (literals.length >= 4) for (const i of [0, 2]) watch(c, at, literals[i] as number, literals[i + 1] as number)
  return at
}

/** A literal (view, v) is false once its negation holds: the opposite view at 1 − v or more. */
function watch(c: Clauses, clause: number, view: number, value: number): void {
  ;(c.watching[view ^ 1] as number[]).push(clause, 1 - value)
}

/**
 * Looks at the clauses that watch a view whose bound rose.
 *
 * @returns the clause all of whose literals are false, or −1
 */
export function watched(c: Clauses, t: Trail, view: number): number {
  const list = c.watching[view] as number[]
  const bound = t.bound[view] as number
  let [kept, broken] = [0, -1]
  for (let k = 0; k < list.length; k += 2) {
    const [id, from] = [list[k] as number, list[k + 1] as number]
    if (broken < 0 && bound >= from) {
      const clause = c.all[id] as Clause
      if (clause.dropped) continue
      const state = settle(c, t, view, id, clause.literals)
      if (state === MOVED) continue
      if (state === BROKEN) broken = id
    }
    list[kept++] = id
    list[kept++] = from
  }
  list.length = kept
  return broken
}

const KEPT = 0
const MOVED = 1
const BROKEN = 2

function settle(c: Clauses, t: Trail, view: number, id: number, literals: Int32Array): number {
  // of a clause no two literals stand on one view; the watched one on this view is put second
  if (((literals[0] as number) ^ 1) === view) swap(literals, 0, 2)
  const [other, otherValue] = [literals[0] as number, literals[1] as number]
  if (isTrue(t, other, otherValue)) return KEPT
  for (let i = 4; i < literals.length; i += 2) {
    if (isFalse(t, literals[i] as number, literals[i + 1] as number)) continue
    swap(literals, 2, i)
    watch(c, id, literals[2] as number, literals[3] as number)
    return MOVED
  }
  if (isFalse(t, other, otherValue)) return BROKEN
  raise(t, other, otherValue, CLAUSE, id)
  return KEPT
}

function swap(literals: Int32Array, i: number, j: number): void {
  const [view, value] = [literals[i] as number, literals[i + 1] as number]
  literals[i] = literals[j] as number
  literals[i + 1] = literals[j + 1] as number
  literals[j] = view
  literals[j + 1] = value
}

/** Drops the lesser half of what was learnt, save short clauses and those that force something now. */
export function forget(c: Clauses, t: Trail): void {
  const locked = new Set<number>()
  for (let at = 0; at < t.length; at++) if (t.kind[at] === CLAUSE) locked.add(t.place[at] as number)
  const candidates = c.all.flatMap((clause, id) => (clause.dropped || clause.spread <= 2 || locked.has(id) ? [] : [id]))
  candidates.sort((a, b) => {
    const [x, y] = [c.all[a] as Clause, c.all[b] as Clause]
    return y.spread - x.spread || x.activity - y.activity
  })
  for (const id of candidates.slice(0, candidates.length >> 1)) {
    const clause = c.all[id] as Clause
    clause.dropped = true
    clause.literals = NOTHING
  }
}

const NOTHING = new Int32Array(0)
