import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import { CheckTable, worstFirst } from '../parts/checks.tsx'
import { dateText } from '../parts/figures.ts'
import { RUNS } from '../risk.ts'
import { useShown } from '../state.ts'

/** The first page: when we restart, and everything wrong, near or open, worst first. */
export function FirstPage() {
  const { summary } = useShown()
  const findings = summary.checks.filter((c) => c.verdict !== 'pass').sort(worstFirst)
  const passing = summary.checks.length - findings.length
  return (
    <>
      <Restart />
      <section>
        <div className="titled">
          <h2>Wrong, near, open</h2>
          <span className="small quiet">
            worst first · {findings.length} of {summary.checks.length} checks; {passing} pass
          </span>
        </div>
        {findings.length === 0 ? (
          <p>Every check passes.</p>
        ) : (
          <CheckTable checks={findings} caption="Checks that fail, are near or are open" most={40} />
        )}
      </section>
      <p className="small quiet">
        A calculation aid for competent people. It has not examined your site. Local law, the manufacturer’s
        instructions, the standards in force and the decisions of licensed engineers and appointed persons govern. A
        result marked open is not an approval.
      </p>
    </>
  )
}

/** Plan, and the even chance and four in five once the simulation has run. */
export function Restart() {
  const { summary, risk, riskStale } = useShown()
  return (
    <section>
      <div className="titled">
        <h2>Restart</h2>
        <span className="small quiet">
          {risk === undefined
            ? 'the plan is a date without risk; run the simulation for P50 and P80'
            : `${showNumber(risk.runs, 0)} runs${riskStale ? ', stale since the last edit' : ''}`}
        </span>
      </div>
      <div className="dates">
        <DateFigure label="plan, with queues" at={summary.restart} />
        <DateFigure label="earliest, unlimited resources" at={summary.restartUnlimited} />
        {risk !== undefined && <DateFigure label="P50" at={risk.p50} stale={riskStale} />}
        {risk !== undefined && <DateFigure label="P80" at={risk.p80} stale={riskStale} />}
        <RunRisk />
      </div>
      {summary.bound !== undefined && (
        <p className="small quiet">
          {summary.proven ? 'Proven best' : 'No plan with these resources ends before'} {dateText(summary.bound.at)}:{' '}
          {summary.bound.reason}
        </p>
      )}
    </section>
  )
}

function RunRisk() {
  const { riskRunning, riskFault, act } = useShown()
  if (riskRunning !== undefined) {
    return (
      <span role="status">
        working, {showNumber(riskRunning, 0)} of {showNumber(RUNS, 0)} runs{' '}
        <button type="button" onClick={act.cancelRisk}>
          Cancel
        </button>
      </span>
    )
  }
  return (
    <span>
      <button type="button" onClick={act.runRisk}>
        Run {showNumber(RUNS, 0)}
      </button>
      {riskFault !== undefined && <span className="small"> no result: {riskFault}</span>}
    </span>
  )
}

function DateFigure({ label, at, stale = false }: { label: string; at: number | undefined; stale?: boolean }) {
  return (
    <div>
      <div className="small quiet">{label}</div>
      <div className="figure" style={stale ? { borderBottom: '2px dotted var(--edge)' } : undefined}>
        {dateText(at, false)}
      </div>
    </div>
  )
}
