import type { RiskView } from '../engine/protocol.ts'
import { dateText } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import { Restart } from './first.tsx'
import { StageChecks } from './stage.tsx'

/** How sure the date is, and what drives it. */
export function RiskPage() {
  const { risk } = useShown()
  return (
    <>
      <Restart />
      {risk !== undefined && (
        <>
          <section>
            <h2>Restart, from {risk.runs} runs</h2>
            <table>
              <thead>
                <tr>
                  <th scope="col">Chance</th>
                  <th scope="col">Date</th>
                  <th scope="col">95 % of the runs’ error</th>
                </tr>
              </thead>
              <tbody>
                {(
                  [
                    ['P10', risk.p10],
                    ['P50', risk.p50],
                    ['P80', risk.p80],
                    ['P90', risk.p90],
                    ['mean', risk.mean],
                  ] as const
                ).map(([label, at]) => (
                  <tr key={label}>
                    <th scope="row">{label}</th>
                    <td>{dateText(at)}</td>
                    <td className="quiet small">{bandWords(label, risk)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
          <p className="small quiet">{[risk.method, ...risk.notes].join('. ')}</p>
          <section>
            <h2>What drives the restart</h2>
            <table>
              <thead>
                <tr>
                  <th scope="col">Cause</th>
                  <th scope="col" className="num">
                    Share of the spread
                  </th>
                </tr>
              </thead>
              <tbody>
                {risk.drivers.map((d) => (
                  <tr key={d.id}>
                    <th scope="row">{d.name}</th>
                    <td className="num">{d.share.toFixed(3)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </>
      )}
      <p className="caution small">A forecast from stated assumptions; never a reason to shorten a hold point.</p>
      <StageChecks stage="risk" />
    </>
  )
}

function bandWords(label: string, { band50, band80 }: RiskView): string {
  const band = label === 'P50' ? band50 : label === 'P80' ? band80 : undefined
  return band === undefined ? '' : `${dateText(band[0])} to ${dateText(band[1])}`
}
