import { useId, useRef, useState } from 'react'
import { useShown } from '../state.ts'
import { faultOf, type StartField, type Values } from './field.ts'
import type { StepNow } from './steps.ts'

/** The few fields of one step: typed in any unit, looked at with Enter, kept with Ctrl+Enter. */
export function StepForm({ now: { step, values } }: { now: StepNow }) {
  const { document, act, trial, refused, readOnly } = useShown()
  const [typed, setTyped] = useState<Values>({})
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const form = useRef<HTMLFormElement>(null)
  const current = withShape(step.fields(values), { ...values, ...typed })
  const fields = step.fields(current)
  const what = `${step.title}: ${step.shows(current)}`
  const isTried = trial?.what === what
  const tryOut = (): void => {
    const found = fields.flatMap((f) => {
      const fault = faultOf(f, current[f.name] ?? '')
      return fault === undefined ? [] : [[f.name, fault] as const]
    })
    setFaults(Object.fromEntries(found))
    const [first] = found
    if (first === undefined) {
      if (trial !== undefined) act.discard()
      act.tryOut(step.write(document, current), what)
    } else form.current?.querySelector<HTMLElement>(`[name="${first[0]}"]`)?.focus()
  }
  return (
    <form
      ref={form}
      className="start-form"
      aria-label={step.title}
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        tryOut()
      }}
    >
      <div className="fields">
        {fields.map((field) => (
          <Typed
            key={field.name}
            field={field}
            value={current[field.name] ?? ''}
            fault={faults[field.name]}
            onType={(value) => setTyped({ ...typed, [field.name]: value })}
          />
        ))}
      </div>
      <p className="actions">
        <button type="submit" className={isTried ? undefined : 'main'} disabled={readOnly !== undefined}>
          Look at it <kbd>↵</kbd>
        </button>{' '}
        {isTried && !trial.pending && trial.preview.problems.length === 0 && (
          <>
            <button type="button" className="main" onClick={act.keep}>
              Keep it <kbd>Ctrl ↵</kbd>
            </button>{' '}
            <span className="edit" role="status">
              Nothing is kept yet. What it changes stands at the head of the page.
            </span>
          </>
        )}
        {isTried &&
          trial.preview.problems.map((p) => (
            <span key={p.pointer + p.expected} className="fail" role="alert">
              {p.pointer}: found {p.found}, expected {p.expected}. Not kept.{' '}
            </span>
          ))}
        {refused.length > 0 && !isTried && <span className="fail">{refused[0]?.expected}</span>}
      </p>
    </form>
  )
}

/** The shape decides which fields there are, so one is chosen from the start: it is no figure of the project. */
function withShape(fields: readonly StartField[], values: Values): Values {
  const shape = fields.find((f) => f.name === 'shape')
  return shape === undefined || values.shape ? values : { ...values, shape: shape.example }
}

interface TypedProps {
  field: StartField
  value: string
  fault: string | undefined
  onType: (value: string) => void
}

function Typed({ field, value, fault, onType }: TypedProps) {
  const id = useId()
  const hint = field.of === undefined ? `such as ${field.example}` : ''
  const open = field.optional ? `may be left out: ${field.optional}` : ''
  const said = {
    'aria-describedby': `${id}-hint`,
    'aria-invalid': fault !== undefined,
    name: field.name,
    id,
  }
  return (
    <div className={fault === undefined ? 'field' : 'field refused'}>
      <label htmlFor={id}>{field.label}</label>
      {field.of === undefined ? (
        <input {...said} autoComplete="off" value={value} onChange={(e) => onType(e.target.value)} />
      ) : (
        <select {...said} value={value} onChange={(e) => onType(e.target.value)}>
          <option value="">choose</option>
          {field.of.map((word) => (
            <option key={word}>{word}</option>
          ))}
        </select>
      )}
      <span id={`${id}-hint`} className="small">
        {fault === undefined ? (
          <span className="quiet">
            {hint}
            {hint !== '' && open !== '' ? '; ' : ''}
            {open}
          </span>
        ) : (
          <span className="fail">{fault}</span>
        )}
      </span>
    </div>
  )
}
