import { likeOf } from '@shieldwright/engine/working/quantity.ts'
import { useState } from 'react'
import type { CheckView } from '../engine/protocol.ts'
import { routeTo, useShown } from '../state.ts'
import { differenceOf, figureOf, textOfUse } from './figures.ts'
import { type Opened, Opens, useOpened } from './opens.tsx'
import { Scroll } from './scroll.tsx'
import { LimitHead, LimitRule, VerdictWord } from './verdict.tsx'
import { WorkingPanel } from './working.tsx'

const RANK: Readonly<Record<string, number>> = { fail: 0, near: 1, open: 2, pass: 3 }

/** Worst first; then by use. */
export const worstFirst = (a: CheckView, b: CheckView): number =>
  (RANK[a.verdict] ?? 4) - (RANK[b.verdict] ?? 4) || (b.utilisation ?? 0) - (a.utilisation ?? 0)

/** Findings of one kind with the same figures and reasons stand once; the others are counted. */
export interface Group {
  check: CheckView
  alike: readonly CheckView[]
}

export function groupAlike(checks: readonly CheckView[]): Group[] {
  const groups = new Map<string, { check: CheckView; alike: CheckView[] }>()
  for (const check of checks) {
    const key = JSON.stringify([
      check.kind,
      check.verdict,
      check.demand?.toPrecision(4),
      check.capacity?.toPrecision(4),
      check.reasons,
    ])
    const group = groups.get(key)
    if (group === undefined) groups.set(key, { check, alike: [] })
    else group.alike.push(check)
  }
  return [...groups.values()]
}

interface Columns {
  checks: readonly CheckView[]
  caption: string
  /** The subject in a column of its own; left out where all rows share it. */
  withSubject?: boolean
  most?: number
}

/** Heads of the columns that every table of checks begins with. */
export function CheckHeads() {
  const { near } = useShown().summary
  return (
    <>
      <th scope="col">Verdict</th>
      <th scope="col">What</th>
      <th scope="col" className="num">
        Demand
      </th>
      <th scope="col" className="num">
        Limit
      </th>
      <th scope="col" className="num">
        Left
      </th>
      <th scope="col">
        <span className="unseen">Unit</span>
      </th>
      <th scope="col" className="num">
        Use
      </th>
      <th scope="col">
        <LimitHead near={near} />
      </th>
    </>
  )
}

/** Checks as engineers read them: demand, limit, what is left, use, and the load against its limit. */
export function CheckTable({ checks, caption, withSubject = true, most = 60 }: Columns) {
  const { near } = useShown().summary
  const [all, setAll] = useState(false)
  const opened = useOpened()
  const groups = groupAlike(checks)
  const shown = all ? groups : groups.slice(0, most)
  return (
    <>
      <Scroll name={caption}>
        <table>
          <caption className="unseen">{caption}</caption>
          <thead>
            <tr>
              <CheckHeads />
            </tr>
          </thead>
          <tbody>
            {shown.map(({ check, alike }) => (
              <CheckRows
                key={check.id}
                check={check}
                alike={alike}
                withSubject={withSubject}
                near={near}
                opened={opened}
              />
            ))}
          </tbody>
        </table>
      </Scroll>
      {!all && groups.length > most && (
        <p className="small">
          <button type="button" className="link" onClick={() => setAll(true)}>
            {groups.length - most} more
          </button>
        </p>
      )}
    </>
  )
}

function CheckRows({
  check,
  alike,
  withSubject,
  near,
  opened,
}: {
  check: CheckView
  alike: readonly CheckView[]
  withSubject: boolean
  near: number
  opened: Opened
}) {
  const { system } = useShown()
  const open = opened.key === check.id
  /** A count of faults, of which none is allowed. */
  const counts = check.unit === '1' && check.capacity === 0
  const like = likeOf([check.demand, check.capacity], check.unit, system)
  const [demand, capacity] = [check.demand, check.capacity].map((v) =>
    figureOf(v, check.unit, system, v === undefined ? v : like),
  )
  const left =
    check.demand === undefined || check.capacity === undefined
      ? undefined
      : differenceOf(check.capacity - check.demand, check.unit, system, like)
  return (
    <>
      <tr className={open ? 'chosen' : undefined}>
        <td>
          <VerdictWord verdict={check.verdict} />
        </td>
        <th scope="row">
          <Opens opened={opened} of={check.id}>
            {withSubject ? `${check.subjectName}: ${check.title}` : check.title}
          </Opens>
          {alike.length > 0 && <Alike checks={alike} />}
          {check.verdict !== 'pass' && check.reasons.length > 0 && (
            <div className="small quiet">{check.reasons.slice(0, 2).join('; ')}</div>
          )}
        </th>
        <td className="num">{counts ? (check.demand ?? 'open') : demand?.number}</td>
        <td className="num">{counts ? 'none' : capacity?.number}</td>
        <td className={`num ${check.verdict === 'fail' ? 'fail strong' : ''}`}>{counts ? '' : (left?.number ?? '')}</td>
        <td className="unit">{demand?.unit || capacity?.unit}</td>
        <td className={`num ${check.verdict === 'fail' ? 'fail strong' : ''}`}>{textOfUse(check.utilisation)}</td>
        <td>
          <LimitRule use={check.utilisation} near={near} />
        </td>
      </tr>
      {open && (
        <tr>
          <td colSpan={8} style={{ height: 'auto' }}>
            <CheckDetail check={check} onClose={opened.close} />
          </td>
        </tr>
      )}
    </>
  )
}

/** The others with the same figures: named on demand. */
function Alike({ checks }: { checks: readonly CheckView[] }) {
  return (
    <details className="small quiet">
      <summary>and {checks.length} alike</summary>
      {checks.map((c) => `${c.subjectName}, ${c.title.toLowerCase()}`).join('; ')}
    </details>
  )
}

/** What stands under a check that is opened: its working, who decides, what is assumed, and the cautions of the trade. */
export function CheckDetail({ check, onClose }: { check: CheckView; onClose: () => void }) {
  const { route } = useShown()
  return (
    <div>
      <WorkingPanel of={{ check: check.id }} onClose={onClose} />
      {check.verdict === 'open' && (
        <p>
          Open: {check.reasons.join('; ')}. <span className="strong">{check.decidedBy}</span> decides.
        </p>
      )}
      {check.assumptions.length > 0 && (
        <p className="small">Assumed: {check.assumptions.map(withoutStop).join('; ')}.</p>
      )}
      {check.cautions.map((caution) => (
        <p key={caution} className="caution small">
          {caution}
        </p>
      ))}
      {check.stage === 'lift' && route.stage !== 'lift' && (
        <p className="small">
          <a href={routeTo('lift', check.subject)}>The lift</a>
        </p>
      )}
    </div>
  )
}

const withoutStop = (text: string): string => text.replace(/\.$/, '')
