import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { STAGES } from '../engine/preview.ts'
import type { CheckView } from '../engine/protocol.ts'
import { VERDICT_WORD, VerdictMark } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'

const WORST: readonly Verdict[] = ['fail', 'near', 'open', 'pass']

/** The line of stages: navigation, state and the way of the last edit in one. */
export function Line() {
  const { summary, route, trial, last } = useShown()
  const preview = trial?.preview ?? last?.preview
  return (
    <nav aria-label="Stages">
      <ol className="stages">
        {STAGES.map((stage) => {
          const counts = countsOf(summary.checks, stage)
          const reach = preview?.reach[stage] ?? 'none'
          return (
            <li key={stage} data-reach={reach} data-origin={preview?.origin === stage}>
              <a
                href={routeTo(stage)}
                aria-current={route.stage === stage ? 'page' : undefined}
                aria-label={spoken(stage, counts, reach)}
              >
                {stage}
              </a>
              <Counts counts={counts} />
            </li>
          )
        })}
      </ol>
    </nav>
  )
}

type Counts = readonly (readonly [Verdict, number])[]

function countsOf(checks: readonly CheckView[], stage: string): Counts {
  const own = checks.filter((c) => c.stage === stage)
  const counts = WORST.map((verdict) => [verdict, own.filter((c) => c.verdict === verdict).length] as const).filter(
    ([, n]) => n > 0,
  )
  const wrong = counts.filter(([verdict]) => verdict !== 'pass')
  return wrong.length > 0 ? wrong : counts
}

function Counts({ counts }: { counts: Counts }) {
  return (
    <div className="counts" aria-hidden="true">
      {counts.map(([verdict, n]) => (
        <span key={verdict} className={`verdict ${verdict}`}>
          <VerdictMark verdict={verdict} />
          <span>
            {n} <span className="word">{VERDICT_WORD[verdict]}</span>
          </span>
        </span>
      ))}
    </div>
  )
}

function spoken(stage: string, counts: Counts, reach: string): string {
  const said = counts.map(([verdict, n]) => `${n} ${VERDICT_WORD[verdict].toLowerCase()}`)
  const moved =
    reach === 'moved' ? ['moved by the last edit'] : reach === 'read' ? ['read by the last edit, not moved'] : []
  return [stage, ...said, ...moved].join(', ')
}
