import './valueField.css'
import { readPointer } from '@shieldwright/engine/working/pointer.ts'
import { useId, useRef, useState } from 'react'
import { useShown } from '../state.ts'
import { otherText } from './cell.ts'
import { CellInput } from './cellInput.tsx'
import { isCell } from './field.ts'
import { useCell } from './useCell.ts'

interface ValueFieldProps {
  /** Address of the value in the project file. */
  pointer: string
  /** What it is called in a sentence: "Cutting head hub, mass of one". */
  name: string
  /** What to show while it is not being typed into; absent, the value as it is kept, and the other system's beside it. */
  children?: React.ReactNode
}

/**
 * A value of the project file that can be changed wherever it is shown: text until it is pressed, then a field. Enter shows
 * the consequences, Ctrl+Enter keeps, Esc leaves it as it was. A value that cannot stand in a cell is shown only.
 */
export function ValueField({ pointer, name, children }: ValueFieldProps) {
  const cell = useCell(pointer, name)
  const { readOnly } = useShown()
  const [typing, setTyping] = useState(false)
  const button = useRef<HTMLButtonElement>(null)
  const saidId = useId()
  const back = (): void => {
    setTyping(false)
    requestAnimationFrame(() => button.current?.focus())
  }
  const editable = readOnly === undefined && cell.field !== undefined && isCell(cell.field)
  const text = children ?? <Shown text={cell.text} other={otherText(cell.field, cell.text)} />
  return (
    <span className={`value-field ${cell.state}`} data-pointer={pointer}>
      {!editable && text}
      {editable && !typing && (
        <button
          ref={button}
          type="button"
          className="value"
          aria-label={`${name}: ${cell.text || 'none'}. Change`}
          aria-describedby={cell.said === undefined ? undefined : saidId}
          onClick={() => setTyping(true)}
        >
          {cell.state === 'kept' ? text : <Shown text={cell.text} other={otherText(cell.field, cell.text)} />}
        </button>
      )}
      {editable && typing && (
        <CellInput
          field={cell.field}
          text={cell.text}
          label={name}
          token={readPointer(pointer)?.at(-1) ?? ''}
          invalid={cell.state === 'refused'}
          describedBy={cell.said === undefined ? undefined : saidId}
          onCommit={(typed, go) => {
            cell.commit(typed)
            if (go === 'away') setTyping(false)
            else back()
          }}
          onLeave={() => {
            cell.leave()
            back()
          }}
        />
      )}
      {cell.said !== undefined && (
        <span id={saidId} className="said fail small">
          {cell.said}
        </span>
      )}
    </span>
  )
}

function Shown({ text, other }: { text: string; other: string }) {
  if (text === '') return <span className="quiet">none</span>
  return (
    <>
      {text}
      {other !== '' && <span className="small quiet"> {other}</span>}
    </>
  )
}
