import { figureOf } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import type { TurnView } from './pageView.ts'

const G = 9.80665
const WIDTH = 420
const HEIGHT = 168
const PLOT = { left: 6, right: 318, top: 16, bottom: 142 }

interface ShareProps {
  turn: TurnView
  at: number
  onAt: (at: number) => void
}

/** Pull of each hook over the angle, its limit as a line, and the cursor. */
export function ShareDiagram({ turn, at, onAt }: ShareProps) {
  const { system } = useShown()
  const { course, limits } = turn
  const [first, last] = [course[0]?.angle ?? 0, course.at(-1)?.angle ?? 1]
  const most = Math.max(limits.main ?? 0, limits.tail ?? 0, ...course.flatMap((p) => [p.main ?? 0, p.tail ?? 0]), 1)
  const x = (angle: number): number => PLOT.left + ((angle - first) / (last - first || 1)) * (PLOT.right - PLOT.left)
  const y = (force: number): number => PLOT.bottom - (force / (most * 1.02)) * (PLOT.bottom - PLOT.top)
  const chosen = course[at]
  const moved = (event: React.PointerEvent<SVGSVGElement>): void => {
    if (event.type === 'pointermove' && event.buttons === 0) return
    const box = event.currentTarget.getBoundingClientRect()
    const across = ((event.clientX - box.left) / box.width) * WIDTH
    onAt(
      nearest(
        course.map((p) => x(p.angle)),
        across,
      ),
    )
  }
  return (
    <svg
      className="shares"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      aria-hidden="true"
      onPointerDown={moved}
      onPointerMove={moved}
    >
      {turn.lost.map(({ from, to }) => (
        <g key={from}>
          <rect
            className="lost"
            x={Math.min(x(from), x(to))}
            width={Math.max(1, Math.abs(x(to) - x(from)))}
            y={PLOT.top}
            height={PLOT.bottom - PLOT.top}
          />
          <path d={hatchOf(Math.min(x(from), x(to)), Math.max(x(from), x(to)))} stroke="var(--fail)" />
        </g>
      ))}
      {turn.marks.map(({ event, angle }) => (
        <path
          key={`${event} ${angle}`}
          d={`M${x(angle)} ${PLOT.bottom}v-6l-3 -5h6l-3 5`}
          stroke="var(--quiet)"
          fill="var(--sheet)"
        />
      ))}
      <path d={`M${PLOT.left} ${PLOT.bottom}H${PLOT.right}`} stroke="var(--ink)" />
      {(['main', 'tail'] as const).map((side) => {
        const limit = limits[side]
        if (limit === undefined) return null
        const shown = figureOf(limit / G, 'kg', system)
        return (
          <g key={side}>
            <path d={`M${PLOT.left} ${y(limit)}H${PLOT.right}`} stroke="var(--edge)" strokeDasharray="2 3" />
            <text x={PLOT.right + 6} y={y(limit) + 4}>
              {side} {shown.number} {shown.unit}
            </text>
          </g>
        )
      })}
      <path d={pathOf(course, 'main', x, y)} stroke="var(--ink)" strokeWidth="2.4" fill="none" />
      <path d={pathOf(course, 'tail', x, y)} stroke="var(--ink)" strokeWidth="1.6" strokeDasharray="7 3" fill="none" />
      {ticksOf(first, last).map((angle) => (
        <g key={angle}>
          <path d={`M${x(angle)} ${PLOT.bottom}v4`} stroke="var(--ink)" />
          <text x={x(angle)} y={HEIGHT - 8} textAnchor={angle === first ? 'start' : 'middle'} className="faint">
            {Math.round((angle * 180) / Math.PI)}°
          </text>
        </g>
      ))}
      {chosen !== undefined && (
        <g stroke="var(--edit)" fill="var(--edit)">
          <path d={`M${x(chosen.angle)} ${PLOT.top - 8}V${PLOT.bottom}`} strokeWidth="2" />
          {chosen.main !== undefined && <circle cx={x(chosen.angle)} cy={y(chosen.main)} r="3.5" />}
          {chosen.tail !== undefined && <circle cx={x(chosen.angle)} cy={y(chosen.tail)} r="3.5" />}
        </g>
      )}
    </svg>
  )
}

const HATCH = 6

/** Strokes across a range that nothing holds, kept inside it. */
function hatchOf(from: number, to: number): string {
  const high = PLOT.bottom - PLOT.top
  const n = Math.ceil((to - from + high) / HATCH)
  return Array.from({ length: n }, (_, k) => {
    const foot = from + (k + 1) * HATCH - high
    const [a, b] = [Math.max(from, foot), Math.min(to, foot + high)]
    return a >= b
      ? ''
      : `M${a.toFixed(1)} ${(PLOT.bottom - (a - foot)).toFixed(1)}L${b.toFixed(1)} ${(PLOT.bottom - (b - foot)).toFixed(1)}`
  }).join('')
}

/** A line that breaks where nothing holds the piece. */
function pathOf(
  course: TurnView['course'],
  side: 'main' | 'tail',
  x: (angle: number) => number,
  y: (force: number) => number,
): string {
  let on = false
  return course
    .map((p) => {
      const force = p[side]
      const move = on ? 'L' : 'M'
      on = force !== undefined
      return force === undefined ? '' : `${move}${x(p.angle).toFixed(1)} ${y(force).toFixed(1)}`
    })
    .join('')
}

const STEP = Math.PI / 12

function ticksOf(first: number, last: number): number[] {
  const [low, high] = [Math.min(first, last), Math.max(first, last)]
  const from = Math.ceil(low / STEP - 1e-6)
  const to = Math.floor(high / STEP + 1e-6)
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, k) => (from + k) * STEP)
}

function nearest(places: readonly number[], wanted: number): number {
  const away = places.map((place) => Math.abs(place - wanted))
  return away.indexOf(Math.min(...away))
}
