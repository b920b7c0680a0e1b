import type { CheckView, Moved } from '../engine/protocol.ts'
import { STAGES } from '../engine/stages.ts'
import { figureOf, textOfUse } from '../parts/figures.ts'
import { VERDICT_WORD, VerdictMark } from '../parts/verdict.tsx'
import { useShown } from '../state.ts'
import { Outcome } from './lastEdit.tsx'

const MOST_SHOWN = 8

/** What the edit under trial would do, each finding under its own stage; nothing is kept yet. */
export function Consequences() {
  const { trial, act } = useShown()
  if (trial === undefined) return null
  const { preview } = trial
  return (
    <section className="consequences" aria-label="Consequences of this edit">
      <p>
        <span className="edit strong">Preview.</span> <span className="strong">Nothing is kept yet.</span> {trial.what}:{' '}
        {preview.problems.length > 0 ? <span className="fail strong">refused</span> : <Outcome preview={preview} />}
        <span className="quiet small"> · worked out in {preview.milliseconds.toFixed(0)} ms</span>
      </p>
      {preview.problems.map((p) => (
        <p key={p.pointer + p.expected} className="fail">
          {p.pointer}: found {p.found}, expected {p.expected}
          {p.example === undefined ? '' : `, such as “${p.example}”`}
        </p>
      ))}
      <div className="under">
        {STAGES.map((stage) => (
          <Under key={stage} stage={stage} moved={preview.moved.filter((m) => m.check.stage === stage)} />
        ))}
      </div>
      <div className="actions">
        <button type="button" className="main" onClick={act.keep} disabled={preview.problems.length > 0}>
          Keep <kbd>Ctrl ↵</kbd>
        </button>
        <button type="button" onClick={act.discard}>
          Discard <kbd>Esc</kbd>
        </button>
      </div>
    </section>
  )
}

function Under({ stage, moved }: { stage: string; moved: readonly Moved[] }) {
  if (moved.length === 0) return null
  const worst = [...moved].sort((a, b) => weight(b) - weight(a))
  return (
    <div>
      <h3>
        {stage} <span className="quiet small">{moved.length === 1 ? '1 moves' : `${moved.length} move`}</span>
      </h3>
      <ul>
        {worst.slice(0, MOST_SHOWN).map((m) => (
          <MovedLine key={m.check.id} {...m} />
        ))}
      </ul>
      {worst.length > MOST_SHOWN && (
        <p className="quiet small">{worst.length - MOST_SHOWN} more move without a change of verdict or less.</p>
      )}
    </div>
  )
}

const RANK: Readonly<Record<string, number>> = { fail: 4, open: 3, near: 2, pass: 1 }

function weight({ check, before }: Moved): number {
  const changed = before?.verdict === check.verdict ? 0 : 10
  return (
    changed + (RANK[check.verdict] ?? 0) + Math.min(1, Math.abs((check.utilisation ?? 0) - (before?.utilisation ?? 0)))
  )
}

function MovedLine({ check, before }: Moved) {
  return (
    <li>
      <div>
        {check.subjectName}, {check.title.toLowerCase()}
      </div>
      <div className="small">
        {before === undefined ? <span className="quiet">new</span> : <Short check={before} quiet />}{' '}
        <span className="edit">→</span> <Short check={check} />
      </div>
    </li>
  )
}

function Short({ check, quiet = false }: { check: CheckView; quiet?: boolean }) {
  const { system } = useShown()
  const figure = figureOf(check.demand, check.unit, system)
  return (
    <span className={`verdict ${quiet ? 'quiet' : check.verdict}`}>
      <VerdictMark verdict={check.verdict} />
      <span>
        {VERDICT_WORD[check.verdict]}{' '}
        {check.utilisation === undefined ? `${figure.number} ${figure.unit}` : textOfUse(check.utilisation)}
      </span>
    </span>
  )
}
