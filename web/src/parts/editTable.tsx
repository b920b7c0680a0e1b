import { at } from '@shieldwright/engine/working/pointer.ts'
import { ValueField } from '../edit/valueField.tsx'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import { Scroll } from './scroll.tsx'

/** A column of a small table that is edited in place: where in the entity it stands. */
export interface EditColumn {
  heading: string
  /** Below the entity, such as "/mass/value". */
  below: string
  right?: boolean
}

export interface EditRow {
  id: string
  /** Address of the entity. */
  pointer: string
  name: string
}

interface EditTableProps {
  caption: string
  rows: readonly EditRow[]
  columns: readonly EditColumn[]
}

/** A few rows of a page's own choice, edited in place. A whole collection is a CollectionTable. */
export function EditTable({ caption, rows, columns }: EditTableProps) {
  return (
    <section>
      <div className="titled">
        <h2>{caption}</h2>
        <span className="small quiet">
          any unit: 412 t, 907 kip, 63 ft 4 in · <kbd>↵</kbd> preview · <kbd>Ctrl ↵</kbd> keep
        </span>
      </div>
      <Scroll name={caption}>
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
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <EditRowLine key={row.id} row={row} columns={columns} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

function EditRowLine({ row, columns }: { row: EditRow; columns: readonly EditColumn[] }) {
  const { document, trial } = useShown()
  const { selected } = useSelected()
  const touched = trial !== undefined && at(document, row.pointer) !== at(trial.document, row.pointer)
  return (
    <tr className={touched ? 'chosen here' : undefined} aria-selected={selected === row.pointer}>
      <td className="quiet">{row.id}</td>
      <th scope="row">{row.name}</th>
      {columns.map((c) => (
        <td key={c.below} className={c.right ? 'num' : undefined}>
          <ValueField pointer={row.pointer + c.below} name={`${row.name}, ${c.heading.toLowerCase()}`} />
        </td>
      ))}
    </tr>
  )
}
