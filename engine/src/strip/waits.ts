import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import type { Clause, Operation } from './precedence.ts'
import { operationsOf } from './precedence-of.ts'

/** What a piece waits for before it can go, among the pieces of an order. */
export interface Waiting {
  /** A piece, or a step that only puts one aside. */
  id: string
  piece: string
  /** Those that have to go before it, as the order has it; what another of them waits for in turn is left out. */
  after: readonly string[]
  /** Of several that would do, the one that the order takes first stands in `after`; these would do as well. */
  instead: Readonly<Record<string, readonly string[]>>
}

/**
 * Which piece waits for which: the and/or precedence of geometry, joints and services along ways up and along the axis, seen
 * along an order.
 *
 * @param order ids of pieces, and of steps that put a piece aside, in the order in which they go
 */
export function waitsOf(model: Model, mass: MassResult, order: readonly string[], memory: Memory): Waiting[] {
  const { candidates, operations } = operationsOf(model, mass, memory, false)
  const place = new Map([...order.entries()].reverse().map(([i, id]) => [id, i] as const))
  const present = operations.filter(({ id }) => place.has(id))
  const named = new Map(candidates.map(({ id, piece }) => [id, piece]))
  const waiting = present.map((operation): Waiting => {
    const clauses = clausesOf(operation, place)
    const firsts = clauses.map((clause) => inOrder(clause, place))
    const after = [...new Set(firsts.flatMap(([first]) => (first === undefined ? [] : [first])))]
    const instead = Object.fromEntries(firsts.filter((f) => f.length > 1).map(([first, ...rest]) => [first, rest]))
    return { id: operation.id, piece: named.get(operation.id) ?? operation.id, after, instead }
  })
  return reduced(waiting)
}

type Places = ReadonlyMap<string, number>

/** Clauses of its needs, and of the way that the order opens first. */
function clausesOf({ id, needs, ways }: Operation, place: Places): readonly Clause[] {
  const mine = place.get(id) as number
  const opens = (clauses: readonly Clause[]): number =>
    Math.max(-1, ...clauses.map((clause) => Math.min(...clause.map((c) => place.get(c) ?? Number.POSITIVE_INFINITY))))
  const [way = []] = [...(ways ?? [])].sort((a, b) => opens(a) - opens(b))
  return [...needs, ...way].filter((clause) => clause.some((c) => (place.get(c) ?? mine) < mine))
}

const inOrder = (clause: Clause, place: Places): string[] =>
  clause.filter((id) => place.has(id)).sort((a, b) => (place.get(a) as number) - (place.get(b) as number))

/** Leaves out what another that it waits for waits for already. */
function reduced(waiting: readonly Waiting[]): Waiting[] {
  const known = new Map(waiting.map((w) => [w.id, w.after]))
  const below = (id: string, seen = new Set<string>()): Set<string> => {
    for (const next of known.get(id) ?? []) if (!seen.has(next)) below(next, seen.add(next))
    return seen
  }
  return waiting.map((w) => ({
    ...w,
    after: w.after.filter((id) => !w.after.some((other) => other !== id && below(other).has(id))),
  }))
}
