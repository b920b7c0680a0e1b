import { likeOf } from '@shieldwright/engine/working/quantity.ts'
import './ledger.css'
import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { useEffect, useMemo, useRef, useState } from 'react'
import type { CheckView } from '../engine/protocol.ts'
import { STAGES } from '../engine/stages.ts'
import { CheckDetail, CheckHeads } from '../parts/checks.tsx'
import { dateText, figureOf, textOfUse } from '../parts/figures.ts'
import { type Opened, Opens } from '../parts/opens.tsx'
import { Scroll } from '../parts/scroll.tsx'
import { LimitRule, SmallLine, VERDICT_WORD, VerdictWord } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { ledgerRows, type Row } from './ledgerRows.ts'

const MOST = 40
const COLUMNS = 10
const WRONG: readonly Verdict[] = ['fail', 'near', 'open']

/** Everything wrong, near and open in one table: what, by how much, what it stops and when, and who decides. */
export function Ledger() {
  const { summary, route } = useShown()
  const [verdict, setVerdict] = useState<Verdict>()
  const [stage, setStage] = useState('')
  const [all, setAll] = useState(false)
  const findings = useMemo(() => summary.checks.filter((c) => c.verdict !== 'pass'), [summary])
  const wanted = useMemo(
    () =>
      ledgerRows(
        findings.filter((c) => (verdict === undefined || c.verdict === verdict) && (stage === '' || c.stage === stage)),
      ),
    [findings, verdict, stage],
  )
  const followed = summary.checks.find((c) => c.id === route.item)
  const rows = withFollowed(all ? wanted : wanted.slice(0, MOST), wanted, followed)
  return (
    <section>
      <div className="titled">
        <h2>Wrong, near, open</h2>
        <Filters findings={findings} verdict={verdict} stage={stage} onVerdict={setVerdict} onStage={setStage} />
      </div>
      {rows.length === 0 ? (
        <p>{findings.length === 0 ? 'Every check passes.' : 'Nothing of this kind.'}</p>
      ) : (
        <Table rows={rows} followed={followed} />
      )}
      <p className="small quiet">
        Worst first, then by the day that work stops. {summary.checks.length - findings.length} of{' '}
        {summary.checks.length} checks pass.{' '}
        {wanted.length > rows.length && (
          <button type="button" className="link" onClick={() => setAll(true)}>
            {wanted.length - rows.length} more rows
          </button>
        )}
      </p>
    </section>
  )
}

/** The finding that one follows is there even where it passes, or the rows are cut before it. */
function withFollowed(rows: readonly Row[], wanted: readonly Row[], followed: CheckView | undefined): readonly Row[] {
  const holds = (row: Row): boolean => row.check === followed || row.others.includes(followed as CheckView)
  if (followed === undefined || rows.some(holds)) return rows
  const its = wanted.find(holds) ?? { key: followed.id, check: followed, others: [], among: '', at: undefined }
  return [its, ...rows]
}

interface FiltersOf {
  findings: readonly CheckView[]
  verdict: Verdict | undefined
  stage: string
  onVerdict: (verdict: Verdict | undefined) => void
  onStage: (stage: string) => void
}

function Filters({ findings, verdict, stage, onVerdict, onStage }: FiltersOf) {
  const count = (v: Verdict): number => findings.filter((c) => c.verdict === v).length
  return (
    <div className="filters small">
      <fieldset className="choice" aria-label="Verdicts shown">
        <button type="button" aria-pressed={verdict === undefined} onClick={() => onVerdict(undefined)}>
          all {findings.length}
        </button>
        {WRONG.map((v) => (
          <button key={v} type="button" aria-pressed={verdict === v} onClick={() => onVerdict(v)}>
            {VERDICT_WORD[v]} {count(v)}
          </button>
        ))}
      </fieldset>
      <select aria-label="Stage shown" value={stage} onChange={(e) => onStage(e.target.value)}>
        <option value="">every stage</option>
        {STAGES.filter((s) => findings.some((c) => c.stage === s)).map((s) => (
          <option key={s}>{s}</option>
        ))}
      </select>
    </div>
  )
}

function Table({ rows, followed }: { rows: readonly Row[]; followed: CheckView | undefined }) {
  const opened = useFollowed(followed?.id)
  return (
    <Scroll name="Findings">
      <table className="ledger">
        <caption className="unseen">Checks that fail, are near or are open</caption>
        <thead>
          <tr>
            <CheckHeads />
            <th scope="col">From, reaches</th>
            <th scope="col">Stops next</th>
          </tr>
        </thead>
        {rows.map((row) => (
          <Rows key={row.key} row={row} opened={opened} followed={followed} />
        ))}
      </table>
    </Scroll>
  )
}

/** What is open: the finding one follows, or the one that was pressed; closing gives the focus back. */
function useFollowed(id: string | undefined): Opened {
  const [key, setKey] = useState(id)
  const from = useRef<HTMLElement>(undefined)
  useEffect(() => {
    setKey(id)
    const button = document.getElementById(`finding ${id}`)?.querySelector('button')
    if (id === undefined || !button) return
    button.focus({ preventScroll: true })
    button.scrollIntoView({ block: 'center' })
    from.current = button
  }, [id])
  return {
    key,
    toggle: (wanted, button) => {
      from.current = button
      setKey(key === wanted ? undefined : wanted)
    },
    close: () => {
      setKey(undefined)
      from.current?.focus()
    },
  }
}

/** A finding and, on demand, those it speaks for. */
function Rows({ row, opened, followed }: { row: Row; opened: Opened; followed: CheckView | undefined }) {
  const { check, others, among } = row
  const [unfolded, setUnfolded] = useState(false)
  const isUnfolded = unfolded || others.includes(followed as CheckView)
  return (
    <tbody onKeyDown={alongRows}>
      <Finding check={check} opened={opened} at={row.at}>
        {others.length > 0 && (
          <button
            type="button"
            className="link small quiet"
            aria-expanded={isUnfolded}
            onClick={() => setUnfolded(!isUnfolded)}
          >
            and {others.length} more {VERDICT_WORD[check.verdict]} {among}
          </button>
        )}
      </Finding>
      {isUnfolded &&
        others.map((c) => <Finding key={c.id} check={c} opened={opened} at={c.follows?.stops?.at} under />)}
    </tbody>
  )
}

interface FindingOf {
  check: CheckView
  opened: Opened
  at: number | undefined
  under?: boolean
  children?: React.ReactNode
}

function Finding({ check, opened, at, under = false, children }: FindingOf) {
  const isOpen = opened.key === check.id
  return (
    <>
      <tr className={[isOpen ? 'chosen' : '', under ? 'under' : ''].join(' ')}>
        <td>
          <VerdictWord verdict={check.verdict} />
        </td>
        <th scope="row">
          <span id={`finding ${check.id}`} className="named">
            <Opens opened={opened} of={check.id}>
              {check.subjectName}
              <span className="unseen">: {check.title}</span>
            </Opens>
          </span>
          <div className="small quiet">
            {check.stage === 'lift' && `${check.subject} · `}
            <span aria-hidden="true">{check.title.endsWith(check.subjectName) ? check.subject : check.title}</span>
            {check.verdict === 'fail' && check.reasons.length > 0 && `; ${check.reasons.slice(0, 2).join('; ')}`}
          </div>
          {children}
        </th>
        <Figures check={check} />
        <td>
          {check.follows !== undefined && <SmallLine from={check.follows.from} reaches={check.follows.reaches} />}
        </td>
        <Stops check={check} at={at} />
      </tr>
      {isOpen && (
        <tr className="opened">
          <td colSpan={COLUMNS}>
            <CheckDetail check={check} onClose={opened.close} />
          </td>
        </tr>
      )}
    </>
  )
}

function Figures({ check }: { check: CheckView }) {
  const { system, summary } = useShown()
  const { demand, capacity, unit, verdict, utilisation } = check
  const like = likeOf([demand, capacity], unit, system)
  const figure = (value: number | undefined) => figureOf(value, unit, system, value === undefined ? value : like)
  const left = demand === undefined || capacity === undefined ? undefined : figure(capacity - demand)
  const wrong = verdict === 'fail' ? 'num fail strong' : 'num'
  const isAsked = demand === undefined && capacity === undefined
  return (
    <>
      <td className="num">{isAsked ? '' : figure(demand).number}</td>
      <td className="num">{isAsked ? '' : figure(capacity).number}</td>
      <td className={wrong}>{left?.number ?? ''}</td>
      <td className="unit">{figure(demand).unit || figure(capacity).unit}</td>
      <td className={wrong}>{textOfUse(utilisation)}</td>
      <td>
        <LimitRule use={utilisation} near={summary.near} />
      </td>
    </>
  )
}

/** The day and the activity that it stops; for what is open, who decides. */
function Stops({ check, at }: { check: CheckView; at: number | undefined }) {
  const { summary } = useShown()
  const stops = check.follows?.stops
  const when = at === undefined ? undefined : Math.max(at, summary.today ?? at)
  return (
    <td className="stops">
      <div>{when === undefined ? <span className="quiet">no activity to come</span> : dateText(when)}</div>
      <div className="small quiet">
        {check.verdict === 'open' ? (
          <>
            <span className="strong">{check.decidedBy}</span> decides
          </>
        ) : (
          stops !== undefined &&
          (stops.lift === undefined ? stops.name : <a href={routeTo('lift', stops.lift)}>{stops.name}</a>)
        )}
      </div>
    </td>
  )
}

/** Up and down go from one finding to the next. */
function alongRows(event: React.KeyboardEvent<HTMLElement>): void {
  const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0
  if (by === 0 || event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement) return
  const names = [...(event.currentTarget.parentElement?.querySelectorAll<HTMLElement>('.named > button') ?? [])]
  const here = (event.target as Element).closest('tr')?.querySelector<HTMLElement>('.named > button')
  const next = here ? names[names.indexOf(here) + by] : undefined
  if (next === undefined) return
  event.preventDefault()
  next.focus()
}
