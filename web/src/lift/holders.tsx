import { figureOf, textOfUse } from '../parts/figures.ts'
import { useShown } from '../state.ts'
import type { HolderLine, HolderView, LiftPageView } from './pageView.ts'

/** What holds the load: chart as read, strand units, feet. */
export function Holders({ page }: { page: LiftPageView }) {
  return (
    <section>
      {page.holders.map((holder) => (
        <Holder key={holder.title} holder={holder} />
      ))}
    </section>
  )
}

function Holder({ holder }: { holder: HolderView }) {
  return (
    <>
      <h3 className="above">{holder.title}</h3>
      <p className="small quiet">{holder.words}</p>
      <table>
        <caption className="unseen">{holder.title}</caption>
        <tbody>
          {holder.lines.map((line) => (
            <tr key={line.label}>
              <th scope="row">{line.label}</th>
              <td className="num">
                <LineFigure line={line} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

/** "1 210 of 1 863 kN"; a share as a use; a count as it is. */
function LineFigure({ line: { label, value, unit, limit } }: { line: HolderLine }) {
  const { system } = useShown()
  if (value === undefined) return 'open'
  if (unit === '1') return label === 'strokes' ? String(value) : textOfUse(value)
  const shown = figureOf(value, unit, system, Math.max(value, limit ?? 0))
  const most = limit === undefined ? '' : ` of ${figureOf(limit, unit, system, Math.max(value, limit)).number}`
  return `${shown.number}${most}\u00a0${shown.unit}`
}
