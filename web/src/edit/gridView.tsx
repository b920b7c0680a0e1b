import { at } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useMemo, useState } from 'react'
import { keepInSight, whenDrawn } from '../frame/inSight.ts'
import { type CommonStore, useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import type { Collection } from './collections/collection.ts'
import type { GridColumn, GridRow } from './grid.ts'
import { useRowActs } from './gridActs.ts'
import { CHUNK, Chunk, chunksOf } from './gridChunk.tsx'
import { useGridClips } from './gridClips.ts'
import { RowWithDetail } from './gridDetail.tsx'
import { useGridHands } from './gridHands.ts'
import { type Go, type Place, rangeOf } from './gridPlace.ts'
import { refusedByRow, wrongByRow } from './gridSaid.ts'
import { Row } from './row.tsx'

interface GridProps {
  collection: Collection
  columns: readonly GridColumn[]
  rows: readonly GridRow[]
  after: { heading: string; of: (row: GridRow) => React.ReactNode } | undefined
}

/** A collection as a table whose cells are typed in, moved through, filled, pasted into and copied. */
export function Grid({ collection, columns, rows, after }: GridProps) {
  const { document, trial, refusedCells, route } = useShown()
  const { selected, set } = useSelected()
  const [place, setPlace] = useState<Place>()
  const [open, setOpen] = useState<string>()
  const indexOf = useMemo(() => new Map(rows.map((row, i) => [row.pointer, i])), [rows])
  const refused = useMemo(() => refusedByRow(refusedCells, collection.at), [refusedCells, collection.at])
  const wrong = useMemo(() => wrongByRow(trial, collection.at), [trial, collection.at])
  const activeRow = place === undefined ? undefined : indexOf.get(place.pointer)

  const go: Go = (row, column, more = {}) => {
    const to = rows[Math.min(Math.max(row, 0), rows.length - 1)]
    if (to === undefined) return
    const within = Math.min(Math.max(column, -1), columns.length - 1)
    setPlace({ pointer: to.pointer, column: within, isTyping: false, from: undefined, ...more })
  }
  useSelectsRow(place?.pointer, set)
  // an address such as #model/services/W-1, from a tag or a link, opens its line
  const asked = rows.find((row) => row.pointer === `/${route.item}`)?.pointer
  useEffect(() => {
    if (asked === undefined) return
    setPlace({ pointer: asked, column: -1, isTyping: false, from: undefined })
    setOpen(asked)
    return whenDrawn(
      () => globalThis.document.querySelector<HTMLElement>(`th[data-pointer="${CSS.escape(asked)}"]`),
      (row) => keepInSight(row, 'center'),
    )
  }, [asked])

  const acts = useRowActs({ rows, columns, indexOf, go, setPlace, setOpen })
  const range = rangeOf(place, activeRow)
  const handled = { collection, columns, rows, place, activeRow, range, acts, go, setPlace }
  const hands = useGridHands(handled)
  const clips = useGridClips(handled)
  const activeChunk = activeRow === undefined ? 0 : Math.floor(activeRow / CHUNK)
  const hasActive = activeRow !== undefined
  const width = columns.reduce((sum, c) => sum + c.wide, ID_WIDE + (after === undefined ? 0 : 14))
  return (
    <table
      className="grid-table"
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table whose cells are moved through by arrows is a grid
      role="grid"
      aria-rowcount={rows.length + 1}
      style={{ minWidth: `${width}ch` }}
      {...hands}
      {...clips}
    >
      <caption className="unseen">
        {collection.title}: arrows go between cells, Enter types, Ctrl+D fills a range down, Ctrl+Enter keeps, Esc
        leaves
      </caption>
      <GridHead columns={columns} after={after?.heading} />
      {chunksOf(rows).map((chunk, index) => (
        <Chunk
          key={chunk[0]?.pointer}
          count={chunk.length}
          span={columns.length + 2}
          isForced={rows.length <= CHUNK * 2 || index === activeChunk}
        >
          {() =>
            chunk.map((row, inChunk) => {
              const i = index * CHUNK + inChunk
              const isHere = i === activeRow
              return (
                <RowWithDetail
                  key={row.pointer}
                  isOpen={open === row.pointer}
                  row={row}
                  collection={collection}
                  span={columns.length + 1 + (after === undefined ? 0 : 1)}
                >
                  <Row
                    row={row}
                    kept={at(document, row.pointer)}
                    columns={columns}
                    active={isHere ? place?.column : !hasActive && i === 0 ? IDLE : undefined}
                    isTyping={isHere && place?.isTyping === true}
                    range={range !== undefined && i >= range.rows[0] && i <= range.rows[1] ? range.columns : undefined}
                    isSelected={selected === row.pointer}
                    isOpen={open === row.pointer}
                    refused={refused.get(row.pointer)}
                    wrong={wrong.get(row.pointer)}
                    after={after?.of(row)}
                    hasAfter={after !== undefined}
                    act={acts}
                  />
                </RowWithDetail>
              )
            })
          }
        </Chunk>
      ))}
    </table>
  )
}

const ID_WIDE = 15
/** No cell is active, and the table can be reached by Tab: its first id. */
const IDLE = -2

/** Widths and headings of the columns. */
function GridHead({ columns, after }: { columns: readonly GridColumn[]; after: string | undefined }) {
  return (
    <>
      <colgroup>
        <col style={{ width: `${ID_WIDE}ch` }} />
        {columns.map((c) => (
          <col key={c.below} style={{ width: `${c.wide}ch` }} />
        ))}
        {after !== undefined && <col style={{ width: '14ch' }} />}
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Id</th>
          {columns.map((c) => (
            <th key={c.below} scope="col" className={c.isFigure ? 'figure' : undefined}>
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
    </>
  )
}

const SETTLE = 150

/** The row one stays at is selected for every view. */
function useSelectsRow(pointer: string | undefined, set: CommonStore['set']): void {
  useEffect(() => {
    if (pointer === undefined) return
    const timer = setTimeout(() => set({ selected: pointer }), SETTLE)
    return () => clearTimeout(timer)
  }, [pointer, set])
}
