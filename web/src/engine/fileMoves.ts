import type { WrittenMove } from '@shieldwright/engine/strip/index.ts'

const DECIMALS = 4
const metres = (x: number): string => `${Number(x.toFixed(DECIMALS))} m`

/** Moves as a project file writes them. */
export const fileMoves = (moves: readonly WrittenMove[]): readonly unknown[] =>
  moves.map((move) =>
    move.kind === 'translate'
      ? { by: move.by.map(metres) }
      : { turn: `${move.turn} rad`, axis: move.axis, about: move.about.map(metres) },
  )
