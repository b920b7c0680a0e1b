import { figureOf } from '../parts/figures.ts'
import { routeTo, useShown } from '../state.ts'
import { StageChecks } from './stage.tsx'

/** The order of taking apart, step by step: what is opened, what moves, what is nearest. */
export function StripPage() {
  const { summary, system } = useShown()
  return (
    <>
      <section>
        <div className="titled">
          <h2>Order of taking apart</h2>
          <span className="small quiet">verified step by step against everything that is still there</span>
        </div>
        <div className="scroll">
          <table>
            <caption className="unseen">Steps of the order</caption>
            <thead>
              <tr>
                <th scope="col" className="num">
                  Step
                </th>
                <th scope="col">Piece</th>
                <th scope="col" className="num">
                  Parts
                </th>
                <th scope="col" className="num">
                  Joints opened
                </th>
                <th scope="col" className="num">
                  Services parted
                </th>
                <th scope="col" className="num">
                  Moves
                </th>
                <th scope="col" className="num">
                  Nearest, {figureOf(1, 'm', system).unit}
                </th>
                <th scope="col">To what</th>
                <th scope="col">Lift</th>
                <th scope="col">Finding</th>
              </tr>
            </thead>
            <tbody>
              {summary.steps.map((s, i) => (
                <tr key={s.step}>
                  <td className="num">{i + 1}</td>
                  <th scope="row">{s.name}</th>
                  <td className="num">{s.parts}</td>
                  <td className="num">{s.joints}</td>
                  <td className="num">{s.services}</td>
                  <td className="num">{s.moves}</td>
                  <td className="num">{s.gap === undefined ? '' : figureOf(s.gap, 'm', system, 10).number}</td>
                  <td>{s.gapTo}</td>
                  <td>{s.lift === undefined ? '' : <a href={routeTo('lift', s.lift)}>{s.lift}</a>}</td>
                  <td>
                    {s.failures.length === 0 ? (
                      <span className="quiet">free</span>
                    ) : (
                      <span className="fail strong">{s.failures.join('; ')}</span>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </section>
      <StageChecks stage="strip" />
    </>
  )
}
