import { useEffect, useId, useRef, useState } from 'react'
import { useShown } from '../state.ts'
import { type Field, isCell } from './field.ts'
import { idsNamed } from './names.ts'

export interface CellInputProps {
  field: Field | undefined
  /** What stands there, or what was typed last. */
  text: string
  label: string
  /** The last name of the address: decides what may be named there. */
  token: string
  invalid: boolean
  describedBy?: string | undefined
  /** Where to go after it: the next cell, or none. */
  onCommit: (text: string, go: 'stay' | 'next' | 'before' | 'away') => void
  onLeave: () => void
}

/** The one cell that is being typed into. Enter takes it, Tab takes it and goes on, Ctrl+Enter takes it for keeping, Esc leaves it. */
export function CellInput(props: CellInputProps) {
  const { field, text, label, token, invalid, describedBy, onCommit, onLeave } = props
  const [typed, setTyped] = useState(text)
  const input = useRef<HTMLInputElement & HTMLSelectElement>(null)
  const list = useId()
  const isDone = useRef(false)
  /** Once: a field that is taken away loses the focus as well. */
  const finish = (end: () => void): void => {
    if (isDone.current) return
    isDone.current = true
    end()
  }
  const { document } = useShown()
  useEffect(() => {
    input.current?.focus()
    input.current?.select?.()
  }, [])
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const isKeeping = event.key === 'Enter' && event.ctrlKey && typed === text
    if (isKeeping) {
      finish(onLeave)
      return // Nothing new was typed: what is being looked at is kept by whoever listens for this key.
    }
    if (event.key === 'Enter') finish(() => onCommit(typed, 'stay'))
    else if (event.key === 'Tab') finish(() => onCommit(typed, event.shiftKey ? 'before' : 'next'))
    else if (event.key === 'Escape') finish(onLeave)
    if (['Enter', 'Tab', 'Escape'].includes(event.key)) event.preventDefault()
    event.stopPropagation()
  }
  const shared = {
    ref: input,
    'aria-label': label,
    'aria-invalid': invalid,
    'aria-describedby': describedBy,
    value: typed,
    onKeyDown,
    onBlur: () => finish(() => onCommit(typed, 'away')),
  }
  const options = optionsOf(field)
  if (options !== undefined)
    return (
      <select {...shared} onChange={(e) => setTyped(e.target.value)}>
        <option value="">none</option>
        {options.map((option) => (
          <option key={option}>{option}</option>
        ))}
      </select>
    )
  const names = idsNamed(document, token)
  return (
    <>
      <input {...shared} list={names.length > 0 ? list : undefined} onChange={(e) => setTyped(e.target.value)} />
      {names.length > 0 && (
        <datalist id={list}>
          {names.map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      )}
    </>
  )
}

function optionsOf(field: Field | undefined): readonly string[] | undefined {
  if (field === undefined || !isCell(field)) return undefined
  if (field.kind === 'choice') return field.of
  return field.kind === 'yes or no' ? ['yes', 'no'] : undefined
}
