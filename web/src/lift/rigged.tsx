import './rigged.css'
import { degrees, figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useShown } from '../state.ts'
import type { AllowanceView, BridleView, LevelOffer, LiftPageView } from './pageView.ts'
import { Structures } from './structures.tsx'

/** What the rigging is held to: the bridle by several rules, what would level the piece, and every allowance once. */
export function Rigged({ page }: { page: LiftPageView }) {
  const { bridles, levelling, allowances } = page
  return (
    <section>
      {bridles.map((bridle) => (
        <Bridle key={bridle.hook} bridle={bridle} />
      ))}
      {levelling.length > 0 && <Levelling offers={levelling} />}
      <Structures page={page} />
      <Allowances allowances={allowances} />
    </section>
  )
}

function Bridle({ bridle }: { bridle: BridleView }) {
  const { system } = useShown()
  const like = Math.max(...bridle.rules.map((r) => r.tension ?? 0), 1)
  const { unit } = figureOf(like, 'N', system)
  return (
    <>
      <h3 className="above">Most in one leg, by several rules</h3>
      <table>
        <caption className="unseen">Most in one leg of the bridle on {bridle.hook}, by several rules</caption>
        <thead>
          <tr>
            <th scope="col">Rule</th>
            <th scope="col" className="num">
              {unit}
            </th>
          </tr>
        </thead>
        <tbody>
          {bridle.rules.map(({ label, tension }) => (
            <tr key={label}>
              <th scope="row" className={label === bridle.governs ? 'strong' : undefined}>
                {label}
                {label === bridle.governs && ', governs'}
              </th>
              <td className="num">{figureOf(tension, 'N', system, like).number}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

function Levelling({ offers }: { offers: readonly LevelOffer[] }) {
  const { act, readOnly } = useShown()
  return (
    <>
      <h3 className="above">What would bring it level</h3>
      <ul className="offers">
        {offers.map((offer) => (
          <li key={offer.kind}>
            <span className="strong">{offer.kind}</span>: {offer.text}; tilt then {degrees(offer.tilt)}.{' '}
            {offer.patch.length > 0 && readOnly === undefined && (
              <button
                type="button"
                className="link"
                onClick={() => act.tryOut(offer.patch, `${offer.kind} that bring the piece level`)}
              >
                preview
              </button>
            )}
          </li>
        ))}
      </ul>
    </>
  )
}

function Allowances({ allowances }: { allowances: readonly AllowanceView[] }) {
  const { system } = useShown()
  return (
    <>
      <h3 className="above">Allowances, each once</h3>
      <Scroll name="Allowances">
        <table className="allowances">
          <caption className="unseen">From net mass to design load: each allowance and what it enters</caption>
          <thead>
            <tr>
              <th scope="col">Allowance</th>
              <th scope="col" className="num">
                Value
              </th>
              <th scope="col">Hook</th>
              <th scope="col">Rigging</th>
              <th scope="col">Beams</th>
              <th scope="col">Ground</th>
            </tr>
          </thead>
          <tbody>
            {allowances.map((a) => (
              <tr key={a.title} title={`${a.clause}. ${a.note}`}>
                <th scope="row">{a.title}</th>
                <td className="num">{valueText(a, system)}</td>
                <td>{entryText(a.enters.hook)}</td>
                <td>{entryText(a.enters.rigging)}</td>
                <td>{entryText(a.enters.beams)}</td>
                <td>{entryText(a.enters.ground)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      <details className="small">
        <summary>clauses and reasons</summary>
        <dl className="clauses">
          {allowances.map((a) => (
            <div key={a.title}>
              <dt className="strong">{a.title}</dt>
              <dd>
                {a.note} <span className="quiet">{a.clause}.</span>
              </dd>
            </div>
          ))}
        </dl>
      </details>
    </>
  )
}

/** Where an allowance is not used, a dash. */
const entryText = (entry: string): string => (entry === 'not used' ? '–' : entry)

function valueText({ value, unit }: AllowanceView, system: Parameters<typeof figureOf>[2]): string {
  if (value === undefined) return 'open'
  if (unit === 'rad') return degrees(value)
  const figure = figureOf(value, unit, system)
  return unit === '1' ? `× ${value.toFixed(2)}` : `${figure.number} ${figure.unit}`
}
