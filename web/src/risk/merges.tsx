import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import type { RiskView } from '../engine/protocol.ts'
import { useShown } from '../state.ts'

const MOST = 6

/** Where several paths meet: what it costs on average that the latest of them decides. */
export function Merges({ risk, stale }: { risk: RiskView; stale: boolean }) {
  if (risk.merges.length === 0) return null
  return (
    <section>
      <h2>Where paths meet, the latest decides</h2>
      <table className={stale ? 'stale' : undefined}>
        <caption className="unseen">
          Activities that wait for the latest of several, and for how long beyond the mean
        </caption>
        <thead>
          <tr>
            <th scope="col">Activity</th>
            <th scope="col" className="num">
              Paths
            </th>
            <th scope="col" className="num">
              Wait beyond the mean, d
            </th>
          </tr>
        </thead>
        <tbody>
          {risk.merges.slice(0, MOST).map((m) => (
            <tr key={m.id}>
              <th scope="row">
                {m.name} <span className="quiet small">{m.id}</span>
              </th>
              <td className="num">{m.paths}</td>
              <td className="num">{showNumber(m.days, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** What each of the largest drivers costs: the restart were it held still, on the same random numbers. */
export function HeldStill() {
  const { measures } = useShown()
  const { kept, stale } = measures
  if (kept === undefined || kept.still.length === 0) return null
  return (
    <section>
      <h2>Were one of them to stand still</h2>
      <table className={stale ? 'stale' : undefined}>
        <caption className="unseen">Largest drivers, and the days that the restart would gain without each</caption>
        <thead>
          <tr>
            <th scope="col">Driver</th>
            <th scope="col" className="num">
              P50, d
            </th>
            <th scope="col" className="num">
              P80, d
            </th>
            <th scope="col" className="num">
              ±
            </th>
          </tr>
        </thead>
        <tbody>
          {kept.still.map((s) => (
            <tr key={s.id}>
              <th scope="row">
                {s.name} <span className="quiet small">{s.id}</span>
              </th>
              <td className="num">{showNumber(-s.savedP50, 1)}</td>
              <td className="num strong">{showNumber(-s.savedP80, 1)}</td>
              <td className="num quiet">{showNumber(s.errorP80, 1)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
