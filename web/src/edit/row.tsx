import { memo, useEffect, useRef } from 'react'
import type { RefusedCell } from '../state.ts'
import { otherText, parted } from './cell.ts'
import { CellInput } from './cellInput.tsx'
import { type GridColumn, type GridRow, textAt } from './grid.ts'

/** What of a row is marked: where the focus is, what is selected, what was typed. */
export interface RowMarks {
  /** Column of the active cell; −1 is the id. */
  active: number | undefined
  isTyping: boolean
  /** First and last column of a range. */
  range: readonly [number, number] | undefined
  isSelected: boolean
  isOpen: boolean
}

export interface RowProps extends RowMarks {
  row: GridRow
  /** The entity as kept; undefined for a new one. */
  kept: unknown
  columns: readonly GridColumn[]
  refused: readonly (readonly [below: string, RefusedCell])[] | undefined
  /** Places in this row that the preview finds wrong. */
  wrong: readonly string[] | undefined
  after: React.ReactNode
  hasAfter: boolean
  act: RowActs
}

export interface RowActs {
  commit: (row: GridRow, column: number, text: string, go: 'stay' | 'next' | 'before' | 'away') => void
  leave: (row: GridRow, column: number) => void
  toggle: (row: GridRow) => void
}

/** No cell of the table is active: it is reached by Tab at its first id. */
const IDLE = -2

/** One entity. At rest a cell is text; the one that is typed into is a field. */
export const Row = memo(function Row(props: RowProps) {
  const { row, kept, columns, active, isTyping, range, isSelected, isOpen, refused, wrong, after, hasAfter, act } =
    props
  const id = useRef<HTMLTableCellElement>(null)
  useEffect(() => {
    if (active === -1) id.current?.focus({ preventScroll: false })
  }, [active])
  const tried = kept !== row.entity
  const saidId = `said${row.pointer.replace(/[^\w-]/g, '.')}`
  return (
    <>
      <tr className={[tried ? 'chosen here' : '', isSelected ? 'marked' : ''].join(' ')} aria-selected={isSelected}>
        <th
          ref={id}
          scope="row"
          tabIndex={active === -1 || active === IDLE ? 0 : -1}
          data-pointer={row.pointer}
          data-column={-1}
          className={inRange(range, -1)}
        >
          <button type="button" className="link" tabIndex={-1} aria-expanded={isOpen} onClick={() => act.toggle(row)}>
            {row.id}
          </button>
        </th>
        {columns.map((column, index) => (
          <Cell
            key={column.below}
            row={row}
            kept={kept}
            column={column}
            index={index}
            isActive={active === index}
            isTyping={active === index && isTyping}
            range={inRange(range, index)}
            refused={refused?.find(([below]) => below === column.below)?.[1]}
            isWrong={wrong?.includes(column.below) === true}
            describedBy={refused === undefined ? undefined : saidId}
            act={act}
          />
        ))}
        {hasAfter && <td className="num">{after}</td>}
      </tr>
      {refused !== undefined && (
        <tr className="said">
          <td />
          <td id={saidId} colSpan={columns.length + (hasAfter ? 1 : 0)} className="fail small">
            {refused.map(([below, cell]) => (
              <span key={below}>
                <span className="strong">{columns.find((c) => c.below === below)?.heading ?? below}:</span> {
                  cell.said
                }{' '}
              </span>
            ))}
          </td>
        </tr>
      )}
    </>
  )
})

const inRange = (range: RowProps['range'], column: number): string =>
  range !== undefined && column >= range[0] && column <= range[1] ? 'ranged' : ''

interface CellProps {
  row: GridRow
  kept: unknown
  column: GridColumn
  index: number
  isActive: boolean
  isTyping: boolean
  range: string
  refused: RefusedCell | undefined
  isWrong: boolean
  describedBy: string | undefined
  act: RowActs
}

function Cell({ row, kept, column, index, isActive, isTyping, range, refused, isWrong, describedBy, act }: CellProps) {
  const place = useRef<HTMLTableCellElement>(null)
  useEffect(() => {
    if (isActive && !isTyping) place.current?.focus()
  }, [isActive, isTyping])
  const text = textAt(row.entity, column.below)
  const isTried = kept !== row.entity && text !== textAt(kept, column.below)
  const state = refused !== undefined || isWrong ? 'refused' : isTried ? 'changed' : ''
  return (
    <td
      ref={place}
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a cell of a grid that is typed into
      role="gridcell"
      tabIndex={isActive ? 0 : -1}
      data-pointer={row.pointer + column.below}
      data-column={index}
      aria-invalid={refused !== undefined || isWrong ? true : undefined}
      aria-describedby={refused === undefined ? undefined : describedBy}
      className={['cell', column.isFigure ? 'figure' : '', state, range].join(' ')}
    >
      {isTyping ? (
        <CellInput
          field={column.field}
          text={refused?.text ?? text}
          label={`${row.name}, ${column.heading}`}
          token={column.below.split('/').at(-1) ?? ''}
          invalid={refused !== undefined}
          describedBy={refused === undefined ? undefined : describedBy}
          onCommit={(typed, go) => act.commit(row, index, typed, go)}
          onLeave={() => act.leave(row, index)}
        />
      ) : (
        <CellText text={refused?.text ?? text} column={column} />
      )}
    </td>
  )
}

function CellText({ text, column }: { text: string; column: GridColumn }) {
  const parts = column.isFigure ? parted(text) : undefined
  if (!column.isFigure) return <>{text}</>
  const other = column.hasOther ? otherText(column.field, text) : ''
  return (
    <>
      {parts === undefined ? (
        <span>{text}</span>
      ) : (
        <span>
          {parts.whole}
          <span className="fraction" style={{ minWidth: `${column.fraction}ch` }}>
            {parts.fraction}
          </span>
          {column.unit > 0 && (
            <span className="unit" style={{ minWidth: `${column.unit}ch` }}>
              {parts.unit}
            </span>
          )}
        </span>
      )}
      {column.hasOther && <span className="other">{other}</span>}
    </>
  )
}
