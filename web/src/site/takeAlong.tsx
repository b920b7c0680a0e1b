import './along.css'
import { useState } from 'react'
import { useShown } from '../state.ts'

/** What can be taken along: the shift at a moment, a step, or a lift. */
const SHIFT = 'shift'

/** The lists and sheets of a shift, a step or a lift as one file that opens without a network. */
export function TakeAlong() {
  const { summary, system, trial, revision } = useShown()
  const [scope, setScope] = useState(SHIFT)
  const [at, setAt] = useState('')
  const [kind, id = ''] = scope.split(/:(.*)/)
  const query = new URLSearchParams({
    units: system,
    ...(kind === SHIFT ? (at.trim() === '' ? {} : { at: at.trim() }) : { [kind as string]: id }),
  })
  return (
    <section className="along" aria-labelledby="take-along">
      <div className="titled">
        <h2 id="take-along">Taken to the site</h2>
        <span className="small quiet">one file to open without a network, to tick in gloves and in sunlight</span>
      </div>
      <div className="choices">
        <label>
          Lists and sheets of{' '}
          <select value={scope} onChange={(e) => setScope(e.target.value)}>
            <option value={SHIFT}>the shift</option>
            <optgroup label="Steps">
              {summary.steps.map((s) => (
                <option key={s.step} value={`step:${s.step}`}>
                  {s.step}
                </option>
              ))}
            </optgroup>
            <optgroup label="Lifts">
              {summary.lifts.map((l) => (
                <option key={l.id} value={`lift:${l.id}`}>
                  {l.id}
                </option>
              ))}
            </optgroup>
          </select>
        </label>
        {kind === SHIFT && (
          <label>
            under way at <input value={at} placeholder="the data date" onChange={(e) => setAt(e.target.value)} />
          </label>
        )}
        <a
          href={`/api/report/on-site.html?${query}`}
          download={`on-site-${kind === SHIFT ? SHIFT : `${kind}-${id}`}.html`}
        >
          Download the file
        </a>
      </div>
      {trial !== undefined && (
        <p className="small">It holds revision {revision}, without the edit that is looked at.</p>
      )}
    </section>
  )
}
