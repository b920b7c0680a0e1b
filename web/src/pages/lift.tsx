import type { LiftView } from '../engine/protocol.ts'
import { CheckTable, worstFirst } from '../parts/checks.tsx'
import { Drawn } from '../parts/drawn.tsx'
import { degrees, figureOf, hoursText, textOfUse } from '../parts/figures.ts'
import { VerdictMark, VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { Turning } from './turning.tsx'

/** One lift at a time: what hangs on the hook, how it hangs, and what is tightest. */
export function LiftPage() {
  const { summary, route } = useShown()
  const lift = summary.lifts.find((l) => l.id === route.item) ?? summary.lifts[0]
  if (lift === undefined) return <p>No lift is planned yet. Add one under /lifts.</p>
  return (
    <>
      <LiftStrip chosen={lift.id} />
      <Sentence lift={lift} />
      <div className="three">
        <MassChain lift={lift} />
        <div>
          <Legs lift={lift} />
          <Facts lift={lift} />
        </div>
        <div>
          {lift.turning.length > 0 && <Turning lift={lift} />}
          <Criteria lift={lift} />
        </div>
      </div>
      <section>
        <h2>Checks</h2>
        <CheckTable
          checks={summary.checks.filter((c) => c.stage === 'lift' && c.subject === lift.id).sort(worstFirst)}
          caption={`Checks of ${lift.id}`}
          withSubject={false}
        />
      </section>
      <Drawings lift={lift} />
    </>
  )
}

const KIND_WORD: Readonly<Record<string, string>> = { out: 'out', turn: 'turned', move: 'on the bay', back: 'back' }

function LiftStrip({ chosen }: { chosen: string }) {
  const { summary } = useShown()
  return (
    <nav className="strip" aria-label="Lifts in order">
      {['out', 'turn', 'move', 'back'].map((kind) => (
        <span key={kind} style={{ display: 'contents' }}>
          <span className="small quiet">{KIND_WORD[kind]}</span>
          {summary.lifts
            .filter((l) => l.kind === kind)
            .map((l) => (
              <a key={l.id} href={routeTo('lift', l.id)} aria-current={l.id === chosen}>
                {l.short}
                <span className={`verdict ${l.verdict}`}>
                  <VerdictMark verdict={l.verdict} />
                </span>
              </a>
            ))}
        </span>
      ))}
    </nav>
  )
}

function Sentence({ lift }: { lift: LiftView }) {
  const { system } = useShown()
  const load = figureOf(lift.hookLoad, 'kg', system)
  const rated = figureOf(lift.rated, 'kg', system)
  return (
    <div className="titled sentence">
      <h1 className="large">
        {lift.name}, {KIND_WORD[lift.kind]} <VerdictWord verdict={lift.verdict} />
      </h1>
      <span>
        <span className="strong">
          {load.number} {load.unit}
        </span>{' '}
        of {rated.number} {rated.unit} on {lift.hook}
        <span className="quiet">
          {' '}
          · {lift.critical === undefined ? 'class open' : lift.critical ? 'critical lift' : 'standard lift'}
        </span>
      </span>
      <a href={`/api/report/lift/${encodeURIComponent(lift.id)}.pdf`}>Lift sheet, PDF</a>
    </div>
  )
}

function MassChain({ lift }: { lift: LiftView }) {
  const { system } = useShown()
  const like = lift.hookLoad ?? 1e4
  return (
    <section>
      <h2>Mass on the hook, {figureOf(like, 'kg', system).unit}</h2>
      <table>
        <tbody>
          {lift.chain.map((line) => (
            <tr key={line.label}>
              <th scope="row">{line.label}</th>
              <td className="num">{figureOf(line.value, 'kg', system, like).number}</td>
              <td className="small quiet">{line.basis ?? ''}</td>
            </tr>
          ))}
          <tr className="strong">
            <th scope="row" className="strong">
              Hook load
            </th>
            <td className="num strong">{figureOf(lift.hookLoad, 'kg', system, like).number}</td>
            <td />
          </tr>
          <tr>
            <th scope="row">Rating</th>
            <td className="num">{figureOf(lift.rated, 'kg', system, like).number}</td>
            <td className="small quiet">
              {lift.hookLoad === undefined || lift.rated === undefined
                ? ''
                : `use ${textOfUse(lift.hookLoad / lift.rated)}`}
            </td>
          </tr>
        </tbody>
      </table>
    </section>
  )
}

function Legs({ lift }: { lift: LiftView }) {
  const { system } = useShown()
  if (lift.legs.length === 0) return null
  const like = Math.max(...lift.legs.map((l) => l.worst ?? 0), 1)
  return (
    <section>
      <h2>As it hangs</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Leg</th>
            <th scope="col" className="num">
              Tension, {figureOf(like, 'N', system).unit}
            </th>
            <th scope="col" className="num">
              Worst
            </th>
            <th scope="col" className="num">
              From vertical
            </th>
          </tr>
        </thead>
        <tbody>
          {lift.legs.map((leg) => (
            <tr key={leg.id}>
              <th scope="row">
                {leg.id}
                {leg.slack ? ', slack' : ''}
              </th>
              <td className="num">{figureOf(leg.tension, 'N', system, like).number}</td>
              <td className="num">{figureOf(leg.worst, 'N', system, like).number}</td>
              <td className="num">{degrees(leg.angle)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

function Facts({ lift }: { lift: LiftView }) {
  const { system } = useShown()
  const show = (value: number | undefined, unit: 'm' | 'm/s') => {
    const f = figureOf(value, unit, system)
    return `${f.number} ${f.unit}`
  }
  const rows: readonly (readonly [string, string])[] = [
    ['Tilt as it hangs', degrees(lift.tilt)],
    ['Hook height needed', show(lift.heightNeeded, 'm')],
    ['Hook height available', show(lift.heightAvailable, 'm')],
    ...(lift.clearance === undefined
      ? []
      : [[`Nearest on the way: ${lift.clearance.to}`, show(lift.clearance.gap, 'm')] as const]),
    ['Stop at a gust of', show(lift.wind, 'm/s')],
    ['Hook time', hoursText(lift.duration)],
  ]
  return (
    <section>
      <h2>Height, clearance, wind</h2>
      <table>
        <tbody>
          {rows.map(([label, value]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td className="num">{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** The sheet's first page: the drawings. The figures of the others stand on this page already. */
function Drawings({ lift }: { lift: LiftView }) {
  const { client } = useShown()
  return <Drawn of={lift.id} ask={async () => (await client.ask('sheet', { lift: lift.id })).slice(0, 1)} />
}

function Criteria({ lift }: { lift: LiftView }) {
  return (
    <section>
      <h2>Class of lift</h2>
      <table>
        <tbody>
          {lift.criteria.map((c) => (
            <tr key={c.text}>
              <th scope="row">{c.text}</th>
              <td>
                {c.met === undefined ? (
                  <span className="verdict open">open</span>
                ) : c.met ? (
                  <span className="strong">yes</span>
                ) : (
                  <span className="quiet">no</span>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
