import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { figureOf } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import type { GroundView, InstrumentView } from './view.ts'

const RANK: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** Every instrument: last reading, its levels with the day on which the trend comes to each, what the plan demands now. */
export function Instruments({ ground }: { ground: GroundView }) {
  if (ground.instruments.length === 0) return null
  return (
    <section>
      <div className="titled">
        <h2>Instruments</h2>
        <span className="small quiet">
          below a level the day on which the trend comes to it; readings come in by a table, instrument, on, reading
        </span>
      </div>
      <Scroll name="Instruments">
        <table>
          <caption className="unseen">Instruments: last reading, levels, trend, what the plan demands</caption>
          <thead>
            <tr>
              <th scope="col">Verdict</th>
              <th scope="col">Instrument</th>
              <th scope="col">Read on</th>
              <th scope="col" className="num">
                Reading
              </th>
              <th scope="col" className="num">
                Alert
              </th>
              <th scope="col" className="num">
                Action
              </th>
              <th scope="col" className="num">
                Alarm
              </th>
              <th scope="col">
                <span className="unseen">Unit</span>
              </th>
              <th scope="col">The plan demands</th>
            </tr>
          </thead>
          <tbody>
            {ground.instruments.map((i) => (
              <InstrumentRow key={i.id} instrument={i} />
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

function InstrumentRow({ instrument: i }: { instrument: InstrumentView }) {
  const { system, summary } = useShown()
  const own = summary.checks.filter((c) => c.pointer === i.pointer)
  const verdict = RANK.find((v) => own.some((c) => c.verdict === v))
  const like = i.levels[2]?.value
  const shown = (value: number | undefined) => figureOf(value, i.unit, system, value === undefined ? value : like)
  return (
    <tr>
      <td>{verdict !== undefined && <VerdictWord verdict={verdict} />}</td>
      <th scope="row">
        {i.id}, {i.what}
        <div className="small quiet">{i.measures}</div>
      </th>
      <td className="small">{i.on ?? 'never'}</td>
      <td className="num">{shown(i.reading).number}</td>
      {i.levels.map((level) => (
        <td key={level.name} className={`num ${level.name === i.passed ? 'fail strong' : ''}`}>
          {shown(level.value).number}
          {level.reached !== undefined && <div className="small quiet">{level.reached}</div>}
        </td>
      ))}
      <td className="unit">{shown(like).unit}</td>
      <td className="small">
        {i.passed === undefined ? (
          <span className="quiet">nothing now</span>
        ) : (
          (i.demands ?? `nothing is written for the ${i.passed} level`)
        )}
      </td>
    </tr>
  )
}
