import type { LiftView } from '../engine/protocol.ts'
import { figureOf } from '../parts/figures.ts'
import { useShown } from '../state.ts'

const G = 9.80665
const WIDTH = 360
const HEIGHT = 150
const LEFT = 8
const RIGHT = 300

/** Both hooks' shares over the angle, and the same as figures. */
export function Turning({ lift }: { lift: LiftView }) {
  const { system } = useShown()
  const top = Math.max(...lift.turning.flatMap((t) => [t.main ?? 0, t.tail ?? 0]), 1)
  const end = lift.turning.at(-1)?.angle ?? Math.PI / 2
  const x = (angle: number): number => LEFT + (angle / (end || 1)) * (RIGHT - LEFT)
  const y = (force: number): number => HEIGHT - 22 - (force / top) * (HEIGHT - 40)
  const path = (side: 'main' | 'tail'): string =>
    lift.turning.map((t, i) => `${i === 0 ? 'M' : 'L'}${x(t.angle).toFixed(1)} ${y(t[side] ?? 0).toFixed(1)}`).join('')
  const last = lift.turning.at(-1)
  return (
    <section>
      <h2>Turning: share of each hook</h2>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} width="100%" aria-hidden="true" fontSize="12" fill="var(--ink)">
        <path d={`M${LEFT} ${HEIGHT - 22}H${RIGHT}`} stroke="var(--ink)" />
        <path d={path('main')} fill="none" stroke="var(--ink)" strokeWidth="2.2" />
        <path d={path('tail')} fill="none" stroke="var(--ink)" strokeWidth="1.6" strokeDasharray="6 3" />
        <text x={RIGHT + 4} y={y(last?.main ?? 0) - 2}>
          main
        </text>
        <text x={RIGHT + 4} y={y(last?.tail ?? 0) + 13}>
          tail
        </text>
        {lift.turning.map((t) => (
          <text key={t.angle} x={x(t.angle)} y={HEIGHT - 6} textAnchor="middle" fill="var(--quiet)">
            {((t.angle * 180) / Math.PI).toFixed(0)}°
          </text>
        ))}
      </svg>
      <table>
        <thead>
          <tr>
            <th scope="col" className="num">
              Angle
            </th>
            <th scope="col" className="num">
              Main, {figureOf(1e6, 'kg', system).unit}
            </th>
            <th scope="col" className="num">
              Tail
            </th>
            <th scope="col" className="num">
              Main line leans
            </th>
            <th scope="col" className="num">
              Tail line leans
            </th>
          </tr>
        </thead>
        <tbody>
          {lift.turning.map((t) => (
            <tr key={t.angle}>
              <td className="num">{((t.angle * 180) / Math.PI).toFixed(0)}°</td>
              {[t.main, t.tail].map((force, i) => (
                <td key={i === 0 ? 'main' : 'tail'} className="num">
                  {figureOf(force === undefined ? undefined : force / G, 'kg', system, 1e6).number}
                </td>
              ))}
              <td className="num">{((t.mainLean * 180) / Math.PI).toFixed(1)}°</td>
              <td className="num">{((t.tailLean * 180) / Math.PI).toFixed(1)}°</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
