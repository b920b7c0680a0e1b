import { problemText } from '@shieldwright/engine/working/problem.ts'
import { type Trial, useShown } from '../state.ts'

const MOST_EDITS = 4
const MOST_PROBLEMS = 4

/** The edit itself, under the project: what is typed, why, and what can be done with it. */
export function TheEdit({ trial }: { trial: Trial }) {
  const { act, readOnly } = useShown()
  const { problems } = trial.preview
  const cannot = problems.length > 0 || trial.pending || readOnly !== undefined
  return (
    <div className="the-edit">
      <p className="small edit strong">
        {trial.edits.length === 1 ? '1 edit' : `${trial.edits.length} edits`}, not kept
      </p>
      {trial.edits.slice(0, MOST_EDITS).map((edit) => (
        <p key={edit.pointer} className="what">
          <Said what={edit.what} />
        </p>
      ))}
      {trial.edits.length > MOST_EDITS && <p className="small quiet">and {trial.edits.length - MOST_EDITS} more</p>}
      {problems.slice(0, MOST_PROBLEMS).map((p) => (
        <p key={p.pointer + p.expected} className="fail small">
          {problemText(p)}
        </p>
      ))}
      {problems.length > MOST_PROBLEMS && <p className="fail small">{problems.length - MOST_PROBLEMS} more problems</p>}
      <label className="why small">
        <span className="quiet">Why</span>
        <input value={trial.why} maxLength={300} onChange={(e) => act.setWhy(e.target.value)} />
      </label>
      <div className="actions">
        <button type="button" className="main" onClick={act.keep} disabled={cannot}>
          Keep <kbd>Ctrl ↵</kbd>
        </button>
        <button type="button" onClick={act.discard}>
          Discard <kbd>Esc</kbd>
        </button>
      </div>
    </div>
  )
}

/** "Weighing, weighed: none → 615 t", with the new value framed. */
function Said({ what }: { what: string }) {
  const arrow = what.lastIndexOf(' → ')
  if (arrow < 0) return <>{what}</>
  return (
    <>
      {what.slice(0, arrow)} <span className="edit">→</span> <span className="new">{what.slice(arrow + 3)}</span>
    </>
  )
}
