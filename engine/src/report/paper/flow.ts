import type { Mark, PaperBox } from '../drawing.ts'
import type { Row } from './rows.ts'

/**
 * Rows poured down columns, column after column and page after page. A row marked `keep` goes over together with the next;
 * a table that runs on gets its head again.
 *
 * @param first boxes of the first page's columns, in reading order
 * @param later boxes of the columns of every page after it
 * @param second boxes of the second page's columns, where a drawing takes part of it
 * @returns marks of each page; at least one page
 */
export function pour(
  rows: readonly Row[],
  first: readonly PaperBox[],
  later: readonly PaperBox[] = first,
  second: readonly PaperBox[] = later,
): Mark[][] {
  const pages: Mark[][] = [[]]
  let columns = first
  let column = 0
  let y = roomOf(columns, 0).top
  const turnPage = (): void => {
    pages.push([])
    columns = pages.length === 2 ? second : later
    column = 0
    y = roomOf(columns, 0).top
  }
  const turnColumn = (): void => {
    if (column + 1 === columns.length) turnPage()
    else {
      column++
      y = roomOf(columns, column).top
    }
  }
  const set = (row: Row): void => {
    ;(pages.at(-1) as Mark[]).push(...row.marks([roomOf(columns, column).left, y]))
    y += row.height
  }
  rows.forEach((row, i) => {
    if (row.leavesFirst && pages.length === 1) turnPage()
    const isFresh = (): boolean => y === roomOf(columns, column).top
    if (!isFresh() && y + heldTogether(rows, i) > roomOf(columns, column).bottom) {
      turnColumn()
      for (const head of row.head ?? []) set(head)
    }
    if (!(isFresh() && isSpace(row))) set(row)
  })
  return pages
}

const roomOf = (columns: readonly PaperBox[], column: number): PaperBox => columns[column] as PaperBox

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
