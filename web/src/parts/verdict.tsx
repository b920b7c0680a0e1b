import './verdict.css'
import type { Verdict } from '@shieldwright/engine/working/check.ts'
import { STAGES } from '../engine/stages.ts'

export const VERDICT_WORD: Readonly<Record<Verdict, string>> = {
  pass: 'passes',
  near: 'near',
  fail: 'FAIL',
  open: 'open',
}

/** A load against its limit: the line is the limit, the block is the demand. */
export function VerdictMark({ verdict }: { verdict: Verdict }) {
  return (
    <svg viewBox="0 0 16 14" aria-hidden="true">
      {MARKS[verdict]}
    </svg>
  )
}

const line = { stroke: 'currentColor', strokeWidth: 1.6, fill: 'none' }

const MARKS: Readonly<Record<Verdict, React.ReactNode>> = {
  pass: (
    <>
      <path d="M1 3H15" {...line} />
      <rect x="5" y="8" width="6" height="4" fill="currentColor" />
    </>
  ),
  near: (
    <>
      <path d="M1 3H15" {...line} />
      <rect x="5" y="3" width="6" height="10" fill="currentColor" />
    </>
  ),
  fail: (
    <>
      <path d="M1 1L5 6M15 1L11 6" {...line} />
      <rect x="5.6" y="0" width="4.8" height="14" fill="currentColor" />
    </>
  ),
  open: (
    <>
      <path d="M1 3H15" {...line} />
      <rect
        x="5"
        y="6"
        width="6"
        height="7"
        fill="none"
        stroke="currentColor"
        strokeDasharray="2 1.4"
        strokeWidth="1.2"
      />
    </>
  ),
}

export function VerdictWord({ verdict, children }: { verdict: Verdict; children?: React.ReactNode }) {
  return (
    <span className={`verdict ${verdict}`}>
      <VerdictMark verdict={verdict} />
      <span>
        {VERDICT_WORD[verdict]}
        {children}
      </span>
    </span>
  )
}

const MEANINGS: readonly (readonly [Verdict, string])[] = [
  ['fail', 'The demand is above the limit. It may not be done as it stands.'],
  ['near', 'Within the limit, but by less than the project’s margin. Look at what it rests on.'],
  ['open', 'Something is missing, or a person who answers for it has to decide. It is never a pass.'],
  ['pass', 'Within the limit by more than the margin.'],
]

/** What each mark says, with the mark itself. */
export function Marks() {
  return (
    <dl className="marks">
      {MEANINGS.map(([verdict, meaning]) => (
        <div key={verdict}>
          <dt>
            <VerdictWord verdict={verdict} />
          </dt>
          <dd>{meaning}</dd>
        </div>
      ))}
    </dl>
  )
}

const FROM = 0.78
const TO = 1.08
const WIDTH = 130
const at = (use: number): number => ((Math.min(Math.max(use, FROM), TO) - FROM) / (TO - FROM)) * WIDTH

/** The heads of the two ticks that run through all rows of the limit rule. */
export function LimitHead({ near }: { near: number }) {
  return (
    <span className="limit-head" style={{ width: WIDTH }}>
      <span style={{ left: at(near) }}>{near}</span>
      <span style={{ left: at(1) }}>1</span>
    </span>
  )
}

/**
 * The same picture laid down: ticks at the near margin and at the limit, through all rows; a thin line for what is left, red
 * beyond the limit. The window is cut: what lies outside it is said by an arrow.
 */
export function LimitRule({ use, near }: { use: number | undefined; near: number }) {
  const one = at(1)
  return (
    <svg className="limit" width={WIDTH} aria-hidden="true">
      <line x1={at(near)} x2={at(near)} y1="0" y2="100%" stroke="var(--edge)" strokeDasharray="1.5 2.5" />
      <line x1={one} x2={one} y1="0" y2="100%" stroke="var(--ink)" strokeWidth="1.5" />
      {use !== undefined && <Load use={use} one={one} />}
    </svg>
  )
}

function Load({ use, one }: { use: number; one: number }) {
  if (use < FROM) return <path d="M6 9L1 14L6 19" stroke="var(--quiet)" strokeWidth="1.2" fill="none" />
  const colour = use > 1 ? 'var(--fail)' : 'var(--ink)'
  const x = Math.min(at(use), WIDTH - 8)
  return (
    <g stroke={colour} fill={colour}>
      <path d={`M${x} 14H${one}`} strokeWidth={use > 1 ? 4 : 1.2} />
      {use > TO ? (
        <path d={`M${WIDTH - 8} 7L${WIDTH} 14L${WIDTH - 8} 21Z`} stroke="none" />
      ) : (
        <rect x={x - 3} y="7" width="6" height="14" stroke="none" />
      )}
    </g>
  )
}

const STEP = 9

/** The way of one finding along the line: a ring at the first stage it rests on, thick to the last it reaches. */
export function SmallLine({ from, reaches }: { from: string; reaches: string }) {
  const x = (stage: string): number => 5 + Math.max(0, (STAGES as readonly string[]).indexOf(stage)) * STEP
  return (
    <svg className="small-line" viewBox="0 0 82 12" role="img" aria-label={`from ${from} to ${reaches}`}>
      <path d={`M5 6H77${STAGES.map((s) => `M${x(s)} 3V9`).join('')}`} stroke="var(--edge)" fill="none" />
      <path d={`M${x(from)} 6H${x(reaches)}`} stroke="var(--ink)" strokeWidth="2.6" />
      <path d={`M${x(reaches)} 1V11`} stroke="var(--ink)" strokeWidth="1.8" />
      <circle cx={x(from)} cy="6" r="3.2" fill="var(--sheet)" stroke="var(--ink)" strokeWidth="1.6" />
    </svg>
  )
}
