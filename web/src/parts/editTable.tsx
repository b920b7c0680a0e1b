import { at } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useState } from 'react'
import { useShown } from '../state.ts'

/** A column of an editable table: where in the entity it stands, and how it is read. */
export interface EditColumn {
  heading: string
  /** Below the entity, such as "/mass/value". */
  below: string
  right?: boolean
  /** A plain number stays a number; anything else is text with its unit. */
  number?: boolean
}

export interface EditRow {
  id: string
  /** Address of the entity. */
  pointer: string
  name: string
  after?: React.ReactNode
}

interface EditTableProps {
  caption: string
  rows: readonly EditRow[]
  columns: readonly EditColumn[]
  after?: string
}

/** A table edited in place: Enter shows the consequences, Ctrl+Enter keeps, Esc leaves the figure as it was. */
export function EditTable({ caption, rows, columns, after }: EditTableProps) {
  return (
    <section>
      <div className="titled">
        <h2>{caption}</h2>
        <span className="small quiet">
          type any unit: 412 t, 907 kip, 63 ft 4 in · <kbd>↵</kbd> preview · <kbd>Ctrl ↵</kbd> keep
        </span>
      </div>
      <div className="scroll">
        <table>
          <caption className="unseen">{caption}</caption>
          <thead>
            <tr>
              <th scope="col">Id</th>
              <th scope="col">Name</th>
              {columns.map((c) => (
                <th key={c.below} scope="col" className={c.right ? 'num' : undefined}>
                  {c.heading}
                </th>
              ))}
              {after !== undefined && (
                <th scope="col" className="num">
                  {after}
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <EditRowLine key={row.id} row={row} columns={columns} />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}

function EditRowLine({ row, columns }: { row: EditRow; columns: readonly EditColumn[] }) {
  const { trial } = useShown()
  const touched = trial?.patch.some((op) => op.path.startsWith(`${row.pointer}/`)) === true
  return (
    <tr className={touched ? 'chosen here' : undefined}>
      <td className="quiet">{row.id}</td>
      <th scope="row">{row.name}</th>
      {columns.map((column) => (
        <Cell key={column.below} row={row} column={column} />
      ))}
      {row.after !== undefined && <td className="num">{row.after}</td>}
    </tr>
  )
}

function Cell({ row, column }: { row: EditRow; column: EditColumn }) {
  const { document, act, trial } = useShown()
  const pointer = row.pointer + column.below
  const kept = textOf(at(document, pointer))
  const [text, setText] = useState(kept)
  useEffect(() => setText(kept), [kept])
  const onTrial = trial?.patch.some((op) => op.path === pointer) === true
  const refused = onTrial && trial.preview.problems.length > 0
  const preview = () => {
    if (text.trim() === kept) return act.discard()
    act.tryOut(
      [
        {
          op: at(document, pointer) === undefined ? 'add' : 'replace',
          path: pointer,
          value: writtenValue(text, column),
        },
      ],
      `${row.name}, ${column.heading.toLowerCase()}, ${kept || 'none'} → ${text.trim()}`,
    )
  }
  const onKey = (event: React.KeyboardEvent): void => {
    if (event.key === 'Enter' && event.ctrlKey && onTrial) act.keep()
    else if (event.key === 'Enter') preview()
    else if (event.key === 'Escape') {
      setText(kept)
      act.discard()
    } else return
    event.preventDefault()
    event.stopPropagation()
  }
  return (
    <td className={['cell', column.right ? 'right' : '', onTrial ? (refused ? 'refused' : 'changed') : ''].join(' ')}>
      <input
        value={text}
        aria-label={`${row.name}, ${column.heading}`}
        aria-invalid={refused}
        onChange={(e) => setText(e.target.value)}
        onKeyDown={onKey}
        onBlur={() => !onTrial && setText(kept)}
      />
    </td>
  )
}

const textOf = (value: unknown): string => (value === undefined || value === null ? '' : String(value))

function writtenValue(text: string, { number }: EditColumn): unknown {
  const trimmed = text.trim()
  return number && trimmed !== '' && Number.isFinite(Number(trimmed)) ? Number(trimmed) : trimmed
}
