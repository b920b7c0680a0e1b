import { idsMeant, type Model, type Piece } from '../model/index.ts'

/** A piece with the instances it is made of. */
export interface PieceSet {
  id: string
  piece: Piece
  ids: readonly string[]
  parts: ReadonlySet<string>
}

/** Every piece with its patterns written out. */
export const pieceSets = ({ project, instances }: Model): PieceSet[] =>
  Object.entries(project.pieces).map(([id, piece]) => {
    const ids = piece.parts.flatMap((p) => idsMeant(instances, p))
    return { id, piece, ids, parts: new Set(ids) }
  })

/** Whether every part of one set is in the other. */
export function within(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  if (a.size > b.size) return false
  for (const part of a) if (!b.has(part)) return false
  return true
}

/** Pieces made of some of this piece's parts, but not all. */
export const piecesWithin = (outer: PieceSet, sets: readonly PieceSet[]): PieceSet[] =>
  sets.filter((inner) => inner.parts.size < outer.parts.size && within(inner.parts, outer.parts))
