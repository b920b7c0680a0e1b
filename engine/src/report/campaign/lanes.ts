/** What crosses what: a track stays on its lane from out to back, and rises and falls at those times. */
export interface Passage {
  lane: string
  /** Lane it rises from: absent, from below all lanes. */
  from?: string
  out: number
  back: number
}

/** Most lanes for which every order is tried. */
const TRY_ALL = 7

/**
 * Lanes from the top down in the order in which tracks cross least; of equal ones the first in the order given, whose nearest
 * lanes come last. With many lanes the order of first arrival, earliest on top, under which nested tracks do not cross.
 */
export function laneOrder(
  lanes: readonly string[],
  passages: readonly Passage[],
): { order: string[]; crossings: number } {
  const byArrival = [...lanes].sort((a, b) => firstOut(a, passages) - firstOut(b, passages))
  if (lanes.length > TRY_ALL) return { order: byArrival, crossings: crossingsOf(byArrival, passages) }
  let best = { order: byArrival, crossings: crossingsOf(byArrival, passages) }
  for (const order of permutations(byArrival)) {
    const crossings = crossingsOf(order, passages)
    if (crossings < best.crossings) best = { order, crossings }
  }
  return best
}

const firstOut = (lane: string, passages: readonly Passage[]): number =>
  Math.min(...passages.filter((p) => p.lane === lane).map((p) => p.out), Number.MAX_SAFE_INTEGER)

/** How often a rising or falling track passes through one that stays on a lane between. */
export function crossingsOf(order: readonly string[], passages: readonly Passage[]): number {
  const row = new Map(order.map((lane, i) => [lane, i]))
  const rows = passages.map((p) => row.get(p.lane) ?? order.length)
  const below = passages.map((p) => (p.from === undefined ? order.length : (row.get(p.from) ?? order.length)))
  let count = 0
  passages.forEach((a, i) => {
    const upper = Math.min(rows[i] as number, below[i] as number)
    const lower = Math.max(rows[i] as number, below[i] as number)
    for (let j = 0; j < passages.length; j++) {
      const at = rows[j] as number
      if (at <= upper || at >= lower) continue
      const b = passages[j] as Passage
      count += Number(a.out > b.out && a.out < b.back) + Number(a.back > b.out && a.back < b.back)
    }
  })
  return count
}

function* permutations<T>(items: readonly T[]): Generator<T[]> {
  if (items.length <= 1) {
    yield [...items]
    return
  }
  for (let i = 0; i < items.length; i++) {
    const rest = [...items.slice(0, i), ...items.slice(i + 1)]
    for (const order of permutations(rest)) yield [items[i] as T, ...order]
  }
}
