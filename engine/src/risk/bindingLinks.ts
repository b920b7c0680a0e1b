import { FS, type Links, type Network, offsets } from '../programme/index.ts'

/**
 * The links that can bind in some run. A link from finish to start without lag never does where a chain of such links leads
 * through an activity that takes time in every run: what that chain brings is later. Dates and what binds them are the same
 * without it; hand-overs of resources leave many of them.
 *
 * @param least shortest working time of each activity in any run, s
 */
export function bindingLinks({ before, order }: Pick<Network, 'before' | 'order'>, least: ArrayLike<number>): Links {
  const kept = order.length === 0 ? [] : keptLinks(before, order, least)
  const all = kept.flat()
  return {
    first: offsets(kept.map((links) => links.length)),
    other: Int32Array.from(all, (k) => before.other[k] as number),
    type: Uint8Array.from(all, (k) => before.type[k] as number),
    lag: Float64Array.from(all, (k) => before.lag[k] as number),
    calendar: all.map((k) => before.calendar[k]),
  }
}

const TAKES_TIME = 1

/** By activity. Predecessors first: what has ended by its start, and what of that has surely ended before its end, as sets of bits. */
function keptLinks(before: Links, order: Int32Array, least: ArrayLike<number>): number[][] {
  const { first, other, type, lag } = before
  const words = (order.length + 31) >> 5
  const [byStart, beforeEnd] = [new Uint32Array(order.length * words), new Uint32Array(order.length * words)]
  const kept = Array.from(order, (): number[] => [])
  for (const i of order) {
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      if (type[k] !== FS || (lag[k] as number) < 0) continue
      const p = other[k] as number
      join(byStart, i, byStart, p, words)
      put(byStart, i, p, words)
      join(beforeEnd, i, beforeEnd, p, words)
    }
    // so far beforeEnd holds what ends before one of its predecessors does
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      const isPlain = type[k] === FS && lag[k] === 0
      if (!isPlain || !has(beforeEnd, i, other[k] as number, words)) kept[i]?.push(k)
    }
    if ((least[i] as number) >= TAKES_TIME) join(beforeEnd, i, byStart, i, words)
  }
  return kept
}

function join(into: Uint32Array, i: number, from: Uint32Array, p: number, words: number): void {
  for (let w = 0; w < words; w++)
    into[i * words + w] = (into[i * words + w] as number) | (from[p * words + w] as number)
}

function put(into: Uint32Array, i: number, p: number, words: number): void {
  const at = i * words + (p >> 5)
  into[at] = (into[at] as number) | (1 << (p & 31))
}

const has = (of: Uint32Array, i: number, p: number, words: number): boolean =>
  (((of[i * words + (p >> 5)] as number) >>> (p & 31)) & 1) === 1
