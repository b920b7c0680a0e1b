import type { MassResult } from '../mass/index.ts'
import type { Model, Move } from '../model/index.ts'
import { AT_REST } from '../numeric/vector.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { posesAlong } from './motion.ts'
import { type Path, pathOf, surroundingsOf } from './path.ts'
import { type PlacedStep, SHAFT } from './standing.ts'

/** A move to be tried out of the machine as found. */
export interface Trial {
  /** Instances that move. */
  parts: readonly string[]
  /** Instances that are gone before. */
  gone: readonly string[]
  moves: readonly Move[]
}

/**
 * What parts would meet on their way, with others gone: collisions, and gaps. Joints and services are left aside.
 *
 * @param memory keeps the shapes of the machine from one trial to the next
 */
export function wayOf(model: Model, mass: MassResult, trial: Trial, memory: Memory): Path {
  const around = surroundingsOf(model, mass, memory)
  return pathOf(placedTrial(trial, around.cells.keys()), 0, ['trial'], around, freshMemory())
}

function placedTrial({ parts, gone, moves }: Trial, ids: Iterable<string>): PlacedStep {
  const away = new Set([...parts, ...gone])
  const order = { step: 'trial', pointer: '', piece: 'trial', parts, moves, stays: false }
  const staying = [...ids].filter((id) => !away.has(id))
  return {
    order,
    group: SHAFT,
    moving: new Map(parts.map((id) => [id, AT_REST])),
    staying: new Map(staying.map((id) => [id, AT_REST])),
    poses: posesAlong(AT_REST, moves),
    remaining: staying,
    missing: [],
  }
}
