import { applyPatch, type Operation } from '@shieldwright/engine/working/patch.ts'
import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useMemo, useRef, useState } from 'react'
import { keepInSight, whenDrawn } from '../frame/inSight.ts'
import { type CommonStore, useSelected } from '../shared.ts'
import { Signatures } from '../signing/signatures.tsx'
import { type RefusedCell, useShown } from '../state.ts'
import { isBlock, pasted } from './block.ts'
import type { Collection } from './collections/collection.ts'
import { Fields } from './detail.tsx'
import { filled } from './fill.ts'
import { blockText, columnsFor, freeId, type GridColumn, type GridRow, rangeText, textAt } from './grid.ts'
import { Row, type RowActs } from './row.tsx'
import { fieldAt, schemaOf } from './schema.ts'
import { useCommit } from './useCell.ts'

interface GridProps {
  collection: Collection
  columns: readonly GridColumn[]
  rows: readonly GridRow[]
  after: { heading: string; of: (row: GridRow) => React.ReactNode } | undefined
}

/** Where one is in a table; column −1 is the id. */
interface Place {
  pointer: string
  column: number
  isTyping: boolean
  /** The other end of a range. */
  from: { row: number; column: number } | undefined
}

/** Rows drawn together; those out of sight are left out. */
const CHUNK = 40

export function Grid({ collection, columns, rows, after }: GridProps) {
  const { client, document, trial, act, refusedCells, readOnly, route } = useShown()
  const { selected, set } = useSelected()
  const commit = useCommit()
  const [place, setPlace] = useState<Place>()
  const [open, setOpen] = useState<string>()
  const indexOf = useMemo(() => new Map(rows.map((row, i) => [row.pointer, i])), [rows])
  const refused = useMemo(() => refusedByRow(refusedCells, collection.at), [refusedCells, collection.at])
  const wrong = useMemo(() => wrongByRow(trial, collection.at), [trial, collection.at])
  const activeRow = place === undefined ? undefined : indexOf.get(place.pointer)

  const go = (row: number, column: number, more: Partial<Place> = {}): void => {
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

  // What rows are handed stays the same, so that only rows that change are drawn again.
  const now = useRef({ rows, columns, commit, act, go, indexOf })
  now.current = { rows, columns, commit, act, go, indexOf }
  const acts = useMemo((): RowActs => {
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
  }, [])

  const range = rangeOf(place, activeRow)
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
      onKeyDown={onKeyDown}
      onClick={onClick}
      onFocus={onFocus}
      onPaste={onPaste}
      onCopy={onCopy}
    >
      <caption className="unseen">
        {collection.title}: arrows go between cells, Enter types, Ctrl+D fills a range down, Ctrl+Enter keeps, Esc
        leaves
      </caption>
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
              {after.heading}
            </th>
          )}
        </tr>
      </thead>
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
/** Rows that Page Up and Page Down go over. */
const PAGE = 15

/** Where a key goes from a cell; undefined for a key that goes nowhere. */
function stepOf(
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
/** No cell is active, and the table can be reached by Tab: its first id. */
const IDLE = -2

function chunksOf(rows: readonly GridRow[]): GridRow[][] {
  return Array.from({ length: Math.ceil(rows.length / CHUNK) }, (_, i) => rows.slice(i * CHUNK, (i + 1) * CHUNK))
}

interface ChunkProps {
  count: number
  span: number
  isForced: boolean
  children: () => React.ReactNode
}

/** Rows that are drawn while they are near the window; otherwise the room that they take. */
function Chunk({ count, span, isForced, children }: ChunkProps) {
  const body = useRef<HTMLTableSectionElement>(null)
  const [isNear, setNear] = useState(false)
  const height = useRef(count * 27)
  useEffect(() => {
    const { current } = body
    if (current === null) return
    const watcher = new IntersectionObserver(
      ([entry]) => {
        if (entry === undefined) return
        if (!entry.isIntersecting && current.offsetHeight > 0) height.current = current.offsetHeight
        setNear(entry.isIntersecting)
      },
      { rootMargin: '900px 0px' },
    )
    watcher.observe(current)
    return () => watcher.disconnect()
  }, [])
  return (
    <tbody ref={body}>
      {isNear || isForced ? (
        children()
      ) : (
        <tr className="spacer">
          <td colSpan={span} style={{ height: height.current }} />
        </tr>
      )}
    </tbody>
  )
}

function RowWithDetail({
  isOpen,
  row,
  collection,
  span,
  children,
}: {
  isOpen: boolean
  row: GridRow
  collection: Collection
  span: number
  children: React.ReactNode
}) {
  return (
    <>
      {children}
      {isOpen && (
        <tr className="detail">
          <td colSpan={span}>
            <div>
              <Fields pointer={row.pointer} name={row.name} />
              <RowActions row={row} collection={collection} />
              <RowSignatures row={row} collection={collection} />
            </div>
          </td>
        </tr>
      )}
    </>
  )
}

/** Signatures on one that is kept: what is only tried out cannot be signed. */
function RowSignatures({ row, collection: { signed, one } }: { row: GridRow; collection: Collection }) {
  const { document } = useShown()
  if (signed === undefined || at(document, row.pointer) === undefined) return null
  const title = `Signatures on this ${one}`
  return <Signatures kind={signed.kind} subject={row.pointer} title={title} signsAs={signed.as} />
}

function RowActions({ row, collection }: { row: GridRow; collection: Collection }) {
  const { document, trial, act, readOnly } = useShown()
  if (readOnly !== undefined) return null
  const held = at(trial?.document ?? document, collection.at)
  const copy = (): void => {
    const id = freeId(new Set(Object.keys(held as object)), row.id)
    const path = collection.at + (Array.isArray(held) ? '/-' : pointerOf(id))
    act.tryOut([{ op: 'add', path, value: row.entity }], `${collection.one} ${row.name} copied to ${id}`)
  }
  const remove = (): void => act.tryOut([{ op: 'remove', path: row.pointer }], `${collection.one} ${row.name} removed`)
  return (
    <div className="detail-acts">
      <button type="button" onClick={copy}>
        Copy this {collection.one}
      </button>
      <button type="button" onClick={remove}>
        Remove it
      </button>
    </div>
  )
}

interface Range {
  rows: readonly [number, number]
  columns: readonly [number, number]
}

function rangeOf(place: Place | undefined, row: number | undefined): Range | undefined {
  if (place?.from === undefined || row === undefined) return undefined
  const between = (a: number, b: number): readonly [number, number] => [Math.min(a, b), Math.max(a, b)]
  return { rows: between(place.from.row, row), columns: between(place.from.column, place.column) }
}

function copied(rows: readonly GridRow[], columns: readonly GridColumn[], active: number, place: Place): string {
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

/** Refused cells by the row that they stand in. */
function refusedByRow(
  cells: ReadonlyMap<string, RefusedCell>,
  collection: string,
): Map<string, [string, RefusedCell][]> {
  return byRow(
    [...cells],
    collection,
    ([pointer]) => pointer,
    ([, cell], below): [string, RefusedCell] => [below, cell],
  )
}

function wrongByRow(trial: ReturnType<typeof useShown>['trial'], collection: string): Map<string, string[]> {
  return byRow(
    trial?.preview.problems ?? [],
    collection,
    (p) => p.pointer,
    (_, below) => below,
  )
}

function byRow<T, R>(
  all: readonly T[],
  collection: string,
  pointerOfOne: (one: T) => string,
  made: (one: T, below: string) => R,
): Map<string, R[]> {
  const rows = new Map<string, R[]>()
  for (const one of all) {
    const pointer = pointerOfOne(one)
    if (!pointer.startsWith(`${collection}/`)) continue
    const end = pointer.indexOf('/', collection.length + 1)
    const row = end < 0 ? pointer : pointer.slice(0, end)
    rows.set(row, [...(rows.get(row) ?? []), made(one, pointer.slice(row.length))])
  }
  return rows
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
