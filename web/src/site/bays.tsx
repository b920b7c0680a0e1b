import { figureOf } from '../parts/figures.ts'
import { VerdictWord } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import { type Heading, Pick, PickedRow, Rows, useChosen, WORST_FIRST } from './rows.tsx'
import type { BayView, GroundView } from './view.ts'

/** Every bay: where, what it may carry, the most that is set on it, what is left; selecting one marks it in the drawing. */
export function Bays({ ground }: { ground: GroundView }) {
  if (ground.bays.length === 0) return <p>No laydown bays yet. Give /bays a place, a size and what it may carry.</p>
  return (
    <Rows
      title="What the bays carry"
      caption="Laydown bays: capacity and the largest pressure"
      note="the largest of any step; press a bay to see it in the drawing"
      heads={HEADS}
    >
      {ground.bays.map((bay) => (
        <BayRow key={bay.id} bay={bay} like={likeOf(ground.bays)} />
      ))}
    </Rows>
  )
}

const HEADS: readonly Heading[] = [
  ...['Verdict', 'Bay, most by', 'Lies there now'],
  ...['Pressure', 'Allowed', 'Left'].map((words) => ({ words, of: 'figures' }) as const),
  { words: 'Unit', of: 'unseen' },
]

/** One scale for the whole column, so that decimals align. */
const likeOf = (bays: readonly BayView[]): number => Math.max(...bays.flatMap((b) => [b.allowable ?? 0, b.most ?? 0]))

function BayRow({ bay, like }: { bay: BayView; like: number }) {
  const { system, summary } = useShown()
  const pointer = `/bays/${bay.id}`
  const { isChosen, toggle } = useChosen(pointer)
  const own = summary.checks.filter((c) => c.pointer === pointer)
  const verdict = WORST_FIRST.find((v) => own.some((c) => c.verdict === v))
  const pressure = (value: number | undefined) => figureOf(value, 'Pa', system, value === undefined ? value : like)
  const left = bay.most === undefined || bay.allowable === undefined ? undefined : bay.allowable - bay.most
  const used = bay.most !== undefined || bay.piece !== undefined
  return (
    <PickedRow
      isChosen={isChosen}
      before={
        <td>{verdict === undefined ? <span className="quiet">not used</span> : <VerdictWord verdict={verdict} />}</td>
      }
      pick={
        <Pick isPressed={isChosen} onPress={toggle}>
          {bay.name}
        </Pick>
      }
      under={bay.piece === undefined ? undefined : <bdi>{bay.piece}</bdi>}
    >
      <td className="small">{listOf(bay.standing)}</td>
      <td className="num">{used ? pressure(bay.most).number : ''}</td>
      <td className="num">{pressure(bay.allowable).number}</td>
      <td className={`num ${left !== undefined && left < 0 ? 'fail strong' : ''}`}>
        {used ? pressure(left).number : ''}
      </td>
      <td className="unit">{pressure(bay.allowable).unit}</td>
    </PickedRow>
  )
}

const FEW = 3

/** Up to three by name, more as a count with the names in hand. */
const listOf = (names: readonly string[]): string =>
  names.length <= FEW ? names.join(', ') : `${names.slice(0, 2).join(', ')} and ${names.length - 2} more`
