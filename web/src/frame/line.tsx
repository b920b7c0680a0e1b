import './line.css'
import type { Verdict } from '@shieldwright/engine/working/check.ts'
import type { CheckView, Moved, Reach } from '../engine/protocol.ts'
import { STAGES } from '../engine/stages.ts'
import { VERDICT_WORD, VerdictMark } from '../parts/verdict.tsx'
import { routeTo, useShown } from '../state.ts'
import { turnsOf } from './moved.ts'

const WORST: readonly Verdict[] = ['fail', 'near', 'open', 'pass']

/** The line of stages: navigation, state and the way of the last edit in one. While an edit is tried out, what it would do. */
export function Line() {
  const { summary, route, trial, last, riskStale } = useShown()
  const isTrial = trial !== undefined && trial.preview.problems.length === 0
  const preview = isTrial ? trial.preview : last?.preview
  const held = heldActivities(summary.checks)
  return (
    <nav aria-label="Stages">
      <ol className="stages">
        {STAGES.map((stage) => {
          const said = [
            ...countsOf(summary.checks, stage),
            ...(stage === 'programme' && held > 0 ? [{ n: held, word: 'held' }] : []),
            ...(stage === 'risk' && riskStale ? [{ word: 'stale' }] : []),
          ]
          const tried = isTrial ? triedOf(trial.preview.moved, stage) : []
          const reach = preview?.reach[stage] ?? 'none'
          return (
            <li key={stage} data-reach={reach} data-origin={preview?.origin === stage}>
              <a
                href={routeTo(stage)}
                aria-current={route.stage === stage ? 'page' : undefined}
                aria-label={spoken(stage, tried.length > 0 ? tried : said, reach, isTrial)}
              >
                {stage}
              </a>
              <Counts said={tried.length > 0 ? tried : said} tried={tried.length > 0} />
            </li>
          )
        })}
      </ol>
    </nav>
  )
}

interface Said {
  n?: number
  word: string
  verdict?: Verdict
}

/** Passes are said only where nothing else is. */
function countsOf(checks: readonly CheckView[], stage: string): Said[] {
  const own = checks.filter((c) => c.stage === stage)
  const counts = WORST.map((verdict) => ({
    n: own.filter((c) => c.verdict === verdict).length,
    word: VERDICT_WORD[verdict],
    verdict,
  })).filter(({ n }) => n > 0)
  const wrong = counts.filter(({ verdict }) => verdict !== 'pass')
  return wrong.length > 0 ? wrong : counts
}

const TURN_VERDICT: Readonly<Record<string, Verdict>> = {
  'newly FAIL': 'fail',
  'newly near': 'near',
  'newly open': 'open',
}

const triedOf = (moved: readonly Moved[], stage: string): Said[] =>
  turnsOf(moved.filter((m) => m.check.stage === stage))
    .map(([turn, n]) => ({ n, word: turn === 'moves' && n > 1 ? 'move' : turn, verdict: TURN_VERDICT[turn] }))
    .slice(0, 2)

/** Activities that a failing finding stops. */
const heldActivities = (checks: readonly CheckView[]): number =>
  new Set(checks.flatMap((c) => (c.verdict === 'fail' ? (c.follows?.stops?.activity ?? []) : []))).size

function Counts({ said, tried }: { said: readonly Said[]; tried: boolean }) {
  return (
    <div className={tried ? 'counts tried' : 'counts'} aria-hidden="true">
      {said.map(({ n, word, verdict }) => (
        <span key={word} className={`verdict ${verdict ?? 'unmarked'}`}>
          {verdict !== undefined && <VerdictMark verdict={verdict} />}
          <span>
            {n} <span className={n === undefined ? undefined : 'word'}>{word}</span>
          </span>
        </span>
      ))}
    </div>
  )
}

function spoken(stage: string, said: readonly Said[], reach: Reach, isTrial: boolean): string {
  const edit = isTrial ? 'the edit tried out' : 'the last edit'
  const way = reach === 'moved' ? [`moved by ${edit}`] : reach === 'read' ? [`read by ${edit}, not moved`] : []
  return [stage, ...said.map(({ n, word }) => (n === undefined ? word : `${n} ${word.toLowerCase()}`)), ...way].join(
    ', ',
  )
}
