import './table.css'
import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { useDeferredValue, useId, useMemo, useState } from 'react'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { type Collection, type Column, isCollection } from './collections/collection.ts'
import { tableAt } from './collections.ts'
import { FillColumn } from './fillColumn.tsx'
import { blank, columnsFor, filtered, freeId, type GridRow, rangeText, rowsAt } from './grid.ts'
import { Grid } from './gridView.tsx'
import { fieldAt, useProjectField } from './schema.ts'

interface CollectionTableProps {
  /** Address of the collection, such as "/parts" or "/programme/deliveries". */
  of: string
  /** Other columns than the collection's own. */
  columns?: readonly Column[]
  title?: string
  /** A last column of the page's own, by row. */
  after?: { heading: string; of: (row: GridRow) => React.ReactNode }
}

/**
 * A collection of the project file as a table that is worked in: cells are changed in place, a row opens all its fields,
 * rows are added, copied and removed, and a block from a spreadsheet is pasted as one edit.
 */
export function CollectionTable({ of, columns, title, after }: CollectionTableProps) {
  const collection = tableAt(of)
  if (collection === undefined || !isCollection(collection)) throw new Error(`no table at ${of}`)
  return (
    <Table
      collection={{ ...collection, title: title ?? collection.title, columns: columns ?? collection.columns }}
      after={after}
    />
  )
}

/** Rows that are looked through as soon as there are so many. */
const MANY = 8

function Table({ collection, after }: { collection: Collection; after: CollectionTableProps['after'] }) {
  const { document, trial, act, readOnly } = useShown()
  const project = useProjectField()
  const [words, setWords] = useState('')
  const looked = useDeferredValue(words)
  const shown = trial?.document ?? document
  const held = at(shown, collection.at)
  // biome-ignore lint/correctness/useExhaustiveDependencies: rows follow what stands at the collection's place, and nothing else
  const rows = useMemo(() => rowsAt(shown, collection), [held, collection.at, collection.name])
  const first = rows[0]?.pointer ?? collection.at + pointerOf('0')
  const field = useMemo(() => fieldAt(project, shown, first), [project, first, shown])
  const drawn = useMemo(() => columnsFor(field, collection.columns, rows), [field, collection.columns, rows])
  const found = useMemo(() => filtered(rows, collection.columns, looked), [rows, collection.columns, looked])
  const copyAll = (): void => void navigator.clipboard.writeText(rangeText(found, collection.columns, { heads: true }))
  const findId = useId()
  return (
    <section className="edit-table">
      <div className="titled">
        <h2>
          {collection.title}{' '}
          <span className="quiet small">
            {found.length === rows.length ? rows.length : `${found.length} of ${rows.length}`}
          </span>
        </h2>
        <span className="grid-tools small">
          {rows.length >= MANY && (
            <span>
              <label htmlFor={findId}>Show only </label>
              <input id={findId} value={words} onChange={(e) => setWords(e.target.value)} />
            </span>
          )}
          {rows.length > 0 && (
            <button type="button" className="link" onClick={copyAll}>
              Copy for a spreadsheet
            </button>
          )}
          {readOnly === undefined && rows.length > 1 && (
            <FillColumn at={collection.at} title={collection.title} columns={drawn} rows={found} all={rows.length} />
          )}
          {readOnly === undefined && <AddOne collection={collection} rows={rows} field={field} act={act.tryOut} />}
        </span>
      </div>
      {rows.length === 0 ? (
        <p className="quiet">No {collection.one} yet. Give the first an id and add it.</p>
      ) : (
        <Scroll name={collection.title}>
          <Grid collection={collection} columns={drawn} rows={found} after={after} />
        </Scroll>
      )}
      {words !== '' && found.length === 0 && <p className="quiet">No row has “{words}”.</p>}
    </section>
  )
}

interface AddOneProps {
  collection: Collection
  rows: readonly GridRow[]
  field: ReturnType<typeof fieldAt>
  act: (patch: { op: 'add'; path: string; value: unknown }[], what: string) => void
}

function AddOne({ collection, rows, field, act }: AddOneProps) {
  const { document } = useShown()
  const [id, setId] = useState('')
  const isList = Array.isArray(at(document, collection.at))
  if (field === undefined) return null
  const add = (): void => {
    const key = isList ? '-' : id.trim() || freeId(new Set(rows.map((r) => r.id)), rows.at(-1)?.id ?? collection.one)
    const path = collection.at + pointerOf(key)
    const stands = at(document, collection.at) !== undefined
    const value = blank(field)
    act(
      [stands ? { op: 'add', path, value } : { op: 'add', path: collection.at, value: { [key]: value } }],
      `${collection.one} ${isList ? rows.length + 1 : key} added`,
    )
    setId('')
  }
  return (
    <span>
      {!isList && (
        <input
          className="id"
          aria-label={`Id of a new ${collection.one}`}
          placeholder="id"
          value={id}
          onChange={(e) => setId(e.target.value)}
          onKeyDown={(e) => e.key === 'Enter' && add()}
        />
      )}{' '}
      <button type="button" onClick={add}>
        Add a{/^[aeiou]/.test(collection.one) ? 'n' : ''} {collection.one}
      </button>
    </span>
  )
}
