import { problemText } from '@shieldwright/engine/working/problem.ts'
import { cellText } from '../edit/cell.ts'
import { dateText } from '../parts/figures.ts'
import { type Conflict, useShown } from '../state.ts'

const MOST = 6

/** What changed under an edit that was not kept: by whom, when, both values; and the way on. */
export function ConflictSaid({ conflict }: { conflict: Conflict }) {
  const { act } = useShown()
  return (
    <div className="conflict" role="alert">
      <p>
        <span className="fail strong">Not kept.</span> <span className="strong">{conflict.edit.what}</span>: the project
        was changed under it.
      </p>
      <ul>
        {conflict.changed.slice(-MOST).map((change) => (
          <li key={change.revision}>
            {change.by}, {when(change.at)}: {change.why}
          </li>
        ))}
      </ul>
      {conflict.clashes.length > 0 && (
        <table>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">Was</th>
              <th scope="col">Theirs, kept</th>
              <th scope="col">Yours, not kept</th>
            </tr>
          </thead>
          <tbody>
            {conflict.clashes.slice(0, MOST).map((clash) => (
              <tr key={clash.pointer}>
                <th scope="row">{clash.pointer}</th>
                <td>{said(clash.before)}</td>
                <td>{said(clash.theirs)}</td>
                <td className="strong">{said(clash.mine)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {conflict.problems.map((p) => (
        <p key={p.pointer + p.expected} className="fail small">
          Together they are no project. {problemText(p)}
        </p>
      ))}
      <div className="actions">
        <button type="button" className="main" onClick={act.tryAgain}>
          Try mine on top
        </button>
        <button type="button" onClick={act.discard}>
          Leave theirs
        </button>
      </div>
    </div>
  )
}

const LONGEST = 60

function said(value: unknown): string {
  const text = cellText(value)
  if (text === '') return 'nothing'
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text
}

function when(at: string): string {
  const instant = Date.parse(at)
  return Number.isNaN(instant) ? at : `${dateText(instant)}, ${new Date(instant).toTimeString().slice(0, 5)}`
}
