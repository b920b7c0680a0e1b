import { idsMeant, type Model, type Piece, type Step } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { OrderStep } from './standing.ts'

/** Instances of a piece, in the order of its list. */
export function instancesOfPiece(model: Model, id: string, memory: Memory): readonly string[] {
  const piece = model.project.pieces[id] as Piece
  const named = memory.settled('strip/ids', [...model.instances.byId.keys()])
  return memory.once(`strip/parts/${id}`, [piece.parts, named], () =>
    piece.parts.flatMap((part) => idsMeant(model.instances, part)),
  )
}

/** The order adopted in the project file, its parts written out. */
export function adoptedOrder(model: Model, memory: Memory): readonly OrderStep[] {
  return model.project.order.map((id) => {
    const step = model.project.steps[id] as Step
    const parts = instancesOfPiece(model, step.piece, memory)
    return memory.once(`strip/ordered/${id}`, [step, parts], () => ({
      step: id,
      pointer: pointerOf('steps', id),
      piece: step.piece,
      parts,
      moves: step.moves,
      ...(step.lift === undefined ? {} : { lift: step.lift }),
      stays: step.stays,
      ...(step.support === undefined ? {} : { support: step.support }),
    }))
  })
}
