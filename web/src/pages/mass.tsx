import type { Column } from '../edit/collections/collection.ts'
import { CollectionTable } from '../edit/table.tsx'
import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { StageChecks } from './stage.tsx'

/** What each piece weighs, as found, as weighed and as returned; and the masses it comes from. */
export function MassPage() {
  return (
    <>
      <CollectionTable of="/weighings" />
      <Pieces />
      <CollectionTable of="/parts" columns={PART_MASSES} title="Masses of parts" />
      <StageChecks stage="mass" />
    </>
  )
}

const PART_MASSES: readonly Column[] = [
  { heading: 'Name', below: '/name', width: 28 },
  { heading: 'Mass of one', below: '/mass/value' },
  { heading: '±', below: '/mass/uncertainty', width: 7 },
  { heading: 'Basis', below: '/mass/basis' },
  { heading: 'Date', below: '/mass/date' },
  { heading: 'Source', below: '/mass/source', width: 40 },
  { heading: 'Count', below: '/pattern/count', width: 7 },
]

function Pieces() {
  const { summary, system } = useShown()
  const mass = (value: number | undefined, like: number | undefined) =>
    value === undefined ? '' : figureOf(value, 'kg', system, like).number
  return (
    <section>
      <h2>Pieces</h2>
      <Scroll name="Masses of the pieces">
        <table>
          <caption className="unseen">Masses of the pieces</caption>
          <thead>
            <tr>
              <th scope="col">Piece</th>
              <th scope="col" className="num">
                Parts
              </th>
              <th scope="col" className="num">
                As found, net
              </th>
              <th scope="col" className="num">
                ±
              </th>
              <th scope="col" className="num">
                Weighed
              </th>
              <th scope="col" className="num">
                As returned
              </th>
              <th scope="col">
                <span className="unseen">Unit</span>
              </th>
              <th scope="col" className="num">
                Centre of gravity x, site, {figureOf(1, 'm', system).unit}
              </th>
              <th scope="col" className="num">
                y
              </th>
              <th scope="col" className="num">
                z
              </th>
            </tr>
          </thead>
          <tbody>
            {summary.pieces.map((p) => (
              <tr key={p.id}>
                <th scope="row">{p.name}</th>
                <td className="num">{p.parts}</td>
                <td className="num">{mass(p.found, 1e6)}</td>
                <td className="num quiet">{mass(p.uncertainty, 1e6)}</td>
                <td className="num">{mass(p.weighed, 1e6)}</td>
                <td className="num">{mass(p.returned, 1e6)}</td>
                <td className="unit">{figureOf(1e6, 'kg', system).unit}</td>
                {p.cog.map((c, i) => (
                  <td key={'xyz'[i]} className="num">
                    {figureOf(c, 'm', system, 10).number}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}
