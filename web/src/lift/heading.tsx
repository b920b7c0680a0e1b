import type { LiftView } from '../engine/protocol.ts'
import { worstFirst } from '../parts/checks.tsx'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { VerdictWord } from '../parts/verdict.tsx'
import { useCommonStore } from '../shared.ts'
import { routeTo, useShown } from '../state.ts'
import { shortTitle } from './liftChecks.tsx'
import { KIND_WORD } from './orderStrip.tsx'
import type { LiftPageView } from './pageView.ts'

/** Which lift, its verdict, and what is on the hook of what it may carry. */
export function Heading({ lift, page }: { lift: LiftView; page: LiftPageView | undefined }) {
  const { system } = useShown()
  return (
    <div className="titled sentence">
      <h1 className="large">
        {lift.name}, {KIND_WORD[lift.kind]} <VerdictWord verdict={lift.verdict} />
      </h1>
      <span>
        <OnHook demand={page?.demand.value ?? lift.hookLoad} limit={page?.allowed.value ?? lift.rated} on={lift.hook} />
        <Tightest lift={lift} page={page} />
        {page !== undefined && <span className="quiet"> · {page.critical}</span>}
      </span>
      <span className="links">
        <span className="small quiet">
          previous <kbd>[</kbd> next <kbd>]</kbd>
        </span>
        <Along page={page} />
        <a className="sheet-link" href={`/api/report/lift/${encodeURIComponent(lift.id)}.pdf?units=${system}`}>
          Lift sheet, PDF
        </a>
        <a
          className="sheet-link"
          href={`/api/report/on-site.html?lift=${encodeURIComponent(lift.id)}&units=${system}`}
          download={`on-site-lift-${lift.id}.html`}
        >
          For the site, one file
        </a>
      </span>
    </div>
  )
}

/** What gives the verdict, where that is not the load on the hook. */
function Tightest({ lift, page }: { lift: LiftView; page: LiftPageView | undefined }) {
  const { summary } = useShown()
  const checks = summary.checks
    .filter((c) => page?.checks.includes(c.id) && c.verdict === lift.verdict)
    .sort(worstFirst)
  const [worst] = checks
  if (worst === undefined || lift.verdict === 'pass' || worst.id === page?.hookCheck?.id) return null
  return (
    <>
      {' · '}
      <span className={lift.verdict === 'fail' ? 'fail strong' : lift.verdict === 'near' ? 'strong' : 'quiet'}>
        {shortTitle(worst)} {textOfUse(worst.utilisation)}
        {checks.length > 1 && ` and ${checks.length - 1} more`}
      </span>
    </>
  )
}

function OnHook({ demand, limit, on }: { demand: number | undefined; limit: number | undefined; on: string }) {
  const { system } = useShown()
  const like = Math.max(demand ?? 0, limit ?? 0)
  const [load, rated] = [demand, limit].map((v) => figureOf(v, 'kg', system, v === undefined ? v : like))
  const left = demand === undefined || limit === undefined ? undefined : limit - demand
  const rest = left === undefined ? undefined : figureOf(Math.abs(left), 'kg', system, like)
  const isOver = left !== undefined && left < 0
  return (
    <>
      <span className={isOver ? 'fail strong' : 'strong'}>{load?.number}</span> of {rated?.number}{' '}
      <span className="unit">{rated?.unit || load?.unit}</span> on {on}
      {rest !== undefined && (
        <>
          ,{' '}
          <span className={isOver ? 'fail strong' : 'strong'}>
            {rest.number} {rest.unit} {isOver ? 'over' : 'left'}
          </span>
        </>
      )}
    </>
  )
}

/** The same place in space, and along the order. */
function Along({ page }: { page: LiftPageView | undefined }) {
  const { set } = useCommonStore()
  if (page?.along === undefined) return null
  const { along, piece } = page
  return (
    <a href={routeTo('model')} onClick={() => set({ along: Math.max(0, along - 0.5), selected: `/pieces/${piece}` })}>
      In 3D, on its way
    </a>
  )
}
