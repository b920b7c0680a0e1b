import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import type { GroundView, JackView } from './view.ts'

/** Every jack under the shield: what it carries with all at one height, and what a height out of step adds or takes. */
export function Jacks({ ground }: { ground: GroundView }) {
  if (ground.jacks.length === 0) return null
  const like = Math.max(...ground.jacks.map((j) => j.most ?? 0))
  return (
    <section>
      <div className="titled">
        <h2>Jacks under the shield</h2>
        <span className="small quiet">
          the whole of what stands in the shaft then; out of step by the synchronous tolerance
        </span>
      </div>
      <Scroll name="Jacks under the shield">
        <table>
          <caption className="unseen">Load of each jack, even and out of step</caption>
          <thead>
            <tr>
              <th scope="col">Jack</th>
              <th scope="col" className="num">
                Along
              </th>
              <th scope="col" className="num">
                Across
              </th>
              <th scope="col" className="num">
                Least, even
              </th>
              <th scope="col" className="num">
                Most, even
              </th>
              <th scope="col" className="num">
                More when ahead
              </th>
              <th scope="col" className="num">
                Less when behind
              </th>
              <th scope="col">
                <span className="unseen">Unit</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {ground.jacks.map((jack) => (
              <JackRow key={jack.id} jack={jack} like={like} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

function JackRow({ jack, like }: { jack: JackView; like: number }) {
  const { system } = useShown()
  const { selected, set } = useSelected()
  const isSelected = selected === jack.pointer
  const force = (value: number | undefined) => figureOf(value, 'N', system, value === undefined ? value : like)
  const [x, y] = jack.at.map((v) => figureOf(v, 'm', system))
  return (
    <tr className={isSelected ? 'chosen' : undefined}>
      <th scope="row">
        <button
          type="button"
          className="link"
          aria-pressed={isSelected}
          onClick={() => set({ selected: isSelected ? undefined : jack.pointer })}
        >
          {jack.id}
        </button>
      </th>
      <td className="num">
        {x?.number} {x?.unit}
      </td>
      <td className="num">
        {y?.number} {y?.unit}
      </td>
      <td className="num">{force(jack.least).number}</td>
      <td className="num">{force(jack.most).number}</td>
      <td className="num">{force(jack.ahead).number}</td>
      <td className="num">{force(jack.lost).number}</td>
      <td className="unit">{force(like).unit}</td>
    </tr>
  )
}
