import './head.css'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { dateText } from '../parts/figures.ts'
import { type Light, useShown } from '../state.ts'
import { SignOut } from './signOut.tsx'

interface HeadOf {
  onFind: () => void
  onQuestions: () => void
  onKeys: () => void
}

/** Which project, on which day and revision, how the page stands to its host; questions; find; units and light. */
export function Head({ onFind, onQuestions, onKeys }: HeadOf) {
  const { summary, revision, system, light, act, readOnly, link } = useShown()
  return (
    <header className="top">
      <h1>{summary.title}</h1>
      <span className="quiet">
        {summary.today === undefined ? '' : `${dateText(summary.today)} · `}revision {revision}
      </span>
      {summary.invented && <span className="quiet">invented demo</span>}
      {link.state === 'lost' && <span className="strong">No host since {timeText(link.since)}; edits wait</span>}
      {readOnly !== undefined && <span className="strong">Read only: {readOnly}</span>}
      <span className="gap" />
      <button type="button" className="link" onClick={onQuestions}>
        Questions <kbd>q</kbd>
      </button>
      <button type="button" className="link" onClick={onFind}>
        Find anything <kbd>/</kbd>
      </button>
      <button type="button" className="link" onClick={onKeys}>
        <span className="word">Keys and marks</span> <kbd>?</kbd>
      </button>
      <SignOut />
      <Choice<UnitSystem> label="Units" value={system} of={['SI', 'US']} onChoose={act.setSystem} />
      <Choice<Light> label="Light" value={light} of={['day', 'dark', 'sun']} onChoose={act.setLight} />
    </header>
  )
}

/** The reader's own clock: when something happened to this page. */
export function timeText(instant: number): string {
  const d = new Date(instant)
  return `${String(d.getHours()).padStart(2, '0')}:${String(d.getMinutes()).padStart(2, '0')}`
}

interface ChoiceOf<T extends string> {
  label: string
  value: T
  of: readonly T[]
  onChoose: (value: T) => void
}

/** One of a few, all in sight. */
export function Choice<T extends string>({ label, value, of, onChoose }: ChoiceOf<T>) {
  return (
    <fieldset className="choice" aria-label={label}>
      {of.map((option) => (
        <button key={option} type="button" aria-pressed={option === value} onClick={() => onChoose(option)}>
          {option}
        </button>
      ))}
    </fieldset>
  )
}
