import { memo } from 'react'
import type { ActivityView } from '../engine/protocol.ts'
import { dateText } from '../parts/figures.ts'
import { isLate, type ListRow } from './activityList.ts'

interface RowProps {
  activity: ActivityView
  index: number
  ends: { from: number; to: number }
  isChosen: boolean
  onSelect: (id: string) => void
}

/** One activity on one line: dates, float in the plan, what it waits for, and where it lies. */
export const ActivityRow = memo(
  function ActivityRow({ activity: a, index, ends, isChosen, onSelect }: RowProps) {
    return (
      <tr aria-rowindex={index} className={isChosen ? 'chosen here' : undefined}>
        <th scope="row" title={[a.id, a.name, a.holdPoint].filter(Boolean).join(' · ')}>
          <button type="button" className="link" onClick={() => onSelect(a.id)} aria-pressed={isChosen}>
            {a.name}
          </button>
          {a.holdPoint !== undefined && <span className="small quiet"> · hold</span>}
        </th>
        <td className="small">{dateText(a.start, false)}</td>
        <td className="small">{dateText(a.finish, false)}</td>
        <td className={`num ${isLate(a) ? 'fail strong' : ''}`}>
          {isLate(a) ? 'late' : a.drives ? <span className="strong">drives</span> : (a.planFloat / 86_400).toFixed(1)}
        </td>
        <td className="small quiet" title={waitsText(a)}>
          {waitsText(a)}
        </td>
        <td className="small quiet">{a.needs}</td>
        <td>
          <Bar activity={a} ends={ends} />
        </td>
      </tr>
    )
  },
  (a, b) => a.activity === b.activity && a.index === b.index && a.isChosen === b.isChosen && a.ends === b.ends,
)

export const waitsText = ({ waitsFor }: ActivityView): string =>
  waitsFor === undefined
    ? ''
    : waitsFor.resource === undefined
      ? waitsFor.activity
      : `${waitsFor.resource} from ${waitsFor.activity}`

function Bar({ activity: a, ends: { from, to } }: Pick<RowProps, 'activity' | 'ends'>) {
  const share = (instant: number): number => (Math.min(Math.max(instant, from), to) - from) / (to - from)
  const [left, right] = [share(a.start) * 100, share(a.finish) * 100]
  return (
    <svg aria-hidden="true">
      <rect
        x={`${left}%`}
        width={`${Math.max(0.4, right - left)}%`}
        y="2"
        height="8"
        fill={a.drives ? 'var(--ink)' : 'none'}
        stroke="var(--ink)"
      />
    </svg>
  )
}

interface PhaseProps {
  row: Extract<ListRow, { kind: 'phase' }>
  index: number
  onFold: (phase: string) => void
}

/** The head of a phase: how many activities, how many of them drive, from when to when. */
export function PhaseRow({ row, index, onFold }: PhaseProps) {
  return (
    <tr aria-rowindex={index} className="phase">
      <th scope="row">
        <button type="button" className="link strong" aria-expanded={!row.isFolded} onClick={() => onFold(row.phase)}>
          {row.phase.replace(/^\d+ /, '')}
        </button>{' '}
        <span className="small quiet">
          {row.count} {row.count === 1 ? 'activity' : 'activities'}
          {row.drives > 0 ? `, ${row.drives} drive` : ''}
          {row.isFolded ? ', folded' : ''}
        </span>
      </th>
      <td className="small">{dateText(row.start, false)}</td>
      <td className="small">{dateText(row.finish, false)}</td>
      <td colSpan={4} />
    </tr>
  )
}
