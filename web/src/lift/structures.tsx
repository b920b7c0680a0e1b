import { CheckDetail } from '../parts/checks.tsx'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { Opens, useOpened } from '../parts/opens.tsx'
import { LimitHead, LimitRule, VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import type { HeaderView, LiftPageView, StructureView } from './pageView.ts'

/** Lugs, beams and bolts between hook and piece, the most used of each, and what a header beam puts on its rails. */
export function Structures({ page: { structures, headers } }: { page: LiftPageView }) {
  return (
    <>
      {structures.length > 0 && <MostUsed structures={structures} />}
      {headers.map((header) => (
        <Header key={header.system} header={header} />
      ))}
    </>
  )
}

function MostUsed({ structures }: { structures: readonly StructureView[] }) {
  const { summary } = useShown()
  const opened = useOpened()
  const check = summary.checks.find((c) => c.id === opened.key)
  return (
    <>
      <h3 className="above">Beams, lugs and bolts, the most used of each</h3>
      <table className="lift-checks">
        <caption className="unseen">The most used beam, lug and bolts of this lift, by what is asked of them</caption>
        <thead>
          <tr>
            <th scope="col">
              <span className="unseen">Verdict</span>
            </th>
            <th scope="col">What</th>
            <th scope="col" className="num">
              Use
            </th>
            <th scope="col">
              <LimitHead near={summary.near} />
            </th>
          </tr>
        </thead>
        <tbody>
          {structures.map(({ id, asks, of, use, verdict }) => (
            <tr key={id} className={opened.key === id ? 'chosen' : undefined}>
              <td>
                <VerdictWord verdict={verdict} />
              </td>
              <th scope="row">
                <Opens opened={opened} of={id}>
                  {asks.slice(0, 1).toUpperCase() + asks.slice(1)}
                </Opens>
                <div className="small quiet">{of}</div>
              </th>
              <td className={verdict === 'fail' ? 'num fail strong' : 'num'}>{textOfUse(use)}</td>
              <td>
                <LimitRule use={use} near={summary.near} />
              </td>
            </tr>
          ))}
          {check !== undefined && (
            <tr>
              <td colSpan={4} className="opened">
                <CheckDetail check={check} onClose={opened.close} />
              </td>
            </tr>
          )}
        </tbody>
      </table>
    </>
  )
}

function Header({ header: { system, rails, spots } }: { header: HeaderView }) {
  const units = useShown().system
  const like = Math.max(...spots.flatMap(({ low, high }) => [low ?? 0, high ?? 0]), 1)
  const { unit } = figureOf(like, 'N', units)
  const place = (x: number): string => {
    const { number, unit: label } = figureOf(x, 'm', units, 10)
    return `${number} ${label}`
  }
  return (
    <>
      <h3 className="above">Header beams of {system} on their rails</h3>
      <table>
        <caption className="unseen">Reactions of the header beams of {system} by the place of the hook</caption>
        <thead>
          <tr>
            <th scope="col">Hook</th>
            <th scope="col" className="num">
              rail at {place(rails[0])}, {unit}
            </th>
            <th scope="col" className="num">
              rail at {place(rails[1])}, {unit}
            </th>
          </tr>
        </thead>
        <tbody>
          {spots.map(({ label, x, low, high }) => (
            <tr key={label}>
              <th scope="row">
                {label}, x {place(x)}
              </th>
              <td className="num">{figureOf(low, 'N', units, like).number}</td>
              <td className="num">{figureOf(high, 'N', units, like).number}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}
