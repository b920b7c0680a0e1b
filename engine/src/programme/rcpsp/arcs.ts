import type { Arc, Join } from './model.ts'
import { ARC, add, closed, crossing, isFalse, isTrue, openReason, raise, type Trail, WRITTEN } from './trail.ts'

/** Arcs and joins laid out by the views that set them off. */
export interface Arcs {
  from: Int32Array
  to: Int32Array
  weight: Int32Array
  up: readonly (((value: number) => number) | undefined)[]
  /** Literal on which an arc hangs; view −1: none. */
  whenView: Int32Array
  whenValue: Int32Array
  /** Places in `listed` of the arcs that a view sets off: its own, and those that hang on it. */
  first: Int32Array
  listed: Int32Array
  joins: readonly Join[]
  joinsOf: readonly (readonly number[])[]
  /** Least that each view had at the root: where the search for a cause begins. */
  least: Int32Array
}

export function arcsOf(arcs: readonly Arc[], joins: readonly Join[], root: Int32Array): Arcs {
  const of = Array.from({ length: root.length }, (): number[] => [])
  arcs.forEach(({ from, when }, e) => {
    of[from]?.push(e)
    if (when !== undefined && when[0] !== from) of[when[0]]?.push(e)
  })
  const joinsOf = Array.from({ length: root.length }, (): number[] => [])
  joins.forEach(({ a, b }, k) => {
    joinsOf[a]?.push(k)
    joinsOf[b]?.push(k)
  })
  const first = new Int32Array(root.length + 1)
  of.forEach((list, view) => {
    first[view + 1] = (first[view] as number) + list.length
  })
  return {
    from: Int32Array.from(arcs, (a) => a.from),
    to: Int32Array.from(arcs, (a) => a.to),
    weight: Int32Array.from(arcs, (a) => a.weight),
    up: arcs.map((a) => a.up),
    whenView: Int32Array.from(arcs, (a) => a.when?.[0] ?? -1),
    whenValue: Int32Array.from(arcs, (a) => a.when?.[1] ?? 0),
    first,
    listed: Int32Array.from(of.flat()),
    joins,
    joinsOf,
    least: root.slice(),
  }
}

const FAR = 1 << 30

const pushed = (arcs: Arcs, e: number, value: number): number => {
  const up = arcs.up[e]
  return up === undefined ? value + (arcs.weight[e] as number) : Math.max(-FAR, Math.min(FAR, up(value)))
}

/** Lets a view that rose push others. @returns place of a conflict in the explanations, or −1 */
export function push(t: Trail, arcs: Arcs, view: number): number {
  const stop = arcs.first[view + 1] as number
  for (let k = arcs.first[view] as number; k < stop; k++) {
    const e = arcs.listed[k] as number
    const to = arcs.to[e] as number
    const value = pushed(arcs, e, t.bound[arcs.from[e] as number] as number)
    if (value <= (t.bound[to] as number)) continue
    const when = arcs.whenView[e] as number
    if (when >= 0 && !isTrue(t, when, arcs.whenValue[e] as number)) {
      if (value > -(t.bound[to ^ 1] as number)) ruleOut(t, arcs, e, value)
      continue
    }
    if (!raise(t, to, value, ARC, e)) return crossing(t, to)
  }
  return joined(t, arcs, view)
}

/** An arc that would push past the opposite bound cannot hold: its literal is false. */
function ruleOut(t: Trail, arcs: Arcs, e: number, value: number): void {
  const [when, at] = [arcs.whenView[e] as number, arcs.whenValue[e] as number]
  if (isFalse(t, when, at)) return
  const most = -(t.bound[(arcs.to[e] as number) ^ 1] as number)
  openReason(t, 2)
  add(t, arcs.from[e] as number, sourceOf(t, arcs, e, Math.min(value, most + 1)))
  add(t, (arcs.to[e] as number) ^ 1, -most)
  raise(t, when ^ 1, 1 - at, WRITTEN, closed(t))
}

function joined(t: Trail, arcs: Arcs, view: number): number {
  for (const k of arcs.joinsOf[view] as readonly number[]) {
    const { a, b, to } = arcs.joins[k] as Join
    const value = (t.bound[a] as number) + (t.bound[b] as number)
    if (value <= (t.bound[to] as number)) continue
    openReason(t, 2)
    add(t, a, t.bound[a] as number)
    add(t, b, t.bound[b] as number)
    if (!raise(t, to, value, WRITTEN, closed(t))) return crossing(t, to)
  }
  return -1
}

/** The least value of an arc's source that pushes its target as far as asked. */
export function sourceOf(t: Trail, arcs: Arcs, e: number, asked: number): number {
  if (arcs.up[e] === undefined) return asked - (arcs.weight[e] as number)
  const from = arcs.from[e] as number
  let [low, high] = [arcs.least[from] as number, t.bound[from] as number]
  while (low < high) {
    const middle = low + Math.floor((high - low) / 2)
    if (pushed(arcs, e, middle) >= asked) high = middle
    else low = middle + 1
  }
  return low
}
