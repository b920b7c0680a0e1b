import { Scroll } from '../parts/scroll.tsx'
import { useSelected } from '../shared.ts'
import { routeTo } from '../state.ts'
import type { CampaignView } from './view.ts'

/** What the diagram shows, as a table: a row for each piece, from the top lane down. */
export function CampaignTable({ view }: { view: CampaignView }) {
  const { selected, set } = useSelected()
  return (
    <Scroll name="The campaign as a table">
      <table>
        <caption className="unseen">Every piece: out, on which bay, turned, back</caption>
        <thead>
          <tr>
            <th scope="col">Piece</th>
            <th scope="col">Bay</th>
            <th scope="col">Out</th>
            <th scope="col" className="num">
              Mass
            </th>
            <th scope="col">Basis</th>
            <th scope="col" className="num">
              Hook
            </th>
            <th scope="col" className="num">
              Use
            </th>
            <th scope="col" className="num">
              Stops at
            </th>
            <th scope="col">Turned</th>
            <th scope="col">Back</th>
            <th scope="col" className="num">
              Change
            </th>
          </tr>
        </thead>
        <tbody>
          {view.pieces.map((p) => (
            <tr key={p.pointer} className={p.pointer === selected ? 'chosen here' : undefined}>
              <th scope="row">
                <button type="button" className="link" onClick={() => set({ selected: p.pointer })}>
                  {p.name}
                </button>
              </th>
              <td>{p.bay}</td>
              <td className="small">
                <a href={routeTo('lift', p.lift)}>{p.out}</a>
              </td>
              <td className="num">{p.mass}</td>
              <td className="small quiet">{p.basis}</td>
              <td className="num">{p.hook}</td>
              <td className="num">{p.use}</td>
              <td className="num">{p.wind}</td>
              <td className="small">{p.turned}</td>
              <td className="small">
                {p.liftBack === undefined ? p.back : <a href={routeTo('lift', p.liftBack)}>{p.back}</a>}
              </td>
              <td className="num">{p.change}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}
