import type { Verdict } from '@shieldwright/engine/working/check.ts'

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

const FROM = 0.78
const TO = 1.08
const WIDTH = 130
const at = (use: number): number => ((Math.min(Math.max(use, FROM), TO) - FROM) / (TO - FROM)) * WIDTH

/** The same picture laid down: ticks at the near margin and at the limit; a thin line for what is left, red beyond. */
export function LimitRule({ use, near }: { use: number | undefined; near: number }) {
  const one = at(1)
  return (
    <svg className="limit" viewBox={`0 0 ${WIDTH} 22`} aria-hidden="true">
      <path d={`M${at(near)} 0V22`} stroke="var(--edge)" strokeDasharray="1.5 2.5" />
      <path d={`M${one} 0V22`} stroke="var(--ink)" strokeWidth="1.5" />
      {use !== undefined && <Load use={use} one={one} />}
    </svg>
  )
}

function Load({ use, one }: { use: number; one: number }) {
  const colour = use > 1 ? 'var(--fail)' : 'var(--ink)'
  if (use < FROM)
    return (
      <text x="0" y="15" fontSize="12" fill="var(--quiet)">
        ‹
      </text>
    )
  return (
    <g stroke={colour} fill={colour}>
      <path d={`M${at(use)} 11H${one}`} strokeWidth={use > 1 ? 4 : 1.2} />
      <rect x={at(use) - 3} y="5" width="6" height="12" stroke="none" />
    </g>
  )
}
