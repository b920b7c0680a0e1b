import { at, pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { Signatures } from '../signing/signatures.tsx'
import { useShown } from '../state.ts'
import type { Collection } from './collections/collection.ts'
import { Fields } from './detail.tsx'
import { freeId, type GridRow } from './grid.ts'

/** A row, and under it all that it holds while it is open. */
export function RowWithDetail({
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
