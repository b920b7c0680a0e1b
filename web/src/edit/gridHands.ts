import { applyPatch, type Operation } from '@shieldwright/engine/working/patch.ts'
import { useShown } from '../state.ts'
import type { Collection } from './collections/collection.ts'
import { filled } from './fill.ts'
import { type GridColumn, type GridRow, textAt } from './grid.ts'
import { type Go, type Place, type Range, type SetPlace, stepOf } from './gridPlace.ts'
import type { RowActs } from './row.tsx'

/** A table, and where one is in it. */
export interface Handled {
  collection: Collection
  columns: readonly GridColumn[]
  rows: readonly GridRow[]
  place: Place | undefined
  activeRow: number | undefined
  range: Range | undefined
  acts: RowActs
  go: Go
  setPlace: SetPlace
}

/** Keys and pointer: where one goes, what is typed, cleared and filled down. */
export function useGridHands({ collection, columns, rows, place, activeRow, range, acts, go, setPlace }: Handled) {
  const { document, trial, act, readOnly } = useShown()
  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (activeRow === undefined || place === undefined || place.isTyping) return
    if (!(event.target as HTMLElement).matches('td.cell, tbody th')) return
    const range = event.shiftKey ? { from: place.from ?? { row: activeRow, column: place.column } } : {}
    const to = stepOf(event, activeRow, place.column, { rows: rows.length, columns: columns.length })
    if (to !== undefined) go(to.row, to.column, range)
    else if (event.key === 'Enter' && !event.ctrlKey) enter(activeRow)
    else if (event.key === 'Delete') clear(activeRow)
    else if (event.ctrlKey && event.key.toLowerCase() === 'd' && readOnly === undefined) fillDown()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  const enter = (index: number): void => {
    const row = rows[index]
    if (row === undefined || place === undefined) return
    if (place.column < 0) acts.toggle(row)
    else if (readOnly === undefined) setPlace({ ...place, isTyping: true, from: undefined })
  }
  const clear = (index: number): void => {
    const row = rows[index]
    if (row !== undefined && place !== undefined && place.column >= 0 && readOnly === undefined)
      acts.commit(row, place.column, '', 'stay')
  }
  /** The first cell of each column of the range goes into those below it, all as one edit. */
  const fillDown = (): void => {
    if (range === undefined) return
    const [first, last] = range.rows
    const below = rows.slice(first + 1, last + 1)
    let patched: unknown = trial?.document ?? document
    const patch: Operation[] = []
    const told: string[] = []
    for (const column of columns.slice(Math.max(0, range.columns[0]), range.columns[1] + 1)) {
      const got = filled({ document: patched, rows: below, column, text: textAt(rows[first]?.entity, column.below) })
      if ('refused' in got) {
        act.refuseLines([got.refused])
        return
      }
      const after = applyPatch(patched, got.patch)
      if ('problems' in after) return
      patched = after.document
      patch.push(...got.patch)
      if (got.changes > 0) told.push(got.what)
    }
    if (patch.length > 0) act.tryOut(patch, `filled down: ${told.join(', ')}`, collection.at)
  }
  const onClick = (event: React.MouseEvent): void => {
    const cell = (event.target as HTMLElement).closest<HTMLElement>('td.cell')
    if (cell === null || (event.target as HTMLElement).closest('input, select') !== null) return
    const column = Number(cell.dataset.column)
    const row = rows.findIndex((r) => r.pointer + columns[column]?.below === cell.dataset.pointer)
    if (row < 0) return
    if (event.shiftKey && activeRow !== undefined && place !== undefined)
      go(row, column, { from: place.from ?? { row: activeRow, column: place.column } })
    else go(row, column, { isTyping: readOnly === undefined })
  }
  /** Wherever the focus comes from, the cell that has it is the active one. */
  const onFocus = (event: React.FocusEvent): void => {
    const cell = (event.target as HTMLElement).closest<HTMLElement>('td.cell, tbody th')
    if (cell === null || cell !== event.target) return
    const column = Number(cell.dataset.column)
    const below = column < 0 ? '' : (columns[column]?.below ?? '')
    const pointer = (cell.dataset.pointer ?? '').slice(0, -below.length || undefined)
    setPlace((p) =>
      p?.pointer === pointer && p.column === column ? p : { pointer, column, isTyping: false, from: undefined },
    )
  }
  return { onKeyDown, onClick, onFocus }
}
