import './restart.css'
import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import type { CheckView } from '../engine/protocol.ts'
import { dateText } from '../parts/figures.ts'
import { RUNS } from '../risk/jobs.ts'
import { useShown } from '../state.ts'
import { Ruler } from './ruler.tsx'

/** When the drive resumes: the plan; the even chance and four in five once it has been simulated. */
export function Restart() {
  const { summary, risk, riskStale } = useShown()
  if (summary.restart === undefined)
    return (
      <section className="restart">
        <h2>Restart</h2>
        <p>
          No restart is planned yet: give the <a href="#programme">programme</a> a start, a restart and activities.
        </p>
      </section>
    )
  return (
    <section className="restart">
      <div className="dates">
        <div>
          <h2>Restart</h2>
          <div className="small quiet">{stateWords(risk?.runs, riskStale)}</div>
        </div>
        {risk === undefined ? (
          <>
            <DateFigure label="plan" at={summary.restart} />
            <DateFigure label="earliest" at={summary.restartUnlimited} />
          </>
        ) : (
          <>
            <DateFigure label="P50, an even chance" at={risk.p50} stale={riskStale} />
            <DateFigure label="P80, four in five" at={risk.p80} stale={riskStale} />
          </>
        )}
      </div>
      <Ruler
        on={{
          today: summary.today,
          plan: summary.restart,
          held: firstHeld(summary.checks, summary.today),
          chances: risk,
          stale: riskStale,
        }}
      />
      <div className="under-dates small">
        <RunRisk />
        <span className="quiet">{boundWords(summary)}</span>
      </div>
    </section>
  )
}

function stateWords(runs: number | undefined, stale: boolean): string {
  if (runs === undefined) return 'the plan, before any risk'
  return stale ? 'stale since the last edit' : `from ${showNumber(runs, 0)} runs`
}

/** The first activity that a failing finding stops. */
export function firstHeld(checks: readonly CheckView[], today = 0): { activity: string; at: number } | undefined {
  return checks
    .flatMap((c) => (c.verdict === 'fail' && c.follows?.stops !== undefined ? [c.follows.stops] : []))
    .reduce<{ activity: string; at: number } | undefined>((first, { activity, at }) => {
      const due = Math.max(at, today)
      return first === undefined || due < first.at ? { activity, at: due } : first
    }, undefined)
}

function boundWords({ bound, proven }: { bound: { at: number; reason: string } | undefined; proven: boolean }): string {
  if (bound === undefined) return ''
  const before = proven ? 'No plan restarts earlier' : `No plan restarts before ${dateText(bound.at, false)}`
  return `${before}: ${bound.reason}.`
}

/** Starts, follows and cancels the simulation. */
export function RunRisk() {
  const { riskRunning, riskFault, riskStale, risk, act } = useShown()
  if (riskRunning !== undefined)
    return (
      <span role="status" className="job">
        working, {showNumber(riskRunning, 0)} of {showNumber(RUNS, 0)} runs
        <button type="button" onClick={act.cancelRisk}>
          Cancel
        </button>
      </span>
    )
  return (
    <span className="job">
      <button type="button" onClick={act.runRisk}>
        {risk === undefined ? 'Run' : 'Run again'}
      </button>
      <span className="quiet">
        {riskFault !== undefined
          ? `No result: ${riskFault}`
          : risk === undefined
            ? `${showNumber(RUNS, 0)} runs of the whole programme say how sure the date is: some seconds, beside the page.`
            : riskStale
              ? 'The project has changed since these runs.'
              : 'Of the project as it stands.'}
      </span>
    </span>
  )
}

function DateFigure({ label, at, stale = false }: { label: string; at: number | undefined; stale?: boolean }) {
  return (
    <div>
      <div className="small quiet">{label}</div>
      <div className={stale ? 'figure stale' : 'figure'}>{dateText(at, false)}</div>
    </div>
  )
}
