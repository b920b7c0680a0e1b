import type { Operation } from '@shieldwright/engine/working/patch.ts'

/** What the host makes of a table: a patch to look at, and what it refuses. */
export interface TakenTable {
  patch: readonly Operation[]
  taken: number
  same: number
  refused: readonly Refusal[]
}

/** One cell, or one thing that the project says of a row. */
export interface Refusal {
  row?: number
  column?: string
  pointer?: string
  found: string
  expected: string
  example?: unknown
}

/** Where, what was found, what is expected, an example: one line. */
export function refusalText({ row, column, pointer, found, expected, example }: Refusal): string {
  const where = [row === undefined ? '' : `row ${row}`, column ?? ''].filter((w) => w !== '').join(', ')
  const like =
    example === undefined ? '' : `, such as ${typeof example === 'string' ? `"${example}"` : JSON.stringify(example)}`
  return `${where === '' ? (pointer ?? '') : where}: found ${found}, expected ${expected}${like}`
}
