import { type Clause, type Operation, openWay, reachable } from './precedence.ts'
import { cheapestOrder } from './search.ts'

/** An order put right with as little changed as can be. */
export interface RepairedOrder {
  order: readonly string[]
  /** Steps of the written order that come later than they stood, against those they pass. */
  moved: readonly string[]
  /** Steps that the written order lacked. */
  added: readonly string[]
  /** Steps that cannot be done at all, with those that wait for them. */
  dropped: readonly string[]
}

/**
 * The written order, each step at its turn where it can be done; one that cannot waits until it can, and goes then before
 * all that stood after it. What an order lacks is added by the cheapest set that opens the first step left, just before it.
 * A written order that works comes back as it is. Fewest steps moved is not proven.
 */
export function repaired(
  operations: readonly Operation[],
  items: Readonly<Record<string, number>>,
  written: readonly string[],
  effort = 2_000,
): RepairedOrder {
  const known = new Map(operations.map((o) => [o.id, o]))
  const possible = new Set(reachable(operations).order)
  const dropped = written.filter((id) => !possible.has(id))
  const waiting = [...new Set(written.filter((id) => possible.has(id)))]
  const [order, added, done] = [[] as string[], [] as string[], new Set<string>()]
  const take = (id: string): void => {
    order.push(id)
    done.add(id)
  }
  while (waiting.length > 0) {
    const next = waiting.findIndex((id) => openWay(known.get(id) as Operation, done) !== undefined)
    if (next >= 0) {
      take(waiting.splice(next, 1)[0] as string)
      continue
    }
    const missing = openersOf(waiting[0] as string, operations, items, done, effort).filter((id) => !done.has(id))
    for (const id of missing) {
      take(id)
      const place = waiting.indexOf(id)
      if (place < 0) added.push(id)
      else waiting.splice(place, 1)
    }
  }
  return { order, moved: movedOf(order, written), added, dropped }
}

/** The cheapest operations, in order, up to and with one that cannot be done yet. */
function openersOf(
  id: string,
  operations: readonly Operation[],
  items: Readonly<Record<string, number>>,
  done: ReadonlySet<string>,
  effort: number,
): readonly string[] {
  const isMet = (clause: Clause): boolean => clause.some((other) => done.has(other))
  const left = operations
    .filter((o) => !done.has(o.id))
    .map((o) => ({
      ...o,
      needs: o.needs.filter((clause) => !isMet(clause)),
      ...(o.ways === undefined ? {} : { ways: o.ways.map((way) => way.filter((clause) => !isMet(clause))) }),
    }))
  return cheapestOrder({ operations: left, items, targets: [[id]], effort }).order
}

/** Steps that now come after one which stood behind them: those outside a longest run that kept its order. */
function movedOf(order: readonly string[], written: readonly string[]): readonly string[] {
  const place = new Map(written.map((id, i) => [id, i]))
  const kept = order.filter((id) => place.has(id))
  const runs = kept.map((): { length: number; from: number } => ({ length: 1, from: -1 }))
  for (const [i, id] of kept.entries())
    for (let j = 0; j < i; j++)
      if (
        (place.get(kept[j] as string) as number) < (place.get(id) as number) &&
        (runs[j]?.length ?? 0) + 1 > (runs[i]?.length ?? 0)
      )
        runs[i] = { length: (runs[j]?.length ?? 0) + 1, from: j }
  const stays = new Set<string>()
  let at = runs.reduce((best, run, i) => (run.length > (runs[best]?.length ?? 0) ? i : best), 0)
  for (; at >= 0 && kept[at] !== undefined; at = runs[at]?.from ?? -1) stays.add(kept[at] as string)
  return kept.filter((id) => !stays.has(id))
}
