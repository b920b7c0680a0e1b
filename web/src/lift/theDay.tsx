import { figureOf, hoursText } from '../parts/figures.ts'
import { Opens, useOpened } from '../parts/opens.tsx'
import { WorkingPanel } from '../parts/working.tsx'
import { useShown } from '../state.ts'
import type { LiftPageView } from './pageView.ts'

/** Gusts at which the lift stops, the lowest governs. */
export function Wind({ page }: { page: LiftPageView }) {
  const { system } = useShown()
  const opened = useOpened()
  const [stop, ...terms] = page.wind
  if (stop === undefined) return null
  const governing = terms.find((t) => t.value === stop.value)
  return (
    <section>
      <div className="titled">
        <h2>Wind, gust at hook height</h2>
        <span className="small quiet">hook time {hoursText(page.duration)}</span>
      </div>
      <table>
        <caption className="unseen">Gusts at which the lift stops</caption>
        <tbody>
          {[stop, ...terms].map(({ label, value, unit, at }) => {
            const figure = figureOf(value, unit, system, value === undefined ? undefined : 10)
            const key = JSON.stringify(at)
            return (
              <tr key={label}>
                <th scope="row" className={label === stop.label ? 'strong' : undefined}>
                  {label}
                </th>
                <td className="num">
                  <Opens opened={opened} of={key} label={`${label}: ${figure.number} ${figure.unit}. Working`}>
                    {figure.number}
                  </Opens>{' '}
                  <span className="unit">{figure.unit}</span>
                </td>
                <td className="small quiet">
                  {label === stop.label ? `${governing?.label ?? 'open'} governs` : ''}
                  {label.startsWith('side load') ? page.sail : ''}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
      {opened.key !== undefined && <WorkingPanel key={opened.key} of={JSON.parse(opened.key)} onClose={opened.close} />}
    </section>
  )
}

/** What makes it a critical or a standard lift. */
export function ClassOfLift({ page }: { page: LiftPageView }) {
  return (
    <section>
      <div className="titled">
        <h2>Class of lift</h2>
        <span className="small strong">{page.critical}</span>
      </div>
      <table>
        <caption className="unseen">Criteria of the class</caption>
        <tbody>
          {page.criteria.map(({ text, met }) => (
            <tr key={text}>
              <th scope="row">{text}</th>
              <td className={met === 'yes' ? 'strong' : met === 'no' ? 'quiet' : 'verdict open'}>{met}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <h3>Arranged before it</h3>
      <table>
        <caption className="unseen">What the class demands to be arranged</caption>
        <tbody>
          {page.arranged.map(({ text, what, source }) => (
            <tr key={text} title={source}>
              <th scope="row">{text}</th>
              <td className={what === 'open' ? 'verdict open' : undefined}>{what}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** The steps of the day, those that wait for a signature marked. */
export function Steps({ page }: { page: LiftPageView }) {
  return (
    <section className="steps">
      <div className="titled">
        <h2>Steps and hold points</h2>
        <span className="small quiet">a hold point waits for a signature</span>
      </div>
      <ol>
        {page.steps.map(({ words, hold }) => (
          <li key={words} className={hold === undefined ? undefined : 'holds'}>
            {words}
            {hold !== undefined && (
              <div>
                <span className="strong">Hold:</span> {hold}.
              </div>
            )}
          </li>
        ))}
      </ol>
      <details className="small">
        <summary>Cautions</summary>
        {page.cautions.map((caution) => (
          <p key={caution} className="caution">
            {caution}
          </p>
        ))}
      </details>
    </section>
  )
}
