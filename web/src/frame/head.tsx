import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { dateText } from '../parts/figures.ts'
import { type Light, useShown } from '../state.ts'

/** Which project, which revision, in which units and light. */
export function Head({ onFind }: { onFind: () => void }) {
  const { summary, revision, system, light, act } = useShown()
  return (
    <header className="top">
      <h1>{summary.title}</h1>
      <span className="quiet">
        {summary.date === undefined ? '' : `${dateText(Date.parse(summary.date))} · `}revision {revision}
      </span>
      {summary.invented && <span className="quiet">invented demo</span>}
      <span className="gap" />
      <button type="button" className="link" onClick={onFind}>
        Find anything <kbd>/</kbd>
      </button>
      <Choice<UnitSystem> label="Units" value={system} of={['SI', 'US']} onChoose={act.setSystem} />
      <Choice<Light> label="Light" value={light} of={['day', 'dark', 'sun']} onChoose={act.setLight} />
    </header>
  )
}

function Choice<T extends string>({
  label,
  value,
  of,
  onChoose,
}: {
  label: string
  value: T
  of: readonly T[]
  onChoose: (v: T) => void
}) {
  return (
    <fieldset className="choice" style={{ border: 0, margin: 0, padding: 0 }} aria-label={label}>
      {of.map((option) => (
        <button key={option} type="button" aria-pressed={option === value} onClick={() => onChoose(option)}>
          {option}
        </button>
      ))}
    </fieldset>
  )
}
