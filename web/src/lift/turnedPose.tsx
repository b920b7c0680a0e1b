import type { TurnPointView, TurnView } from './pageView.ts'

type Point = readonly [number, number]

/** Lines drawn so far above the piece, as a share of its size. */
const LINES = 0.55

/** The piece as it stands at an angle of the turn, seen looking left, with both hoist lines as they lean. */
export function TurnedPose({ turn, point }: { turn: TurnView; point: TurnPointView }) {
  const { loops, main, tail, side } = turn.piece
  const reach = Math.max(1, ...loops.flat().map(([u, v]) => Math.hypot(u, v)))
  const top = reach * (1 + LINES)
  const angle = point.angle
  const [at, other] = [turned(main, angle), turned(tail, angle)]
  const aside = at === undefined || other === undefined ? 0 : at[0] - other[0]
  const way = side * (point.apart >= Math.abs(aside) ? 1 : -1)
  const wide = reach * 1.5
  return (
    <svg className="turned" viewBox={`${-wide} ${-top} ${2 * wide} ${top + reach * 1.06}`} aria-hidden="true">
      <g transform={`rotate(${(angle * 180) / Math.PI})`}>
        <path
          d={loops.map((loop) => `M${loop.map(([u, v]) => `${u} ${-v}`).join('L')}Z`).join('')}
          vectorEffect="non-scaling-stroke"
          className="body"
          fillRule="evenodd"
        />
      </g>
      <path d={`M${-wide} ${reach * 1.03}H${wide}`} vectorEffect="non-scaling-stroke" className="ground" />
      <HookLine
        from={at}
        slope={way * Math.tan(point.mainLean)}
        top={top}
        reach={reach}
        pulls={(point.main ?? 0) > 0}
        main
      />
      <HookLine
        from={other}
        slope={-way * Math.tan(point.tailLean)}
        top={top}
        reach={reach}
        pulls={(point.tail ?? 0) > 0}
      />
      <circle r={reach * 0.04} vectorEffect="non-scaling-stroke" className="ground" />
    </svg>
  )
}

/** Right-handed about the direction one looks along: the front goes down. */
function turned(p: Point | undefined, angle: number): Point | undefined {
  if (p === undefined) return undefined
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  return [p[0] * c + p[1] * s, p[1] * c - p[0] * s]
}

interface HookLineProps {
  from: Point | undefined
  slope: number
  top: number
  reach: number
  pulls: boolean
  main?: boolean
}

function HookLine({ from, slope, top, reach, pulls, main = false }: HookLineProps) {
  if (from === undefined) return null
  const [u, v] = from
  const rise = top * 0.93 - v
  const block = reach * 0.11
  return (
    <g>
      <path
        d={`M${u} ${-v}L${u + slope * rise} ${-v - rise}`}
        vectorEffect="non-scaling-stroke"
        className="line"
        strokeDasharray={pulls ? undefined : '0.4 0.3'}
      />
      <circle cx={u} cy={-v} r={reach * 0.035} vectorEffect="non-scaling-stroke" className="end" />
      <rect
        x={u + slope * rise - block / 2}
        y={-v - rise - block / 2}
        width={block}
        height={block}
        vectorEffect="non-scaling-stroke"
        className={main ? 'block main' : 'block'}
      />
    </g>
  )
}
