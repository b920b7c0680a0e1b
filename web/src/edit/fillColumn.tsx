import { useId, useState } from 'react'
import { useShown } from '../state.ts'
import { isCell } from './field.ts'
import { type Filled, filled } from './fill.ts'
import type { GridColumn, GridRow } from './grid.ts'

interface FillColumnProps {
  /** Address of the collection, and its name. */
  at: string
  title: string
  columns: readonly GridColumn[]
  /** The rows that are shown. */
  rows: readonly GridRow[]
  all: number
}

/** One value for a column of every row that is shown: how many would change is said first, then all of it is one edit. */
export function FillColumn({ at, title, columns, rows, all }: FillColumnProps) {
  const { document, trial, act } = useShown()
  const [isOpen, setOpen] = useState(false)
  const [below, setBelow] = useState<string>()
  const [text, setText] = useState('')
  const said = useId()
  const cells = columns.filter((c) => c.field !== undefined && isCell(c.field))
  const column = cells.find((c) => c.below === below) ?? cells[0]
  if (column === undefined || rows.length === 0) return null
  if (!isOpen)
    return (
      <button type="button" className="link" onClick={() => setOpen(true)}>
        Change a column
      </button>
    )
  const result = filled({ document: trial?.document ?? document, rows, column, text })
  const isReady = text.trim() !== '' && 'patch' in result && result.changes > 0
  const take = (): void => {
    if (!isReady || 'refused' in result) return
    act.tryOut(result.patch, result.what, at)
    setOpen(false)
    setText('')
  }
  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (event.key === 'Escape') setOpen(false)
    else if (event.key === 'Enter' && !event.ctrlKey && event.target instanceof HTMLInputElement) take()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <fieldset className="fill" onKeyDown={onKeyDown}>
      <legend className="unseen">{`Change a column of ${title}`}</legend>
      <label>
        Set{' '}
        <select value={column.below} onChange={(e) => setBelow(e.target.value)}>
          {cells.map((c) => (
            <option key={c.below} value={c.below}>
              {c.heading}
            </option>
          ))}
        </select>
      </label>{' '}
      <label>
        to{' '}
        <input
          value={text}
          // biome-ignore lint/a11y/noAutofocus: the field was asked for
          autoFocus
          aria-describedby={said}
          onChange={(e) => setText(e.target.value)}
        />
      </label>{' '}
      <button type="button" disabled={!isReady} onClick={take}>
        Look at it
      </button>{' '}
      <button type="button" className="link" onClick={() => setOpen(false)}>
        Leave
      </button>
      <span id={said} className="quiet" role="status">
        {wordsOf(result, text, rows.length, all)}
      </span>
    </fieldset>
  )
}

function wordsOf(result: Filled, text: string, shown: number, all: number): string {
  const which = shown === all ? `all ${all} rows` : `the ${shown} rows shown of ${all}`
  if (text.trim() === '') return ` in ${which}`
  if ('refused' in result) return ` ${result.refused}`
  const { changes, same } = result
  return ` ${changes} of ${which} would change${same > 0 ? `, ${same} ${same === 1 ? 'has' : 'have'} it already` : ''}`
}
