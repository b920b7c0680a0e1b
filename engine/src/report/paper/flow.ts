import type { Mark, PaperBox } from '../drawing.ts'
import type { Row } from './rows.ts'

/**
 * Rows poured down columns, column after column and page after page. A row marked `keep` goes over together with the next;
 * a table that runs on gets its head again.
 *
 * @param columns boxes of one page's columns, in reading order
 * @returns marks of each page; at least one page
 */
export function pour(rows: readonly Row[], columns: readonly PaperBox[]): Mark[][] {
  const pages: Mark[][] = [[]]
  let column = 0
  let y = (columns[0] as PaperBox).top
  const next = (): void => {
    column++
    if (column % columns.length === 0) pages.push([])
    y = (columns[column % columns.length] as PaperBox).top
  }
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i] as Row
    const room = columns[column % columns.length] as PaperBox
    const fresh = y === room.top
    if (!fresh && y + heldTogether(rows, i) > room.bottom) {
      next()
      for (const head of row.head ?? []) y = set(head)
    }
    if (y === (columns[column % columns.length] as PaperBox).top && isSpace(row)) continue
    y = set(row)
  }
  function set(row: Row): number {
    const { left } = columns[column % columns.length] as PaperBox
    ;(pages.at(-1) as Mark[]).push(...row.marks([left, y]))
    return y + row.height
  }
  return pages
}

const isSpace = (row: Row): boolean => row.marks([0, 0]).length === 0

function heldTogether(rows: readonly Row[], from: number): number {
  let height = 0
  for (let i = from; i < rows.length; i++) {
    const row = rows[i] as Row
    height += row.height
    if (!row.keep) break
  }
  return height
}
