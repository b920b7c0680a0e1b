import './chanceCurve.css'
import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import type { RiskView } from '../engine/protocol.ts'
import { Months, monthStart } from '../first/ruler.tsx'
import { dateText } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { useWidth } from '../parts/width.ts'

const TOP = 10
const AXIS = 210
const HEIGHT = 248
const LEFT = 56

/** Distance over time after the restart: between one run in ten and four in five, the middle course in ink. */
export function DriveCourse({ risk, stale }: { risk: RiskView; stale: boolean }) {
  const [box, width] = useWidth<HTMLDivElement>(900)
  const { course, reaches } = risk
  const [start, end] = [course[0], course.at(-1)]
  if (start === undefined || end === undefined) return null
  const from = monthStart(start.p10, 0)
  const to = monthStart(end.p80, 1)
  const x = (t: number): number => LEFT + ((t - from) / (to - from)) * (width - LEFT)
  const y = (at: number): number => AXIS - (at / end.at) * (AXIS - TOP)
  const run = (name: 'p10' | 'p50' | 'p80'): string[] =>
    course.map((c) => `${x(c[name]).toFixed(1)} ${y(c.at).toFixed(1)}`)
  return (
    <section>
      <h2>The drive after it</h2>
      <div ref={box} className={stale ? 'ruler curve stale' : 'ruler curve'}>
        <svg width={width} height={HEIGHT} role="img" aria-label={spoken(risk)}>
          <Months from={from} to={to} x={x} width={width} axis={AXIS} left={LEFT} />
          <path d={`M${[...run('p10'), ...run('p80').reverse()].join('L')}Z`} className="between" />
          <path d={`M${run('p50').join('L')}`} className="chance" />
          <text x={LEFT - 8} y={y(end.at) + 10} textAnchor="end" className="quiet">
            {showNumber(end.at, 0)} m
          </text>
          <text x={LEFT - 8} y={AXIS} textAnchor="end" className="quiet">
            0 m
          </text>
        </svg>
      </div>
      <Scroll name="When each reach of the drive is done">
        <table className={stale ? 'stale' : undefined}>
          <caption className="unseen">When each reach of the drive is done</caption>
          <thead>
            <tr>
              <th scope="col">Driven to</th>
              <th scope="col">P50</th>
              <th scope="col">P80</th>
            </tr>
          </thead>
          <tbody>
            {reaches.map((r) => (
              <tr key={r.to}>
                <th scope="row">{showNumber(r.to, 0)} m</th>
                <td>{dateText(r.p50)}</td>
                <td className="strong">{dateText(r.p80)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </section>
  )
}

const spoken = ({ reaches }: RiskView): string =>
  reaches.map((r) => `${showNumber(r.to, 0)} m by ${dateText(r.p50)} in half of the runs`).join(', ')
