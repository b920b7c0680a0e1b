import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import { useShown } from '../state.ts'

/** On the invented demo: how to begin with a project of one's own. The demo stays in the log. */
export function StartEmpty() {
  const { summary, act, trial, readOnly } = useShown()
  if (!summary.invented || readOnly !== undefined) return null
  const begin = (): void => {
    if (trial !== undefined) act.discard()
    act.tryOut([{ op: 'replace', path: '', value: emptyProject() }], 'started an empty project')
  }
  return (
    <p className="small">
      This project is invented.{' '}
      <button type="button" className="link" onClick={begin}>
        Start an empty project
      </button>{' '}
      <span className="quiet">in its place; undo brings this one back.</span>
    </p>
  )
}
