import './start.css'
import { useEffect, useRef, useState } from 'react'
import { CheckTable, worstFirst } from '../parts/checks.tsx'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { StepForm } from './form.tsx'
import { OpenFile } from './openFile.tsx'
import { type StepNow, stepsNow } from './steps.ts'

/** The first page of a project that has no lift yet: what the first one needs, in order, each with the smallest form. */
export function Guide() {
  const { document } = useShown()
  const steps = stepsNow(document)
  const next = steps.find((s) => s.missing.length > 0 && s.waits === undefined)
  const [chosen, setChosen] = useState<string>()
  const open = chosen ?? next?.step.id
  const done = steps.filter((s) => s.missing.length === 0).length
  const list = useRef<HTMLOListElement>(null)
  useNextField(list, next?.step.id, done, () => setChosen(undefined))
  return (
    <section className="start">
      <FirstLift />
      <div className="titled">
        <h1 className="large">What is needed for the first lift</h1>
        <span className="small quiet">
          {done} of {steps.length} there
        </span>
      </div>
      <p>
        Fill in what you know, in the units you have it in: “63 ft 4 in”, “412 t”, “907 kip”. Every figure in grey is an
        example and never stands in for yours. <kbd>Enter</kbd> shows what an entry changes, <kbd>Ctrl</kbd>+
        <kbd>Enter</kbd> keeps it; everything kept can be taken back. What is left out stays open, and the checks that
        hang from it say so.
      </p>
      <ol ref={list}>
        {steps.map((now) => (
          <Step
            key={now.step.id}
            now={now}
            isOpen={now.step.id === open}
            onToggle={() => setChosen(now.step.id === open ? 'none' : now.step.id)}
          />
        ))}
      </ol>
      <OpenFile />
    </section>
  )
}

function Step({ now, isOpen, onToggle }: { now: StepNow; isOpen: boolean; onToggle: () => void }) {
  const { step, values, missing, waits } = now
  const isDone = missing.length === 0
  return (
    <li className={isDone ? 'done' : undefined}>
      <div className="what">
        <h2>
          {step.title} <span className="small quiet">{step.stage}</span>
        </h2>
        {isDone ? (
          <span>{step.shows(values)}</span>
        ) : (
          <span className="quiet">{waits ? `needs ${waits} first` : `missing: ${someOf(missing)}`}</span>
        )}
        {waits === undefined && (
          <button type="button" className="link" aria-expanded={isOpen} onClick={onToggle}>
            {isOpen ? 'Close' : isDone ? 'Change' : 'Fill in'}
            <span className="unseen">: {step.title}</span>
          </button>
        )}
      </div>
      {(isOpen || !isDone) && <p className="quiet">{step.use}</p>}
      {isOpen && waits === undefined && <StepForm key={JSON.stringify(values)} now={now} />}
    </li>
  )
}

const MOST_NAMED = 3

function someOf(labels: readonly string[]): string {
  const named = labels.slice(0, MOST_NAMED).map((label) => label.slice(0, 1).toLowerCase() + label.slice(1))
  return named.join(', ') + (labels.length > MOST_NAMED ? ` and ${labels.length - MOST_NAMED} more` : '')
}

/** Once a step is done, the next one opens and its first field has the focus: the hands stay on the keys. */
function useNextField(
  list: React.RefObject<HTMLOListElement | null>,
  next: string | undefined,
  done: number,
  moved: () => void,
): void {
  const before = useRef(done)
  useEffect(() => {
    if (done > before.current) moved()
    before.current = done
  })
  // The form of the step before is gone, and the focus with it; at the start nothing has the focus either.
  useEffect(() => {
    if (next === undefined || window.document.activeElement !== window.document.body) return
    list.current?.querySelector<HTMLElement>('form input, form select')?.focus({ preventScroll: done === 0 })
  }, [list, next, done])
}

/** The lift that the list led to: its hook load against the rating, its sheet, and every check of it. */
function FirstLift() {
  const { summary, system } = useShown()
  const lift = summary.lifts[0]
  if (lift === undefined) return null
  const [load, rated] = [figureOf(lift.hookLoad, 'kg', system), figureOf(lift.rated, 'kg', system)]
  const checks = summary.checks.filter((c) => c.stage === 'lift' && c.subject === lift.id).sort(worstFirst)
  return (
    <section aria-label="The first lift">
      <div className="titled sentence">
        <h1 className="large">
          <a href={routeTo('lift', lift.id)}>{lift.name}</a> <VerdictWord verdict={lift.verdict} />
        </h1>
        <span>
          hook load{' '}
          <span className="strong">
            {load.number} {load.unit}
          </span>{' '}
          of {rated.number} {rated.unit} on {lift.hook}
          {lift.hookLoad !== undefined && lift.rated !== undefined && `, use ${textOfUse(lift.hookLoad / lift.rated)}`}
        </span>
        <a href={`/api/report/lift/${encodeURIComponent(lift.id)}.pdf`}>Lift sheet, PDF</a>
      </div>
      <p className="quiet">
        {count(checks, 'fail')} fail, {count(checks, 'near')} near, {count(checks, 'open')} open,{' '}
        {count(checks, 'pass')} pass. An open check names what is missing and who decides it; it is no approval.
      </p>
      <CheckTable checks={checks} caption="Checks of the first lift" withSubject={false} most={12} />
    </section>
  )
}

const count = (checks: readonly { verdict: string }[], verdict: string): number =>
  checks.filter((c) => c.verdict === verdict).length
