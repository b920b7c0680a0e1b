import { useEffect, useMemo, useRef, useState } from 'react'
import type { ActivityView } from '../engine/protocol.ts'
import { dateText } from '../parts/figures.ts'
import { useSelected } from '../shared.ts'
import { useShown } from '../state.ts'
import './activities.css'
import { ActivityDetail } from './activityDetail.tsx'
import { countsOf, type ListRow, type ListWish, rowsOf } from './activityList.ts'
import { ActivityRow, PhaseRow } from './activityRow.tsx'
import { Downloads } from './downloads.tsx'
import { useWindowed } from './useWindowed.ts'

const POINTER = '/programme/activities/'
const ONLY: readonly [ListWish['only'], string][] = [
  ['all', 'all'],
  ['drives', 'what drives the restart'],
  ['near', 'under 5 days of float'],
  ['late', 'late'],
  ['asked', 'with a question'],
]
const ORDERS: readonly [ListWish['order'], string][] = [
  ['phase', 'by phase'],
  ['date', 'by date'],
  ['float', 'least float first'],
]

/** Every activity of the plan; only the rows in sight are in the page, so that a long list scrolls as lightly as a short one. */
export function Activities() {
  const { summary } = useShown()
  const { selected, set } = useSelected()
  const [wish, setWish] = useState<ListWish>({ order: 'phase', only: 'all', words: '', folded: new Set() })
  const all = summary.activities
  const rows = useMemo(() => rowsOf(all, wish), [all, wish])
  const counts = useMemo(() => countsOf(all), [all])
  const ends = useMemo(() => endsOf(all), [all])
  const chosen = selected?.startsWith(POINTER) ? selected.slice(POINTER.length) : undefined
  const change = (more: Partial<ListWish>): void => setWish((w) => ({ ...w, ...more }))
  if (all.length === 0) return <p>No programme yet. Give /programme a start, calendars and activities.</p>
  return (
    <section className="activities">
      <div className="titled">
        <h2>Activities</h2>
        <span className="small quiet">
          {rows.filter((r) => r.kind === 'activity').length} of {all.length} shown · float in the plan, in days of each
          calendar
        </span>
      </div>
      <div className="tools small">
        <label>
          find{' '}
          <input
            className="find"
            value={wish.words}
            onChange={(e) => change({ words: e.target.value })}
            placeholder="name, id, resource"
          />
        </label>
        <label>
          show{' '}
          <select value={wish.only} onChange={(e) => change({ only: e.target.value as ListWish['only'] })}>
            {ONLY.map(([only, words]) => (
              <option key={only} value={only}>
                {words} ({counts[only]})
              </option>
            ))}
          </select>
        </label>
        <label>
          order{' '}
          <select value={wish.order} onChange={(e) => change({ order: e.target.value as ListWish['order'] })}>
            {ORDERS.map(([order, words]) => (
              <option key={order} value={order}>
                {words}
              </option>
            ))}
          </select>
        </label>
        {wish.order === 'phase' && <Fold wish={wish} all={all} change={change} />}
      </div>
      <ActivityDetail id={chosen} onSelect={(id) => set({ selected: POINTER + id })} />
      <Rows
        rows={rows}
        ends={ends}
        chosen={chosen}
        onSelect={(id) => set({ selected: POINTER + id })}
        onFold={(phase) => change({ folded: toggled(wish.folded, phase) })}
      />
      <Downloads />
    </section>
  )
}

function Fold({
  wish,
  all,
  change,
}: {
  wish: ListWish
  all: readonly ActivityView[]
  change: (more: Partial<ListWish>) => void
}) {
  const isFolded = wish.folded.size > 0
  return (
    <button
      type="button"
      className="link"
      onClick={() => change({ folded: isFolded ? new Set() : new Set(all.map((a) => a.phase)) })}
    >
      {isFolded ? 'unfold all phases' : 'fold all phases'}
    </button>
  )
}

function toggled(set: ReadonlySet<string>, item: string): ReadonlySet<string> {
  const next = new Set(set)
  if (!next.delete(item)) next.add(item)
  return next
}

/** First start and last finish of what leads to the restart and a little beyond: the drive that follows for months is not on the ruler. */
function endsOf(all: readonly ActivityView[]): { from: number; to: number } {
  const shown = all.filter((a) => a.phase !== 'drive')
  const own = shown.length > 0 ? shown : all
  return { from: Math.min(...own.map((a) => a.start)), to: Math.max(...own.map((a) => a.finish)) }
}

interface RowsProps {
  rows: readonly ListRow[]
  ends: { from: number; to: number }
  chosen: string | undefined
  onSelect: (id: string) => void
  onFold: (phase: string) => void
}

/** What scrolls by itself can be reached by keys. */
const REACHED = { tabIndex: 0, role: 'region', 'aria-label': 'Activities' }

function Rows({ rows, ends, chosen, onSelect, onFold }: RowsProps) {
  const box = useRef<HTMLDivElement>(null)
  const { first, last, height } = useWindowed(box, rows.length)
  const place = chosen === undefined ? -1 : rows.findIndex((r) => r.kind === 'activity' && r.activity.id === chosen)
  useEffect(() => {
    const { current } = box
    if (current === null || place < 0) return
    const [top, shown] = [place * height, current.clientHeight - 2 * height]
    if (top < current.scrollTop || top > current.scrollTop + shown) current.scrollTop = Math.max(0, top - shown / 2)
  }, [place, height])
  return (
    <div ref={box} className="rows" {...REACHED} style={{ '--list-row': `${height}px` } as React.CSSProperties}>
      <table aria-rowcount={rows.length + 1}>
        <caption className="unseen">Activities with dates, float and what each waits for</caption>
        <colgroup>
          {WIDTHS.map((width) => (
            <col key={width.join()} style={{ width: width[1] }} />
          ))}
        </colgroup>
        <thead>
          <tr aria-rowindex={1}>
            {HEADS.map(([head, isNumber]) => (
              <th key={head} scope="col" className={isNumber ? 'num' : undefined}>
                {head}
              </th>
            ))}
            <th scope="col">
              {dateText(ends.from, false)} to {dateText(ends.to, false)}
            </th>
          </tr>
        </thead>
        <tbody>
          <Space rows={first} height={height} />
          {rows
            .slice(first, last)
            .map((row, i) =>
              row.kind === 'phase' ? (
                <PhaseRow key={row.phase} row={row} index={first + i + 2} onFold={onFold} />
              ) : (
                <ActivityRow
                  key={row.activity.id}
                  activity={row.activity}
                  index={first + i + 2}
                  ends={ends}
                  isChosen={row.activity.id === chosen}
                  onSelect={onSelect}
                />
              ),
            )}
          <Space rows={rows.length - last} height={height} />
        </tbody>
      </table>
    </div>
  )
}

const HEADS: readonly [string, boolean][] = [
  ['Activity', false],
  ['Start', false],
  ['Finish', false],
  ['Float, d', true],
  ['Waits for', false],
  ['Needs', false],
]
const WIDTHS: readonly [string, string][] = [
  ['activity', '31%'],
  ['start', '110px'],
  ['finish', '110px'],
  ['float', '66px'],
  ['waits', '15%'],
  ['needs', '9%'],
  ['bar', 'auto'],
]

/** Room of the rows that are not in the page. */
const Space = ({ rows, height }: { rows: number; height: number }) =>
  rows > 0 ? (
    <tr className="space">
      <td colSpan={HEADS.length + 1} style={{ height: rows * height }} />
    </tr>
  ) : null
