import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import { useState } from 'react'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import { type Adopting, adopted, type ProposedStep, proposedSteps } from './orderEdits.ts'
import type { FoundOrderView } from './orderView.ts'
import { useFindOrder } from './useFindOrder.ts'

/** An order looked for: what it costs, how good it is known to be, and how it differs from the one that stands. */
export function FindOrder() {
  const { found, stale, progress, said, run, cancel } = useFindOrder()
  return (
    <section>
      <div className="titled">
        <h2>Find an order</h2>
        <span className="small quiet">the cheapest to the targets that a search can show; it proposes, you adopt</span>
      </div>
      <p className="find-order">
        {progress === undefined ? (
          <button type="button" onClick={run}>
            {found === undefined ? 'Run the search' : 'Run it again'}
          </button>
        ) : (
          <span role="status">
            working{progressWords(progress)}{' '}
            <button type="button" onClick={cancel}>
              Cancel
            </button>
          </span>
        )}
        {said !== undefined && <span className="quiet">{said}</span>}
        {stale && <span className="stale">stale: the project has changed since</span>}
      </p>
      {found !== undefined && <Proposal found={found} />}
    </section>
  )
}

function progressWords({ done, of }: { done: number; of: number }): string {
  if (of === 0) return ': reading the project'
  return done <= of ? `, ways out of ${done} of ${of} pieces` : `, ${showNumber(done - of, 0)} states looked into`
}

const hours = (seconds: number): string => `${showNumber(seconds / 3600, 1)} h`

function Proposal({ found }: { found: FoundOrderView }) {
  const { document, act, readOnly } = useShown()
  const [adopting, setAdopting] = useState<Adopting>({ keepMoves: true, keepOthers: true })
  const proposed = proposedSteps(document, found)
  const adopt = (): void =>
    act.tryOut(
      adopted(document, proposed, adopting, found.newPieces),
      `order found by search, ${hours(found.cost)} of work`,
    )
  return (
    <>
      <p>
        {found.feasible ? (
          <>
            Found: <span className="strong">{hours(found.cost)}</span> of joints, services and handling, out and back.{' '}
            {found.proven
              ? 'Nothing cheaper exists within the moves that were looked at.'
              : `No order within these moves comes below ${hours(found.bound)}.`}{' '}
            <span className="quiet">The adopted order comes to {hours(found.adoptedCost)} by the same measure.</span>
          </>
        ) : (
          <span className="fail strong">No order was found that is free at every step.</span>
        )}
      </p>
      <Besides found={found} />
      <p className="small quiet">Looked at: {found.moveSpace}.</p>
      {found.prevented.map(({ target, because }) => (
        <p key={target} className="fail">
          {target} cannot be reached. The fewest that keep it so: {because.join('; ')}.
        </p>
      ))}
      {found.prevented.length === 0 && found.stuck.length > 0 && (
        <p className="fail">Stuck: {found.stuck.slice(0, 5).join('; ')}.</p>
      )}
      {found.steps.length > 0 && (
        <>
          <Difference proposed={proposed} found={found} />
          <p className="adopting">
            <Choice of="keepMoves" adopting={adopting} onChange={setAdopting}>
              steps of the file keep their own moves
            </Choice>
            <Choice of="keepOthers" adopting={adopting} onChange={setAdopting}>
              steps that the search has no need of stay behind those that they follow
            </Choice>
            <button type="button" onClick={adopt} disabled={readOnly !== undefined}>
              Preview it as the adopted order
            </button>
          </p>
        </>
      )}
    </>
  )
}

/** Digits in threes. */
const spaced = (digits: string): string => digits.replace(/\B(?=(\d{3})+$)/g, '\u202f')

/** What is lifted as one, what has to be propped, and which other orders there are. */
function Besides({ found }: { found: FoundOrderView }) {
  const { summary } = useShown()
  const name = (id: string): string => summary.pieces.find((p) => p.id === id)?.name ?? id
  const gap = found.proven ? undefined : found.cost - found.bound
  return (
    <ul className="small">
      {gap !== undefined && found.feasible && (
        <li>
          Effort ran out after {showNumber(found.looked, 0)} states: at most {hours(gap)} could still be saved.
        </li>
      )}
      {found.newPieces.map(({ id, pieces }) => (
        <li key={id}>Lifted as one: {pieces.map(name).join(' with ')}.</li>
      ))}
      {found.apartCost !== undefined && found.newPieces.length > 0 && (
        <li>With every piece lifted alone it would come to {hours(found.apartCost)}.</li>
      )}
      {found.apartCost !== undefined && found.newPieces.length === 0 && (
        <li>To lift pieces of the file as one gains nothing within these moves.</li>
      )}
      {found.orders !== undefined && (
        <li>The same pieces can go in {spaced(found.orders)} orders; this is one of them, at the same cost.</li>
      )}
      {found.supports.map((support) => (
        <li key={support}>A temporary support: {support}.</li>
      ))}
      {found.others.map(({ without, instead, cost }) => (
        <li key={without}>
          Without {name(without)}
          {instead.length === 0 ? '' : `, but with ${instead.map(name).join(', ')}`}: {hours(cost)}.
        </li>
      ))}
    </ul>
  )
}

interface ChoiceProps {
  of: keyof Adopting
  adopting: Adopting
  onChange: (adopting: Adopting) => void
  children: React.ReactNode
}

const Choice = ({ of, adopting, onChange, children }: ChoiceProps) => (
  <label>
    <input type="checkbox" checked={adopting[of]} onChange={(e) => onChange({ ...adopting, [of]: e.target.checked })} />{' '}
    {children}
  </label>
)

function Difference({ proposed, found }: { proposed: readonly ProposedStep[]; found: FoundOrderView }) {
  const { document, summary } = useShown()
  const order = (document as { order?: readonly string[] }).order ?? []
  const left = order.filter((id) => !proposed.some((p) => p.step === id))
  const common = order.filter((id) => !left.includes(id))
  const name = (piece: string): string => summary.pieces.find((p) => p.id === piece)?.name ?? piece
  return (
    <>
      <Scroll name="The proposal against the adopted order">
        <table className="difference">
          <caption className="unseen">The proposal against the adopted order</caption>
          <thead>
            <tr>
              <th scope="col" className="num">
                Proposed
              </th>
              <th scope="col">Piece</th>
              <th scope="col" className="num">
                Now
              </th>
              <th scope="col">Difference</th>
            </tr>
          </thead>
          <tbody>
            {proposed.map((p, i) => (
              <tr key={p.step}>
                <td className="num">{i + 1}</td>
                <th scope="row">
                  {name(p.piece)}
                  {p.stays && <span className="small quiet"> put aside</span>}
                </th>
                <td className="num">{p.was === undefined ? 'new' : p.was + 1}</td>
                <td className="small">
                  <Differs by={common.indexOf(p.step) - i} step={p} />
                  {(found.steps[i]?.failures.length ?? 0) > 0 && (
                    <span className="fail"> {found.steps[i]?.failures.join('; ')}</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {left.length > 0 && <p className="small">No need of it to reach the targets: {left.join(', ')}.</p>}
    </>
  )
}

function Differs({ by, step }: { by: number; step: ProposedStep }) {
  const words = [
    ...(step.was === undefined || by === 0 ? [] : [by > 0 ? `${by} earlier` : `${-by} later`]),
    ...(step.newMoves ? ['other moves'] : []),
  ]
  return words.length === 0 ? (
    <span className="quiet">the same</span>
  ) : (
    <span className="strong">{words.join(', ')}</span>
  )
}
