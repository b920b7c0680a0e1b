import { figureOf } from '../parts/figures.ts'
import { VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import { type Heading, Rows, WORST_FIRST } from './rows.tsx'
import type { GroundView, InstrumentView } from './view.ts'

/** Every instrument: last reading, its levels with the day on which the trend comes to each, what the plan demands now. */
export function Instruments({ ground }: { ground: GroundView }) {
  if (ground.instruments.length === 0) return null
  return (
    <Rows
      title="Instruments"
      caption="Instruments: last reading, levels, trend, what the plan demands"
      note="below a level the day on which the trend comes to it; readings come in by a table, instrument, on, reading"
      heads={HEADS}
    >
      {ground.instruments.map((i) => (
        <InstrumentRow key={i.id} instrument={i} />
      ))}
    </Rows>
  )
}

const HEADS: readonly Heading[] = [
  ...['Verdict', 'Instrument', 'Read on'],
  ...['Reading', 'Alert', 'Action', 'Alarm'].map((words) => ({ words, of: 'figures' }) as const),
  { words: 'Unit', of: 'unseen' },
  'The plan demands',
]

function InstrumentRow({ instrument: i }: { instrument: InstrumentView }) {
  const { system, summary } = useShown()
  const own = summary.checks.filter((c) => c.pointer === i.pointer)
  const verdict = WORST_FIRST.find((v) => own.some((c) => c.verdict === v))
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
