import './ruler.css'
import { dateText } from '../parts/figures.ts'
import { useWidth } from '../parts/width.ts'
import { type Label, placed } from './place.ts'

/** What stands on the ruler; instants in UTC milliseconds. */
export interface OnRuler {
  today: number | undefined
  plan: number | undefined
  held: { activity: string; at: number } | undefined
  chances: { p10: number; p50: number; p80: number; p90: number } | undefined
  stale: boolean
}

const AXIS = 52
const HEIGHT = 92
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

/** Today, the plan, where it is held, and how sure the date is: on one axis of months. */
export function Ruler({ on }: { on: OnRuler }) {
  const [box, width] = useWidth<HTMLDivElement>(560)
  const instants = [on.today, on.plan, on.held?.at, on.chances?.p10, on.chances?.p90].filter((t) => t !== undefined)
  if (instants.length < 2) return null
  const from = monthStart(Math.min(...instants), 0)
  const to = monthStart(Math.max(...instants), 2)
  const x = (t: number): number => ((t - from) / (to - from)) * width
  return (
    <div ref={box} className={on.stale ? 'ruler stale' : 'ruler'}>
      <svg width={width} height={HEIGHT} role="img" aria-label={spoken(on)}>
        <Months from={from} to={to} x={x} width={width} axis={AXIS} left={0} />
        {on.chances !== undefined && (
          <g stroke="var(--ink)" className="chances">
            <path d={`M${x(on.chances.p10)} ${AXIS - 8}H${x(on.chances.p90)}`} stroke="var(--edge)" strokeWidth="4" />
            <path d={`M${x(on.chances.p50)} ${AXIS - 8}H${x(on.chances.p80)}`} strokeWidth="7" />
          </g>
        )}
        {on.plan !== undefined && <path d={`M${x(on.plan)} ${AXIS - 16}V${AXIS + 4}`} className="plan" />}
        {on.held !== undefined && <path d={`M${x(on.held.at)} 16V${AXIS}`} className="held" />}
        {on.today !== undefined && <path d={`M${Math.max(1.5, x(on.today))} 4V${AXIS}`} className="today" />}
        {placed(labelsOf(on, x), width, measure).map((l) => (
          <text key={l.key} x={l.left} y={l.row === 0 ? 12 : 32} className={l.className}>
            {l.text}
          </text>
        ))}
      </svg>
    </div>
  )
}

function labelsOf({ today, plan, held, chances }: OnRuler, x: (t: number) => number): Label[] {
  const at = (key: string, t: number | undefined, text: string, rows: number[], className?: string): Label[] =>
    t === undefined ? [] : [{ key, text, x: x(t), rows, className }]
  return [
    ...at('held', held?.at, `held at ${held?.activity}, ${dayMonth(held?.at)}`, [0], 'fail strong'),
    ...at('today', today, 'today', [0, 1], 'edit'),
    ...at('plan', plan, `plan ${dayMonth(plan)}`, [1, 0]),
    ...at('p50', chances?.p50, 'P50', [1, 0], 'strong'),
    ...at('p80', chances?.p80, 'P80', [1, 0], 'strong'),
    ...at('p10', chances?.p10, 'P10', [1, 0], 'quiet'),
    ...at('p90', chances?.p90, 'P90', [1, 0], 'quiet'),
  ]
}

const dayMonth = (t: number | undefined): string => dateText(t, false).replace(/ \d+$/, '')

interface MonthsOf {
  from: number
  to: number
  x: (t: number) => number
  width: number
  /** Where the axis lies and begins, px. */
  axis: number
  left: number
}

/** An axis of months, named as closely as they have room; the year where it begins. */
export function Months({ from, to, x, width, axis, left }: MonthsOf) {
  const all: number[] = []
  for (let t = from, n = 1; t <= to; t = monthStart(from, n++)) all.push(t)
  const every = [1, 2, 3, 6, 12].find((n) => (width / all.length) * n >= 34) ?? 12
  const named = all.filter((t) => new Date(t).getUTCMonth() % every === 0 && x(t) < width - 24)
  return (
    <>
      <path d={`M${left} ${axis}H${width}`} className="axis" />
      <path d={all.map((t) => `M${x(t)} ${axis}v${named.includes(t) ? 7 : 4}`).join('')} className="axis" />
      {named.map((t, i) => {
        const year = new Date(t).getUTCFullYear()
        const isNew = i === 0 || year !== new Date(named[i - 1] as number).getUTCFullYear()
        return (
          <g key={t} className="month">
            <text x={x(t) + 3} y={axis + 17}>
              {MONTHS[new Date(t).getUTCMonth()]}
            </text>
            {isNew && (
              <text x={x(t) + 3} y={axis + 33}>
                {year}
              </text>
            )}
          </g>
        )
      })}
    </>
  )
}

/** Midnight, UTC, on the first of a month so many months later. */
export function monthStart(t: number, later: number): number {
  const d = new Date(t)
  return Date.UTC(d.getUTCFullYear(), d.getUTCMonth() + later, 1)
}

let pen: CanvasRenderingContext2D | null | undefined

/** Width of a text on the ruler, px. */
export function measure(text: string): number {
  pen ??= document.createElement('canvas').getContext('2d')
  if (!pen) return text.length * 7
  pen.font = '600 13px "Shieldwright Sans"'
  return pen.measureText(text).width
}

function spoken({ today, plan, held, chances }: OnRuler): string {
  return [
    today === undefined ? '' : `today ${dateText(today)}`,
    held === undefined ? '' : `held at ${held.activity} on ${dateText(held.at)}`,
    plan === undefined ? '' : `plan ${dateText(plan)}`,
    chances === undefined
      ? ''
      : `P10 ${dateText(chances.p10)}, P50 ${dateText(chances.p50)}, P80 ${dateText(chances.p80)}, P90 ${dateText(chances.p90)}`,
  ]
    .filter(Boolean)
    .join('; ')
}
