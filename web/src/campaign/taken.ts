import type { Operation } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

/** What the host makes of a table: a patch to look at, and what it refuses. */
export interface TakenTable {
  patch: readonly Operation[]
  taken: number
  same: number
  /** Each at its row and column, or at its place in the project. */
  refused: readonly Problem[]
}
