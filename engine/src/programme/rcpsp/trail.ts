/**
 * Bounds of whole numbers with their history and reasons: the ground of a solver that learns from conflicts.
 *
 * Each variable i has two views: 2i is the number itself, 2i + 1 its negative. A literal (view, v) says that the view is at
 * least v; its negation is (view ^ 1, 1 − v). So one kind of bound serves for both ends.
 */
export interface Trail {
  bound: Int32Array
  /** Last entry of each view; −1 at the root. */
  last: Int32Array
  view: Int32Array
  value: Int32Array
  /** Bound before, and the entry of the same view before. */
  before: Int32Array
  previous: Int32Array
  /** What forced it: DECISION, or a kind with a place; and the level at which it came. */
  kind: Int8Array
  place: Int32Array
  level: Int32Array
  length: number
  /** Length of the trail, and of the explanations, where each level begins. */
  levels: number[]
  explained: number[]
  /** Explanations written out: how many numbers, then (view, value) pairs that were true. */
  arena: Int32Array
  arenaLength: number
}

export const DECISION = 0
export const ARC = 1
export const CLAUSE = 2
export const WRITTEN = 3
export const ROOT = 4

export function trailOf(least: readonly number[], most: readonly number[]): Trail {
  const bound = new Int32Array(2 * least.length)
  least.forEach((v, i) => {
    bound[2 * i] = v
    bound[2 * i + 1] = -(most[i] as number)
  })
  const room = 1 << 12
  return {
    bound,
    last: new Int32Array(bound.length).fill(-1),
    view: new Int32Array(room),
    value: new Int32Array(room),
    before: new Int32Array(room),
    previous: new Int32Array(room),
    kind: new Int8Array(room),
    place: new Int32Array(room),
    level: new Int32Array(room),
    length: 0,
    levels: [],
    explained: [],
    arena: new Int32Array(1 << 14),
    arenaLength: 0,
  }
}

export const isTrue = (t: Trail, view: number, value: number): boolean => (t.bound[view] as number) >= value
export const isFalse = (t: Trail, view: number, value: number): boolean => (t.bound[view ^ 1] as number) >= 1 - value

/** Raises a bound; true when it still leaves room under the opposite one. */
export function raise(t: Trail, view: number, value: number, kind: number, place: number): boolean {
  if (t.length === t.view.length) grow(t)
  const at = t.length++
  t.view[at] = view
  t.value[at] = value
  t.before[at] = t.bound[view] as number
  t.previous[at] = t.last[view] as number
  t.kind[at] = kind
  t.place[at] = place
  t.level[at] = t.levels.length
  t.last[view] = at
  t.bound[view] = value
  return value <= -(t.bound[view ^ 1] as number)
}

/** The same array with more room. */
export function wider<A extends Int32Array | Int8Array | Float64Array>(a: A, room: number): A {
  const b = new (a.constructor as new (n: number) => A)(room)
  b.set(a)
  return b
}

function grow(t: Trail): void {
  const room = 2 * t.view.length
  t.view = wider(t.view, room)
  t.value = wider(t.value, room)
  t.before = wider(t.before, room)
  t.previous = wider(t.previous, room)
  t.kind = wider(t.kind, room)
  t.place = wider(t.place, room)
  t.level = wider(t.level, room)
}

/** Begins an explanation with room for so many literals; `add` them, then `closed` gives its place. */
export function openReason(t: Trail, literals: number): void {
  const due = t.arenaLength + 2 * literals + 1
  if (due > t.arena.length) t.arena = wider(t.arena, Math.max(2 * t.arena.length, due))
  t.arena[t.arenaLength] = 0
}

export function add(t: Trail, view: number, value: number): void {
  const count = t.arena[t.arenaLength] as number
  t.arena[t.arenaLength + count + 1] = view
  t.arena[t.arenaLength + count + 2] = value
  t.arena[t.arenaLength] = count + 2
}

export function closed(t: Trail): number {
  const at = t.arenaLength
  t.arenaLength = at + 1 + (t.arena[at] as number)
  return at
}

/** A conflict written out: a view has just been pushed past its opposite. */
export function crossing(t: Trail, view: number): number {
  const most = -(t.bound[view ^ 1] as number)
  openReason(t, 2)
  add(t, view, most + 1)
  add(t, view ^ 1, -most)
  return closed(t)
}

export function beginLevel(t: Trail): void {
  t.levels.push(t.length)
  t.explained.push(t.arenaLength)
}

/** Takes back everything above a level; level 0 is the root. */
export function backTo(t: Trail, level: number): void {
  if (level >= t.levels.length) return
  const keep = t.levels[level] as number
  for (let at = t.length - 1; at >= keep; at--) {
    const view = t.view[at] as number
    t.bound[view] = t.before[at] as number
    t.last[view] = t.previous[at] as number
  }
  t.length = keep
  t.arenaLength = t.explained[level] as number
  t.levels.length = level
  t.explained.length = level
}

/** The entry that first made a literal true; −1 when it has always been. */
export function madeTrueBy(t: Trail, view: number, value: number): number {
  let at = t.last[view] as number
  while (at >= 0 && (t.before[at] as number) >= value) at = t.previous[at] as number
  return at
}
