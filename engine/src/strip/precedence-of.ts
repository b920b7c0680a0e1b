import type { MassResult } from '../mass/index.ts'
import type { Model, Move } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { candidatesOf } from './candidates.ts'
import { MOVE_SPACE } from './exit.ts'
import { reasonText } from './find-order.ts'
import { compiled, plainCosts, type Reason } from './operations.ts'
import { surroundingsOf } from './path.ts'
import { type Clause, type Operation, reachable } from './precedence.ts'
import { bearingParts } from './support.ts'

/** A piece that may be taken, or put aside. */
export interface PrecedenceNode {
  id: string
  piece: string
  parts: readonly string[]
  /** It is only put aside, and stays in the shaft. */
  aside: boolean
  /** Joints and services that it opens, as `joint J1` and `service S1`. */
  opens: readonly string[]
  /** It can be done at all, some time. */
  reachable: boolean
}

/** One of these has to be done before: an OR. */
export interface PrecedenceNeed {
  any: Clause
  reason: Reason
  /** The reason in words. */
  because: string
}

/** What a piece waits for: every need, and besides all needs of one of its ways. An AND of ORs, and an OR of such. */
export interface PrecedenceArcs {
  of: string
  needs: readonly PrecedenceNeed[]
  ways: readonly { moves: readonly Move[]; from: 'shaft' | 'surface'; needs: readonly PrecedenceNeed[] }[]
}

/** The and/or precedence as plain data, for a picture or another program. */
export interface Precedence {
  nodes: readonly PrecedenceNode[]
  arcs: readonly PrecedenceArcs[]
  /** What ways were looked at; a piece may have others. */
  moveSpace: string
}

/** Every candidate that may go, and what each needs before it, at plain costs. */
export function operationsOf(model: Model, mass: MassResult, memory: Memory, thorough: boolean) {
  const around = surroundingsOf(model, mass, memory)
  const candidates = candidatesOf({ model, mass, around, thorough, shouldContinue: () => true, memory })
  const bearing = bearingParts(model, around.cells, memory)
  return { candidates, ...compiled(model, candidates, plainCosts(1), bearing, memory) }
}

/**
 * What has to go before what, with the reason for each: parts in the way, fasteners hidden, parts that would hang on nothing.
 *
 * @param thorough ways along the edges of the free cones as well; slower
 */
export function precedenceOf(model: Model, mass: MassResult, memory: Memory, thorough = false): Precedence {
  const { candidates, operations, reasons } = operationsOf(model, mass, memory, thorough)
  const possible = new Set(reachable(operations).order)
  return {
    nodes: operations.map(({ id, opens = [] }, i) => {
      const { piece, parts, aside } = candidates[i] as (typeof candidates)[number]
      return { id, piece, parts: [...parts], aside: aside === true, opens, reachable: possible.has(id) }
    }),
    arcs: operations.map((operation, i) => {
      const { needs, ways } = reasons[operation.id] as (typeof reasons)[string]
      const exits = candidates[i]?.exits ?? []
      return {
        of: operation.id,
        needs: needsOf(operation.needs, needs),
        ways: (operation.ways ?? []).map((way, k) => ({
          moves: exits[k]?.moves ?? [],
          from: exits[k]?.from ?? 'shaft',
          needs: needsOf(way, ways[k] ?? []),
        })),
      }
    }),
    moveSpace: MOVE_SPACE,
  }
}

const needsOf = (clauses: Operation['needs'], reasons: readonly Reason[]): PrecedenceNeed[] =>
  clauses.map((any, i) => ({ any, reason: reasons[i] as Reason, because: reasonText(reasons[i] as Reason) }))
