import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import type { BayView, GroundView } from './view.ts'

const RANK: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** Every bay: where, what it may carry, the most that is set on it, what is left; selecting one marks it in the drawing. */
export function Bays({ ground }: { ground: GroundView }) {
  if (ground.bays.length === 0) return <p>No laydown bays yet. Give /bays a place, a size and what it may carry.</p>
  return (
    <section>
      <div className="titled">
        <h2>What the bays carry</h2>
        <span className="small quiet">the largest of any step; press a bay to see it in the drawing</span>
      </div>
      <Scroll name="What the bays carry">
        <table>
          <caption className="unseen">Laydown bays: capacity and the largest pressure</caption>
          <thead>
            <tr>
              <th scope="col">Verdict</th>
              <th scope="col">Bay, most by</th>
              <th scope="col">Lies there now</th>
              <th scope="col" className="num">
                Pressure
              </th>
              <th scope="col" className="num">
                Allowed
              </th>
              <th scope="col" className="num">
                Left
              </th>
              <th scope="col">
                <span className="unseen">Unit</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {ground.bays.map((bay) => (
              <BayRow key={bay.id} bay={bay} like={likeOf(ground.bays)} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

/** One scale for the whole column, so that decimals align. */
const likeOf = (bays: readonly BayView[]): number => Math.max(...bays.flatMap((b) => [b.allowable ?? 0, b.most ?? 0]))

function BayRow({ bay, like }: { bay: BayView; like: number }) {
  const { system, summary } = useShown()
  const { selected, set } = useSelected()
  const pointer = `/bays/${bay.id}`
  const own = summary.checks.filter((c) => c.pointer === pointer)
  const verdict = RANK.find((v) => own.some((c) => c.verdict === v))
  const pressure = (value: number | undefined) => figureOf(value, 'Pa', system, value === undefined ? value : like)
  const left = bay.most === undefined || bay.allowable === undefined ? undefined : bay.allowable - bay.most
  const used = bay.most !== undefined || bay.piece !== undefined
  return (
    <tr className={selected === pointer ? 'chosen' : undefined}>
      <td>{verdict === undefined ? <span className="quiet">not used</span> : <VerdictWord verdict={verdict} />}</td>
      <th scope="row">
        <button
          type="button"
          className="link"
          aria-pressed={selected === pointer}
          onClick={() => set({ selected: selected === pointer ? undefined : pointer })}
        >
          {bay.name}
        </button>
        {bay.piece !== undefined && <div className="small quiet">{bay.piece}</div>}
      </th>
      <td className="small">{listOf(bay.standing)}</td>
      <td className="num">{used ? pressure(bay.most).number : ''}</td>
      <td className="num">{pressure(bay.allowable).number}</td>
      <td className={`num ${left !== undefined && left < 0 ? 'fail strong' : ''}`}>
        {used ? pressure(left).number : ''}
      </td>
      <td className="unit">{pressure(bay.allowable).unit}</td>
    </tr>
  )
}

const FEW = 3

/** Up to three by name, more as a count with the names in hand. */
const listOf = (names: readonly string[]): string =>
  names.length <= FEW ? names.join(', ') : `${names.slice(0, 2).join(', ')} and ${names.length - 2} more`
