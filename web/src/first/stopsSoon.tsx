import './lists.css'
import { useMemo } from 'react'
import { dateText } from '../parts/figures.ts'
import { VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { type Coming, comingUp, DAYS_AHEAD } from './upcoming.ts'

/** What work waits for in the next days of the project's own calendar. */
export function StopsSoon() {
  const { summary, document } = useShown()
  const { soon, later } = useMemo(() => comingUp(summary, document), [summary, document])
  if (summary.today === undefined) return null
  return (
    <section className="listed">
      <h2>Holds, permits, deliveries in the next {DAYS_AHEAD} days</h2>
      {soon.length === 0 && (
        <p className="small quiet">
          None up to {dateText(summary.today + DAYS_AHEAD * 86_400_000)}.{later.length > 0 && ' After that:'}
        </p>
      )}
      <ul>
        {(soon.length > 0 ? soon : later).map((c) => (
          <ComingLine key={c.key} coming={c} />
        ))}
      </ul>
    </section>
  )
}

function ComingLine({ coming }: { coming: Coming }) {
  return (
    <li>
      <span className="when">{dateText(coming.at)}</span>
      <span>
        {coming.lift === undefined ? coming.what : <a href={routeTo('lift', coming.lift)}>{coming.what}</a>}
        <span className="small quiet"> {coming.asks}</span>
      </span>
      <span className="did">{coming.stopped && <VerdictWord verdict="fail" />}</span>
    </li>
  )
}
