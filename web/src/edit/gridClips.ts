import { useShown } from '../state.ts'
import { isBlock, pasted } from './block.ts'
import { columnsFor } from './grid.ts'
import type { Handled } from './gridHands.ts'
import { copied } from './gridPlace.ts'
import { fieldAt, schemaOf } from './schema.ts'

/** What is pasted into a table, and copied out of it. */
export function useGridClips({
  collection,
  columns,
  rows,
  place,
  activeRow,
  setPlace,
}: Pick<Handled, 'collection' | 'columns' | 'rows' | 'place' | 'activeRow' | 'setPlace'>) {
  const { client, document, trial, act, readOnly } = useShown()
  const onPaste = (event: React.ClipboardEvent): void => {
    const text = event.clipboardData.getData('text/plain')
    if (activeRow === undefined || place === undefined || readOnly !== undefined) return
    if (place.isTyping && !isBlock(text)) return
    event.preventDefault()
    setPlace({ ...place, isTyping: false })
    void put(text, activeRow, place.column)
  }
  const put = async (text: string, row: number, column: number): Promise<void> => {
    const base = trial?.document ?? document
    // A quick hand pastes before the schema has come.
    const isTyped = columns.every((c) => c.field !== undefined)
    const field = isTyped ? undefined : fieldAt(await schemaOf(client), base, rows[row]?.pointer ?? '')
    const typed = isTyped ? columns : columnsFor(field, collection.columns, rows)
    const got = pasted(text, { document: base, at: collection.at, rows, columns: typed, row, column })
    if ('refused' in got) act.refuseLines(got.refused)
    else act.tryOut(got.patch, got.what, collection.at)
  }
  const onCopy = (event: React.ClipboardEvent): void => {
    if (activeRow === undefined || place === undefined || place.isTyping) return
    event.preventDefault()
    event.clipboardData.setData('text/plain', copied(rows, columns, activeRow, place))
  }
  return { onPaste, onCopy }
}
