import { VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { StageChecks } from './stage.tsx'

/** What can be handed over. */
export function ReportPage() {
  const { summary } = useShown()
  return (
    <>
      <section>
        <h2>Lift sheets</h2>
        <table>
          <thead>
            <tr>
              <th scope="col">Lift</th>
              <th scope="col">Verdict</th>
              <th scope="col">Sheet</th>
            </tr>
          </thead>
          <tbody>
            {summary.lifts.map((l) => (
              <tr key={l.id}>
                <th scope="row">
                  <a href={routeTo('lift', l.id)}>
                    {l.name}, {l.kind}
                  </a>
                </th>
                <td>
                  <VerdictWord verdict={l.verdict} />
                </td>
                <td>
                  <a href={`/api/report/lift/${encodeURIComponent(l.id)}.pdf`}>PDF, A3</a>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <StageChecks stage="report" />
    </>
  )
}
