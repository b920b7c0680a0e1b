import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import { MEASURE_RUNS } from '../risk/jobs.ts'
import { useShown } from '../state.ts'

/** The causes that spread the restart most. */
export function Drives({ most }: { most: number }) {
  const { risk, riskStale } = useShown()
  return (
    <section>
      <h2>What drives the restart</h2>
      {risk === undefined ? (
        <p className="small quiet">Said by the runs, once they are made.</p>
      ) : (
        <table className={riskStale ? 'stale' : undefined}>
          <caption className="unseen">Causes and their share of the spread of the restart</caption>
          <thead>
            <tr>
              <th scope="col">Cause</th>
              <th scope="col">Id</th>
              <th scope="col" className="num">
                Share of the spread
              </th>
            </tr>
          </thead>
          <tbody>
            {risk.drivers.slice(0, most).map((d) => (
              <tr key={d.id}>
                <th scope="row">{d.name}</th>
                <td className="quiet small">{d.id}</td>
                <td className="num">{d.share.toFixed(3)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}

/** What each mitigation and each option saves at P50 and P80, and what it costs. */
export function BuysTime({ most }: { most: number }) {
  const { measures } = useShown()
  return (
    <section>
      <h2>What would buy time at P80</h2>
      {measures.kept === undefined ? (
        <p className="small quiet">
          Each measure by itself, against the same runs. <MeasuresJob />
        </p>
      ) : (
        <>
          <table className={measures.stale ? 'stale' : undefined}>
            <caption className="unseen">Measures, the days that each saves, and its price</caption>
            <thead>
              <tr>
                <th scope="col">Measure</th>
                <th scope="col">Id</th>
                <th scope="col" className="num">
                  P50, d
                </th>
                <th scope="col" className="num">
                  P80, d
                </th>
                <th scope="col" className="num">
                  ±
                </th>
                <th scope="col" className="num">
                  Price
                </th>
                <th scope="col" className="num">
                  A day of P80
                </th>
              </tr>
            </thead>
            <tbody>
              {measures.kept.measures.slice(0, most).map((m) => (
                <tr key={m.id}>
                  <th scope="row">{m.name}</th>
                  <td className="quiet small">{m.id}</td>
                  <td className="num">{showNumber(-m.savedP50, 1)}</td>
                  <td className="num strong">{showNumber(-m.savedP80, 1)}</td>
                  <td className="num quiet">{showNumber(m.errorP80, 1)}</td>
                  <td className="num">{showNumber(m.price, 0)}</td>
                  <td className="num">
                    {m.perDay === undefined ? '' : showNumber(Math.round(m.perDay / 100) * 100, 0)}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="small quiet">
            {showNumber(MEASURE_RUNS, 0)} runs each, on the same random numbers; ± is the standard error of the days at
            P80. {measures.stale && 'Stale: the project has changed since. '}
            <MeasuresJob />
          </p>
        </>
      )}
    </section>
  )
}

function MeasuresJob() {
  const { measures, act } = useShown()
  if (measures.running !== undefined)
    return (
      <span role="status">
        working, {measures.running.done} of {measures.running.of} simulations{' '}
        <button type="button" className="link" onClick={act.cancelMeasures}>
          Cancel
        </button>
      </span>
    )
  return (
    <>
      <button type="button" className="link" onClick={act.runMeasures}>
        {measures.kept === undefined ? 'Work it out' : 'Work it out again'}
      </button>
      {measures.fault === undefined ? '' : ` No result: ${measures.fault}`}
    </>
  )
}
