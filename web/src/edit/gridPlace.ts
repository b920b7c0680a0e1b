import type { GridColumn, GridRow } from './grid.ts'
import { blockText, rangeText, textAt } from './grid.ts'

/** Where one is in a table; column −1 is the id. */
export interface Place {
  pointer: string
  column: number
  isTyping: boolean
  /** The other end of a range. */
  from: { row: number; column: number } | undefined
}

/** To a cell, within the table. */
export type Go = (row: number, column: number, more?: Partial<Place>) => void
export type SetPlace = React.Dispatch<React.SetStateAction<Place | undefined>>

/** Rows that Page Up and Page Down go over. */
const PAGE = 15

/** Where a key goes from a cell; undefined for a key that goes nowhere. */
export function stepOf(
  { key, ctrlKey }: Pick<KeyboardEvent, 'key' | 'ctrlKey'>,
  row: number,
  column: number,
  size: { rows: number; columns: number },
): { row: number; column: number } | undefined {
  switch (key) {
    case 'ArrowDown':
      return { row: row + 1, column }
    case 'ArrowUp':
      return { row: row - 1, column }
    case 'ArrowRight':
      return { row, column: column + 1 }
    case 'ArrowLeft':
      return { row, column: column - 1 }
    case 'PageDown':
      return { row: row + PAGE, column }
    case 'PageUp':
      return { row: row - PAGE, column }
    case 'Home':
      return { row: ctrlKey ? 0 : row, column: -1 }
    case 'End':
      return { row: ctrlKey ? size.rows - 1 : row, column: size.columns - 1 }
    default:
      return undefined
  }
}

export interface Range {
  rows: readonly [number, number]
  columns: readonly [number, number]
}

/** From the other end to where one is. */
export function rangeOf(place: Place | undefined, row: number | undefined): Range | undefined {
  if (place?.from === undefined || row === undefined) return undefined
  const between = (a: number, b: number): readonly [number, number] => [Math.min(a, b), Math.max(a, b)]
  return { rows: between(place.from.row, row), columns: between(place.from.column, place.column) }
}

/** What a copy takes: the range, or the cell that one is at. */
export function copied(rows: readonly GridRow[], columns: readonly GridColumn[], active: number, place: Place): string {
  const range = rangeOf(place, active)
  if (range === undefined) {
    const below = columns[place.column]?.below
    return below === undefined ? (rows[active]?.id ?? '') : textAt(rows[active]?.entity, below)
  }
  const picked = rows.slice(range.rows[0], range.rows[1] + 1)
  const of = columns.slice(Math.max(0, range.columns[0]), range.columns[1] + 1)
  if (range.columns[0] < 0) return rangeText(picked, of, { heads: false })
  return blockText(picked.map((row) => of.map((c) => textAt(row.entity, c.below))))
}
