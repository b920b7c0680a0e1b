import { useMemo, useRef } from 'react'
import { useShown } from '../state.ts'
import type { GridColumn, GridRow } from './grid.ts'
import type { Go, SetPlace } from './gridPlace.ts'
import type { RowActs } from './row.tsx'
import { useCommit } from './useCell.ts'

interface Acting {
  columns: readonly GridColumn[]
  rows: readonly GridRow[]
  /** Place of each row in the table, by its address. */
  indexOf: ReadonlyMap<string, number>
  go: Go
  setPlace: SetPlace
  setOpen: React.Dispatch<React.SetStateAction<string | undefined>>
}

/** What a row can have done: a cell is taken or left, its detail opens and closes. */
export function useRowActs({ columns, rows, indexOf, go, setPlace, setOpen }: Acting): RowActs {
  const { act } = useShown()
  const commit = useCommit()
  // What rows are handed stays the same, so that only rows that change are drawn again.
  const now = useRef({ rows, columns, commit, act, go, indexOf })
  now.current = { rows, columns, commit, act, go, indexOf }
  return useMemo((): RowActs => {
    const nextOf = (row: GridRow, column: number, by: number): void => {
      const { rows: all, columns: cols, indexOf: index, go: move } = now.current
      const flat = (index.get(row.pointer) ?? 0) * cols.length + column + by
      const to = Math.min(Math.max(flat, 0), all.length * cols.length - 1)
      move(Math.floor(to / cols.length), to % cols.length, { isTyping: true })
    }
    return {
      commit: (row, column, text, way) => {
        const { columns: cols, commit: take } = now.current
        const of = cols[column]
        if (of !== undefined) take(row.pointer + of.below, `${row.name}, ${of.heading.toLowerCase()}`, of.field, text)
        if (way === 'next' || way === 'before') nextOf(row, column, way === 'next' ? 1 : -1)
        else
          setPlace(
            (p) =>
              p && {
                ...p,
                isTyping: way === 'away' && p.pointer + p.column !== row.pointer + column ? p.isTyping : false,
              },
          )
      },
      leave: (row, column) => {
        const { columns: cols, act: acting } = now.current
        acting.refuse(row.pointer + (cols[column]?.below ?? ''), undefined)
        setPlace((p) => p && { ...p, isTyping: false })
      },
      toggle: (row) => {
        setOpen((opened) => (opened === row.pointer ? undefined : row.pointer))
        setPlace({ pointer: row.pointer, column: -1, isTyping: false, from: undefined })
      },
    }
  }, [setPlace, setOpen])
}
