import { dateText } from '../parts/figures.ts'
import { routeTo, useShown } from '../state.ts'

/** What is known of the activity that is selected: what it waits for, what it leaves, and what a planner would ask. */
export function ActivityDetail({ id, onSelect }: { id: string | undefined; onSelect: (id: string) => void }) {
  const { summary } = useShown()
  const a = summary.activities.find((each) => each.id === id)
  if (a === undefined) return <div className="detail small quiet">Select an activity to see what it waits for.</div>
  const waits = summary.activities.find((each) => each.id === a.waitsFor?.activity)
  return (
    <div className="detail small" aria-live="polite">
      <span>
        <span className="strong">{a.name}</span> <span className="quiet">{a.id}</span>
      </span>
      <span>
        {dateText(a.start)} to {dateText(a.finish)}
      </span>
      <span>
        {a.drives ? 'drives the restart' : `float ${(a.planFloat / 86_400).toFixed(1)} d in the plan`}, without
        resources {(a.totalFloat / 86_400).toFixed(1)} d
        {a.freeFloat !== undefined && a.totalFloat > 0 && `, ${(a.freeFloat / 86_400).toFixed(1)} d of it free`}
      </span>
      {a.basis !== undefined && <span>days from {a.basis}</span>}
      {waits !== undefined && (
        <span>
          waits for {a.waitsFor?.resource === undefined ? '' : `${a.waitsFor.resource}, held by `}
          <button type="button" className="link" onClick={() => onSelect(waits.id)}>
            {waits.name}
          </button>
        </span>
      )}
      {a.holdPoint !== undefined && <span>hold: {a.holdPoint}</span>}
      {a.lift !== undefined && (
        <span>
          <a href={routeTo('lift', a.lift)}>its lift</a>
        </span>
      )}
      {a.asked.map((question) => (
        <span key={question}>asked: {question}</span>
      ))}
    </div>
  )
}
