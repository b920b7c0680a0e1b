import { applyPatch, type Operation, type Patch } from '@shieldwright/engine/working/patch.ts'
import { cellText, readCell } from './cell.ts'
import { isCell } from './field.ts'
import { type GridColumn, type GridRow, textAt } from './grid.ts'
import { writing } from './write.ts'

export interface Filling {
  document: unknown
  rows: readonly GridRow[]
  column: GridColumn
  /** As it would be typed into one cell; empty takes the value away. */
  text: string
}

/** One text in a column of many rows, as one patch: how many rows it changes, and how many have it already. */
export type Filled = { patch: Patch; what: string; changes: number; same: number } | { refused: string }

/** The text is read once, as in a cell; a row that would not change is left alone. */
export function filled({ document, rows, column, text }: Filling): Filled {
  const heading = column.heading.toLowerCase()
  if (column.field === undefined || !isCell(column.field))
    return { refused: `${column.heading} is not a cell: open the rows one by one.` }
  const read = readCell(column.field, text)
  if ('fault' in read) return { refused: `${column.heading}, “${text}”: ${read.fault}` }
  const value = 'absent' in read ? undefined : read.value
  const patch: Operation[] = []
  let [after, changes] = [document, 0]
  for (const row of rows) {
    if (textAt(row.entity, column.below) === cellText(value)) continue
    const operations = writing(after, row.pointer + column.below, value)
    const patched = applyPatch(after, operations)
    if ('problems' in patched)
      return { refused: `${row.name}: ${patched.problems[0]?.expected ?? 'it cannot be changed'}` }
    after = patched.document
    patch.push(...operations)
    if (operations.length > 0) changes++
  }
  const what = `${heading} of ${changes} ${changes === 1 ? 'row' : 'rows'} → ${text.trim() || 'none'}`
  return { patch, what, changes, same: rows.length - changes }
}
