import { showQuantity } from '@shieldwright/engine/working/quantity.ts'
import { ValueField } from '../edit/valueField.tsx'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { type Corner, type Drawn, edgeLength } from './corners.ts'

interface CornerTableProps {
  pointer: string
  name: string
  drawn: Drawn
  corners: readonly Corner[]
  chosen: number | undefined
  onChoose: (index: number) => void
  onAdd: (after: number) => void
  onRemove: (index: number) => void
}

const HEADS: Readonly<Record<Drawn, readonly [string, string]>> = {
  revolution: ['along the axis', 'from the axis'],
  extrusion: ['first', 'second'],
}

/** Corners as they are typed, with the length of the edge that begins at each. */
export function CornerTable({ pointer, name, drawn, corners, chosen, onChoose, onAdd, onRemove }: CornerTableProps) {
  const { system, readOnly } = useShown()
  return (
    <Scroll name={`${name}, corners`}>
      <table className="corner-table">
        <thead>
          <tr>
            <th scope="col">corner</th>
            {HEADS[drawn].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
            <th scope="col" className="num">
              edge to the next
            </th>
            {readOnly === undefined && (
              <th scope="col">
                <span className="unseen">changes</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {corners.map((_, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a corner is known by its place in the line
            <tr key={i} className={i === chosen ? 'chosen' : ''} onFocus={() => onChoose(i)}>
              <th scope="row">{i + 1}</th>
              {[0, 1].map((k) => (
                <td key={k}>
                  <ValueField pointer={`${pointer}/${i}/${k}`} name={`${name}, corner ${i + 1}, ${HEADS[drawn][k]}`} />
                </td>
              ))}
              <td className="num">{showQuantity(edgeLength(corners, i), 'm', system)}</td>
              {readOnly === undefined && (
                <td>
                  <button
                    type="button"
                    className="link small"
                    aria-label={`${name}: add a corner after ${i + 1}`}
                    onClick={() => onAdd(i)}
                  >
                    add after
                  </button>{' '}
                  <button
                    type="button"
                    className="link small"
                    aria-label={`${name}: remove corner ${i + 1}`}
                    onClick={() => onRemove(i)}
                  >
                    remove
                  </button>
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
