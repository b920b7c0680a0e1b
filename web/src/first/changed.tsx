import './lists.css'
import { useEffect, useState } from 'react'
import { recall } from '../frame/remembered.ts'
import { host, type LoggedChange } from '../host.ts'
import { dateText } from '../parts/figures.ts'
import { useShown } from '../state.ts'

const MOST = 5

/** The last changes, by whom and why, and what each did where this browser saw it. */
export function Changed() {
  const { revision } = useShown()
  const [changes, setChanges] = useState<readonly LoggedChange[]>([])
  useEffect(() => {
    if (revision <= 1) return
    let here = true
    // The first revision is the whole project: it is not asked for.
    host.readLog(Math.max(1, revision - MOST)).then(
      ({ changes: all }) => here && setChanges(all.toReversed()),
      () => undefined, // Without a host the list stays as it was; the head says that there is none.
    )
    return () => {
      here = false
    }
  }, [revision])
  return (
    <section className="listed">
      <h2>Changed</h2>
      {changes.length === 0 && <p className="small quiet">Nothing since the project was begun, revision 1.</p>}
      <ul>
        {changes.map((c) => (
          <ChangeLine key={c.revision} change={c} />
        ))}
      </ul>
    </section>
  )
}

function ChangeLine({ change: { revision, at, by, why } }: { change: LoggedChange }) {
  const did = recall(`changed.${revision}`)
  const when = new Date(at)
  return (
    <li>
      <span className="when">
        {dateText(when.getTime(), false).replace(/ \d+$/, '')} {when.toISOString().slice(11, 16)}
      </span>
      <span>
        {why}
        <span className="small quiet"> {by}</span>
      </span>
      <span className={`did ${did?.includes('FAIL') ? 'fail strong' : 'quiet'}`}>{did ?? ''}</span>
    </li>
  )
}
