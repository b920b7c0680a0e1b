import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import type { RiskView } from '../engine/protocol.ts'
import { BuysTime, Drives } from '../first/drives.tsx'
import { Restart } from '../first/restart.tsx'
import { dateText, hoursText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { ChanceCurve } from '../risk/chanceCurve.tsx'
import { DriveCourse } from '../risk/driveCourse.tsx'
import { HeldStill, Merges } from '../risk/merges.tsx'
import { Scenarios } from '../risk/scenarios.tsx'
import { useShown } from '../state.ts'
import { StageChecks } from './stage.tsx'

/** How sure the date is, what drives it, what would buy time, and what it costs. */
export function RiskPage() {
  const { risk, riskStale } = useShown()
  return (
    <>
      <Restart />
      {risk !== undefined && (
        <>
          <section>
            <div className="titled">
              <h2>Chance that the drive has resumed</h2>
              <a className="small" href="/api/report/risk/restart.pdf" target="_blank" rel="noreferrer">
                Sheet to print, PDF
              </a>
              <span className="small quiet">
                {showNumber(risk.runs, 0)} runs, seed {risk.seed}
                {riskStale ? ', stale since the last edit' : ''}
              </span>
            </div>
            <ChanceCurve risk={risk} stale={riskStale} />
          </section>
          <Percentiles risk={risk} stale={riskStale} />
          <DriveCourse risk={risk} stale={riskStale} />
          <Merges risk={risk} stale={riskStale} />
          <RestsOn risk={risk} />
        </>
      )}
      <div className="pair">
        <Drives most={15} />
        <BuysTime most={15} />
      </div>
      <HeldStill />
      <Scenarios />
      <p className="caution small">A forecast from stated assumptions; never a reason to shorten a hold point.</p>
      <StageChecks stage="risk" />
    </>
  )
}

const ROWS = ['p10', 'p50', 'p80', 'p90', 'mean'] as const

function Percentiles({ risk, stale }: { risk: RiskView; stale: boolean }) {
  return (
    <section>
      <h2>Date and cost</h2>
      <Scroll name="Restart and cost at each chance">
        <table className={stale ? 'stale' : undefined}>
          <caption className="unseen">Restart and cost at each chance</caption>
          <thead>
            <tr>
              <th scope="col">Chance</th>
              <th scope="col">Restart</th>
              <th scope="col" className="num">
                Standard error, d
              </th>
              <th scope="col">95 % sure, between</th>
              <th scope="col">Were the site to decide anew</th>
              <th scope="col" className="num">
                Cost up to the restart
              </th>
            </tr>
          </thead>
          <tbody>
            {ROWS.map((row) => (
              <tr key={row}>
                <th scope="row">{row === 'mean' ? 'mean' : row.toUpperCase()}</th>
                <td>{dateText(risk[row])}</td>
                <td className="num quiet">{showNumber(risk.error[row], 1)}</td>
                <td className="quiet">{bandWords(row, risk)}</td>
                <td className="quiet">{risk.listed === undefined ? '' : dateText(risk.listed[row])}</td>
                <td className="num">{showNumber(Math.round(risk.cost[row] / 1000) * 1000, 0)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <p className="small quiet">
        One more day costs {showNumber(risk.day.p50, 0)} at the P50 restart and {showNumber(risk.day.p80, 0)} at the
        P80. “Were the site to decide anew”: whenever something ends, what the plan puts first begins if its crews and
        plant are free; else the planned hand-overs hold.
      </p>
    </section>
  )
}

function bandWords(row: (typeof ROWS)[number], { band50, band80 }: RiskView): string {
  const band = row === 'p50' ? band50 : row === 'p80' ? band80 : undefined
  return band === undefined ? '' : `${dateText(band[0], false)} and ${dateText(band[1], false)}`
}

/** What the runs are, and what they could not know. */
function RestsOn({ risk }: { risk: RiskView }) {
  const left = [
    ...(risk.open.length > 0 ? [`not given, and so not counted: ${risk.open.join(', ')}`] : []),
    ...(risk.stuck.length > 0 ? [`no calm hours found in some run: ${risk.stuck.join(', ')}`] : []),
    ...(risk.lost.length > 0 ? [`no activity in the network: ${risk.lost.join(', ')}`] : []),
  ]
  return (
    <section className="small">
      <p className="quiet">
        {[risk.method, ...risk.notes].join('; ')}. Mean wait for wind over all lifts of a run:{' '}
        {hoursText(risk.windWait)}
        {risk.falseStarts > 0 ? `, false starts ${showNumber(risk.falseStarts, 1)}` : ''}.
      </p>
      {left.map((words) => (
        <p key={words}>
          <span className="verdict open">open</span> {words}
        </p>
      ))}
    </section>
  )
}
