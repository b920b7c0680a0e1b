import './chanceCurve.css'
import type { RiskView } from '../engine/protocol.ts'
import { type Label, placed } from '../first/place.ts'
import { Months, measure, monthStart } from '../first/ruler.tsx'
import { dateText } from '../parts/figures.ts'
import { useWidth } from '../parts/width.ts'
import { useShown } from '../state.ts'

const TOP = 26
const AXIS = 250
const HEIGHT = 288
const LEFT = 40

/** Share of the runs that have restarted by a day: the curve in ink, its percentiles with what the number of runs leaves unsure. */
export function ChanceCurve({ risk, stale }: { risk: RiskView; stale: boolean }) {
  const { restart } = useShown().summary
  const [box, width] = useWidth<HTMLDivElement>(900)
  const first = Math.min(risk.curve[0] as number, restart ?? Number.POSITIVE_INFINITY)
  const from = monthStart(first, 0)
  const to = monthStart(risk.curve.at(-1) as number, 1)
  const x = (t: number): number => LEFT + ((t - from) / (to - from)) * (width - LEFT)
  const y = (share: number): number => AXIS - share * (AXIS - TOP)
  const last = risk.curve.length - 1
  const path = risk.curve.map((t, i) => `${i === 0 ? 'M' : 'L'}${x(t).toFixed(1)} ${y(i / last).toFixed(1)}`).join('')
  return (
    <div ref={box} className={stale ? 'ruler curve stale' : 'ruler curve'}>
      <svg width={width} height={HEIGHT} role="img" aria-label={spoken(risk)}>
        {[0.5, 0.8, 1].map((share) => (
          <g key={share}>
            <path d={`M${LEFT} ${y(share)}H${width}`} className="level" />
            <text x={LEFT - 8} y={y(share) + 4} textAnchor="end" className="quiet">
              {share.toFixed(1)}
            </text>
          </g>
        ))}
        <Months from={from} to={to} x={x} width={width} axis={AXIS} left={LEFT} />
        <Band band={risk.band50} x={x} y={y(0.5)} />
        <Band band={risk.band80} x={x} y={y(0.8)} />
        <path d={path} className="chance" />
        {restart !== undefined && <path d={`M${x(restart)} ${TOP}V${AXIS}`} className="plan" strokeDasharray="5 3" />}
        {placed(labelsOf(risk, restart, x), width, measure).map((l) => (
          <text key={l.key} x={l.left} y={l.row} className={l.className}>
            {l.text}
          </text>
        ))}
      </svg>
    </div>
  )

  function labelsOf({ p50, p80 }: RiskView, plan: number | undefined, at: (t: number) => number): Label[] {
    const rows = { plan: [TOP - 10], p80: [y(0.8) + 18], p50: [y(0.5) + 18] }
    return [
      { key: 'p50', text: `P50 ${dateText(p50, false)}`, x: at(p50) + 8, rows: rows.p50, className: 'strong' },
      { key: 'p80', text: `P80 ${dateText(p80, false)}`, x: at(p80) + 8, rows: rows.p80, className: 'strong' },
      ...(plan === undefined
        ? []
        : [{ key: 'plan', text: `plan ${dateText(plan, false)}`, x: at(plan), rows: rows.plan }]),
    ].map((l) => (l.key === 'plan' ? l : { ...l, beside: true }))
  }
}

/** The stretch in which a percentile lies, as far as so many runs can tell. */
function Band({ band, x, y }: { band: readonly [number, number]; x: (t: number) => number; y: number }) {
  return <path d={`M${x(band[0])} ${y}H${x(band[1])}`} className="band" />
}

const spoken = ({ p10, p50, p80, p90 }: RiskView): string =>
  `Restarted by ${dateText(p10)} in one run of ten, by ${dateText(p50)} in half, by ${dateText(p80)} in four of five, by ${dateText(p90)} in nine of ten`
