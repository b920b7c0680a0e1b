import { useEffect, useState } from 'react'
import { useShown } from '../state.ts'
import { adopted, proposedSteps } from './orderEdits.ts'
import type { NearestView, OrderView } from './orderView.ts'

/** Where an order fails: the nearest one that works, what of it mends each fault, and the way to adopt it. */
export function NearestOrder({ order }: { order: OrderView | undefined }) {
  const failing = order?.steps.filter((s) => s.failures.length > 0 || s.verdict === 'fail') ?? []
  const [open, setOpen] = useState(false)
  if (failing.length === 0) return null
  return (
    <section>
      <div className="titled">
        <h2>The nearest order that works</h2>
        <button type="button" className="link small" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'fold it' : 'look for it'}
        </button>
      </div>
      {open ? (
        <Nearest key={failing.map((s) => s.step).join()} />
      ) : (
        <p className="small quiet">
          {failing.length === 1 ? 'One step fails' : `${failing.length} steps fail`}. Each stays at its turn where it
          can; what is lacking is added, what can never go is left out.
        </p>
      )}
    </section>
  )
}

function Nearest() {
  const { client, summary, trial } = useShown()
  const [found, setFound] = useState<NearestView | null>()
  const patch = trial === undefined || trial.pending ? undefined : trial.patch
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked for again when the project or what is tried changes
  useEffect(() => {
    if (trial?.pending === true) return
    let here = true
    client.ask('nearest', { patch }).then((view) => here && setFound(view ?? null))
    return () => {
      here = false
    }
  }, [client, summary, patch, trial?.pending])
  if (found === undefined) return <p className="quiet">working: ways out of every piece</p>
  return found === null ? (
    <p>Every step is free, and what it leaves is held: no other order mends what fails here.</p>
  ) : (
    <Change found={found} />
  )
}

function Change({ found }: { found: NearestView }) {
  const { document, trial, act, readOnly } = useShown()
  const shown = trial?.document ?? document
  const preview = (): void => {
    const patch = adopted(shown, proposedSteps(shown, found), { keepMoves: true, keepOthers: true })
    act.tryOut(patch, 'the nearest order that works')
  }
  const { moved, added, dropped } = found
  return (
    <>
      <ul className="failures">
        {found.mends.map(({ step, fault, mend }) => (
          <li key={step + fault}>
            <span className="fail strong">{step}</span> {fault}. <span className="strong">Mended by: {mend}.</span>
          </li>
        ))}
      </ul>
      <p>
        {moved.length > 0 && <>Later than now: {moved.join(', ')}. </>}
        {added.length > 0 && <>Added: {added.join(', ')}. </>}
        {dropped.length > 0 && <>Left out: {dropped.join(', ')}. </>}
        <button type="button" onClick={preview} disabled={readOnly !== undefined}>
          Preview it
        </button>
      </p>
      <p className="small quiet">Looked at: {found.moveSpace}. That nothing less would do is not proven.</p>
    </>
  )
}
