import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import type { GroundView } from './view.ts'

/** G1 to G10: what a licensed person decides about the ground, who did, and what is still missing. */
export function GroundDecisions({ ground }: { ground: GroundView }) {
  const { summary } = useShown()
  const missing = ground.decisions.filter((d) => !d.recorded || d.withdrawn !== undefined).length
  return (
    <section>
      <div className="titled">
        <h2>Decisions of the ground</h2>
        <span className="small quiet">
          {missing === 0 ? 'all ten are recorded' : `${missing} of ${ground.decisions.length} not recorded`}; the tool
          fills in none
        </span>
      </div>
      <Scroll name="Decisions of the ground">
        <table>
          <caption className="unseen">Decisions G1 to G10, who decided, on which day</caption>
          <thead>
            <tr>
              <th scope="col">No.</th>
              <th scope="col">What is decided</th>
              <th scope="col">State</th>
              <th scope="col">As decided</th>
              <th scope="col">Who, when</th>
            </tr>
          </thead>
          <tbody>
            {ground.decisions.map((d) => {
              const check = summary.checks.find((c) => c.kind === 'ground.decision' && c.subject === d.id)
              return (
                <tr key={d.id}>
                  <td className="quiet">{d.id}</td>
                  <th scope="row">{d.what}</th>
                  <td>
                    {check !== undefined ? (
                      <VerdictWord verdict={check.verdict} />
                    ) : (
                      <span className="quiet">{d.recorded ? 'recorded' : 'open'}</span>
                    )}
                  </td>
                  <td className="small">{d.withdrawn === undefined ? (d.value ?? '') : `withdrawn: ${d.withdrawn}`}</td>
                  <td className="small">
                    {d.recorded
                      ? `${d.decidedBy}, ${d.on}`
                      : `still to be decided by the ${check?.decidedBy ?? 'ground engineer'}`}
                  </td>
                </tr>
              )
            })}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

/** The same questions by other published forms: shown beside the check, never in its place. */
export function OtherForms({ ground }: { ground: GroundView }) {
  const { summary, system } = useShown()
  if (ground.otherForms.length === 0) return null
  const kinds = [...new Set(ground.otherForms.map((f) => f.of))]
  return (
    <section>
      <div className="titled">
        <h2>By other published forms</h2>
        <span className="small quiet">they disagree; the ground engineer compares, no check takes the kindest</span>
      </div>
      <Scroll name="By other published forms">
        <table>
          <caption className="unseen">Questions of checks answered by other published forms</caption>
          <thead>
            <tr>
              <th scope="col">Beside the check</th>
              <th scope="col">Form</th>
              <th scope="col" className="num">
                Value
              </th>
              <th scope="col">
                <span className="unseen">Unit</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {kinds.flatMap((kind) => {
              const forms = ground.otherForms.filter((f) => f.of === kind)
              const check = summary.checks.find((c) => c.kind === kind)
              return forms.map((f, i) => {
                const { number, unit } = figureOf(f.value, f.unit, system)
                return (
                  <tr key={`${kind}/${f.title}`}>
                    {i === 0 && (
                      <th scope="rowgroup" rowSpan={forms.length}>
                        {check?.title ?? kind}
                      </th>
                    )}
                    <td>{f.title}</td>
                    <td className="num">{f.value === undefined ? 'outside its limits' : number}</td>
                    <td className="unit">{f.value === undefined ? '' : unit}</td>
                  </tr>
                )
              })
            })}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}
