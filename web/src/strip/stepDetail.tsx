import { pointerOf } from '@shieldwright/engine/working/pointer.ts'
import { useState } from 'react'
import { ValueField } from '../edit/valueField.tsx'
import { figureOf, hoursText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import { BoltUp } from './boltUp.tsx'
import { moveAdded, moveRemoved, movesOf, partTaken } from './orderEdits.ts'
import { At3d } from './orderTable.tsx'
import type { OrderStepView, WorkView } from './orderView.ts'

/** One step opened: why it fails, how it moves, what leaves with it, and what is opened before. */
export function StepDetail({ step, index }: { step: OrderStepView; index: number }) {
  return (
    <div className="step-detail">
      <Failures step={step} index={index} />
      {step.failing.map(({ title, reason }) => (
        <p key={title} className="small">
          <VerdictWord verdict="fail" /> {title}: {reason}.
        </p>
      ))}
      {step.open.length > 0 && (
        <p className="small">
          <span className="verdict open">open</span> {step.open.join('. ')}.
        </p>
      )}
      <div className="step-columns">
        <div>
          <Moves step={step} />
          <Parts step={step} />
        </div>
        <div>
          <Works name="Joints opened before" works={step.joints} />
          <Works name="Services parted before" works={step.services} />
          <BeforeParting step={step} />
        </div>
      </div>
      <BoltUp step={step} />
    </div>
  )
}

/** What comes before a service is parted, in its order. */
function BeforeParting({ step }: { step: OrderStepView }) {
  const { system } = useShown()
  const drained = figureOf(step.drained, 'm3', system)
  if (step.isolations.length === 0 && step.drained === 0) return null
  return (
    <>
      <h3>Before anything is parted, in this order</h3>
      <ol className="moves-list small">
        {step.isolations.map(({ id, what, storedEnergy, acts }) => (
          <li key={id}>
            {id}, {what}: {acts.map(({ act, on }) => `${act} ${on === undefined ? '(not signed)' : on}`).join(', ')}
            {storedEnergy === undefined ? '' : `. Stored energy: ${storedEnergy}`}
          </li>
        ))}
        {step.drained > 0 && (
          <li>
            drain and catch {drained.number} {drained.unit}
          </li>
        )}
        <li>part and cap {step.services.length} services, each tagged</li>
      </ol>
    </>
  )
}

function Failures({ step, index }: { step: OrderStepView; index: number }) {
  if (step.failures.length === 0) return null
  return (
    <ul className="failures">
      {step.failures.map((f) => (
        <li key={f.reason + f.part}>
          <span className="fail strong">
            {f.part === undefined ? step.name : `Its part ${f.part}`}
            {f.towards === undefined ? '' : `, going ${f.towards}`}:
          </span>{' '}
          {f.reason}. In the way:{' '}
          {f.blockers.map((b) => (
            <span key={b.id} className="each">
              {b.name} ({b.id}) <At3d index={index} part={b.id} />
            </span>
          ))}
        </li>
      ))}
    </ul>
  )
}

function Moves({ step }: { step: OrderStepView }) {
  const { document, trial, act } = useShown()
  const shown = trial?.document ?? document
  const moves = movesOf(shown, step.step)
  const field = (i: number, name: string, words: string) => (
    <ValueField
      pointer={pointerOf('steps', step.step, 'moves', String(i), name)}
      name={`${step.name}, move ${i + 1}, ${words}`}
    />
  )
  const remove = (i: number): void =>
    act.tryOut(moveRemoved(shown, step.step, i), `${step.name}: move ${i + 1} taken out`)
  return (
    <>
      <h3>Moves: forward, left, up, in the site’s axes</h3>
      <ol className="moves-list">
        {moves.map((move, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a move is known by its place
          <li key={i}>
            {Object.hasOwn(move as object, 'by') ? (
              <>by {field(i, 'by', 'by')}</>
            ) : (
              <>
                turn {field(i, 'turn', 'turn')} about {field(i, 'axis', 'axis')} through {field(i, 'about', 'about')}
              </>
            )}{' '}
            {moves.length > 1 && (
              <button type="button" className="link small" onClick={() => remove(i)}>
                take out
              </button>
            )}
          </li>
        ))}
      </ol>
      <button
        type="button"
        className="link small"
        onClick={() => act.tryOut(moveAdded(shown, step.step), `${step.name}: a move added`)}
      >
        Add a straight move
      </button>
    </>
  )
}

/** What leaves with the piece; a part can leave with another piece instead. */
function Parts({ step }: { step: OrderStepView }) {
  const { document, trial, act, summary } = useShown()
  const shown = trial?.document ?? document
  const listed = (shown as { pieces?: Record<string, { parts: string[] }> }).pieces?.[step.piece]?.parts ?? []
  const [part, setPart] = useState('')
  const [to, setTo] = useState('')
  const take = (): void => {
    const patch = partTaken(shown, part, step.piece, to)
    const target = summary.pieces.find((p) => p.id === to)?.name ?? to
    if (patch.length > 0) act.tryOut(patch, `${part}: with ${step.name} → with ${target}`)
  }
  return (
    <>
      <h3>Leaves with it</h3>
      <p className="small">{listed.join(', ')}</p>
      {listed.length > 1 && (
        <p className="take small">
          <label>
            Take{' '}
            <select value={part} onChange={(e) => setPart(e.target.value)}>
              <option value="">a part</option>
              {listed.map((id) => (
                <option key={id}>{id}</option>
              ))}
            </select>
          </label>{' '}
          <label>
            to{' '}
            <select value={to} onChange={(e) => setTo(e.target.value)}>
              <option value="">another piece</option>
              {summary.pieces
                .filter((p) => p.id !== step.piece)
                .map((p) => (
                  <option key={p.id} value={p.id}>
                    {p.name}
                  </option>
                ))}
            </select>
          </label>{' '}
          <button type="button" disabled={part === '' || to === ''} onClick={take}>
            Preview
          </button>
        </p>
      )}
    </>
  )
}

function Works({ name, works }: { name: string; works: readonly WorkView[] }) {
  if (works.length === 0) return null
  const total = works.reduce((sum, w) => sum + (w.off ?? 0), 0)
  return (
    <details open={works.length <= MANY}>
      <summary>
        {name}: {works.length}, {hoursText(total)}
      </summary>
      <Scroll name={name}>
        <table>
          <caption className="unseen">{name}</caption>
          <thead>
            <tr>
              <th scope="col">Id</th>
              <th scope="col">Between</th>
              <th scope="col" className="num">
                Off
              </th>
              <th scope="col" className="num">
                On again
              </th>
              <th scope="col" />
            </tr>
          </thead>
          <tbody>
            {works.map((w) => (
              <tr key={w.id}>
                <th scope="row">{w.id}</th>
                <td className="small">{w.name}</td>
                <td className="num">{hoursText(w.off)}</td>
                <td className="num">{hoursText(w.on)}</td>
                <td className="small quiet">{w.note}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </details>
  )
}

/** From so many on a list is folded. */
const MANY = 8
