import { useState } from 'react'
import { CampaignDiagram } from '../campaign/campaignDiagram.tsx'
import type { ActivityView } from '../engine/protocol.ts'
import { EditTable } from '../parts/editTable.tsx'
import { dateText } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import { Restart } from './first.tsx'
import { StageChecks } from './stage.tsx'

/** Activities in the order of their dates, on one ruler; the longest path in full ink. */
export function ProgrammePage() {
  const { document } = useShown()
  const [only, setOnly] = useState(false)
  const typed =
    (document as { programme?: { activities?: Readonly<Record<string, { name: string }>> } }).programme?.activities ??
    {}
  return (
    <>
      <Restart />
      <CampaignDiagram />
      <section>
        <div className="titled">
          <h2>Activities</h2>
          <label className="small">
            <input
              type="checkbox"
              style={{ minHeight: 0 }}
              checked={only}
              onChange={(e) => setOnly(e.target.checked)}
            />{' '}
            only what drives the restart
          </label>
        </div>
        <Activities onlyCritical={only} />
      </section>
      <EditTable
        caption="Typed durations, working days: most likely"
        rows={Object.entries(typed).map(([id, a]) => ({ id, pointer: `/programme/activities/${id}`, name: a.name }))}
        columns={[
          { heading: 'Least', below: '/days/0', right: true, number: true },
          { heading: 'Most likely', below: '/days/1', right: true, number: true },
          { heading: 'Greatest', below: '/days/2', right: true, number: true },
          { heading: 'Calendar', below: '/calendar' },
        ]}
      />
      <StageChecks stage="programme" />
    </>
  )
}

const MOST = 120

function Activities({ onlyCritical }: { onlyCritical: boolean }) {
  const { summary } = useShown()
  const [all, setAll] = useState(false)
  const wanted = onlyCritical ? summary.activities.filter((a) => a.critical) : summary.activities
  if (wanted.length === 0) return <p>No programme yet. Give /programme a start, calendars and activities.</p>
  const from = Math.min(...summary.activities.map((a) => a.start))
  const to = Math.max(...summary.activities.map((a) => a.finish))
  const shown = all ? wanted : wanted.slice(0, MOST)
  return (
    <>
      <div className="scroll">
        <table>
          <caption className="unseen">Activities with dates and float</caption>
          <thead>
            <tr>
              <th scope="col">Id</th>
              <th scope="col">Activity</th>
              <th scope="col">Start</th>
              <th scope="col">Finish</th>
              <th scope="col" className="num">
                Float, d
              </th>
              <th scope="col">Needs</th>
              <th scope="col" style={{ width: '30%' }}>
                {dateText(from, false)} to {dateText(to, false)}
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((a) => (
              <ActivityRow key={a.id} activity={a} from={from} to={to} />
            ))}
          </tbody>
        </table>
      </div>
      {wanted.length > shown.length && (
        <p className="small">
          <button type="button" className="link" onClick={() => setAll(true)}>
            {wanted.length - shown.length} more
          </button>
        </p>
      )}
    </>
  )
}

function ActivityRow({ activity: a, from, to }: { activity: ActivityView; from: number; to: number }) {
  const share = (instant: number): number => ((instant - from) / (to - from)) * 100
  return (
    <tr>
      <td className="quiet small">{a.id}</td>
      <th scope="row">
        {a.name}
        {a.holdPoint !== undefined && <span className="small quiet"> · hold: {a.holdPoint}</span>}
      </th>
      <td className="small">{dateText(a.start)}</td>
      <td className="small">{dateText(a.finish)}</td>
      <td className="num">{a.critical ? <span className="strong">drives</span> : (a.totalFloat / 86400).toFixed(1)}</td>
      <td className="small quiet">{a.needs}</td>
      <td>
        <svg width="100%" height="14" aria-hidden="true">
          <rect
            x={`${share(a.start)}%`}
            width={`${Math.max(0.25, share(a.finish) - share(a.start))}%`}
            y="3"
            height="8"
            fill={a.critical ? 'var(--ink)' : 'none'}
            stroke="var(--ink)"
          />
        </svg>
      </td>
    </tr>
  )
}
