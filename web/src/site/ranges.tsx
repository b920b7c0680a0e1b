import { useEffect, useState } from 'react'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { Scroll } from '../parts/scroll.tsx'
import { VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import type { RangeView } from './view.ts'

/** Values that move a check least are many, and say little. */
const MOST = 3

/** How the checks move when one soil value or water level goes to an end of its range, and when all go to their worse ends. */
export function Ranges() {
  const { client, summary } = useShown()
  const [wanted, setWanted] = useState(false)
  const [views, setViews] = useState<readonly RangeView[]>()
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again when the project changes
  useEffect(() => {
    if (!wanted) return
    let here = true
    setViews(undefined)
    client.ask('ranges', {}).then((answer) => here && setViews(answer))
    return () => {
      here = false
    }
  }, [client, wanted, summary])
  return (
    <section>
      <div className="titled">
        <h2>How results move with the ground</h2>
        <span className="small quiet">
          each value at its lowest and highest, the rest as estimated; worst is all of them at once
        </span>
      </div>
      {!wanted && (
        <button type="button" onClick={() => setWanted(true)}>
          Work out
        </button>
      )}
      {wanted && views === undefined && <p className="quiet">Working the ground at every end of every range.</p>}
      {views !== undefined && <RangeTable views={views} />}
    </section>
  )
}

function RangeTable({ views }: { views: readonly RangeView[] }) {
  if (views.length === 0)
    return <p>No soil value and no water level has a lowest and a highest. Give a layer or a water a range.</p>
  return (
    <Scroll name="How results move with the ground">
      <table>
        <caption className="unseen">Use of each check as estimated, at its worst, and with each value</caption>
        <thead>
          <tr>
            <th scope="col">Check</th>
            <th scope="col" className="num">
              As estimated
            </th>
            <th scope="col" className="num">
              Worst
            </th>
            <th scope="col">Verdict, worst</th>
            <th scope="col">Moved by</th>
            <th scope="col" className="num">
              Lowest
            </th>
            <th scope="col" className="num">
              Use
            </th>
            <th scope="col" className="num">
              Highest
            </th>
            <th scope="col" className="num">
              Use
            </th>
          </tr>
        </thead>
        <tbody>
          {views.map((view) => (
            <RangeRows key={view.id} view={view} />
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

const FIELDS: Readonly<Record<string, string>> = {
  unitWeight: 'unit weight',
  phi: 'friction angle',
  cohesion: 'cohesion',
  undrained: 'undrained strength',
  young: 'modulus',
  k0: 'pressure at rest',
  permeability: 'permeability',
  head: 'head',
  drawnDown: 'head drawn down',
}

/** Layer or water, and which of its values. */
function wordsFor(pointer: string): string {
  const [id = '', field = ''] = pointer.split('/').slice(-2)
  return `${id} ${FIELDS[field] ?? field}`
}

function RangeRows({ view }: { view: RangeView }) {
  const { system } = useShown()
  const shown = view.moves.slice(0, MOST)
  const value = (v: number | undefined, move: RangeView['moves'][number]) => {
    const { number, unit } = figureOf(v, move.unit, system, move.high.value)
    return `${number} ${unit}`
  }
  return shown.map((move, i) => (
    <tr key={move.pointer}>
      {i === 0 && (
        <>
          <th scope="rowgroup" rowSpan={shown.length}>
            {view.title}
            <div className="small quiet">{view.subject}</div>
          </th>
          <td className="num" rowSpan={shown.length}>
            {textOfUse(view.best.use)}
          </td>
          <td className="num" rowSpan={shown.length}>
            {textOfUse(view.worst.use)}
          </td>
          <td rowSpan={shown.length}>
            <VerdictWord verdict={view.worst.verdict} />
          </td>
        </>
      )}
      <td className="small">{wordsFor(move.pointer)}</td>
      <td className="num small">{value(move.low.value, move)}</td>
      <td className="num">{textOfUse(move.low.use)}</td>
      <td className="num small">{value(move.high.value, move)}</td>
      <td className="num">{textOfUse(move.high.use)}</td>
    </tr>
  ))
}
