import type { Verdict } from '@shieldwright/engine/working/check.ts'
import type { CheckView } from '../engine/protocol.ts'

/** One row of the ledger: the finding that speaks for the others of its kind or lift. */
export interface Row {
  key: string
  check: CheckView
  others: readonly CheckView[]
  /** What the others have in common with it. */
  among: string
  /** When the first of them stops work. */
  at: number | undefined
}

const RANK: Readonly<Record<Verdict, number>> = { fail: 0, near: 1, open: 2, pass: 3 }

/**
 * Everything wrong, near and open: what one lift has is one row, what is open for one reason is one row; the worst speaks for
 * the rest. Worst first, then by the day on which work stops.
 */
export function ledgerRows(checks: readonly CheckView[]): Row[] {
  const groups = new Map<string, CheckView[]>()
  for (const check of checks) {
    const key = keyOf(check)
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [check])
    else group.push(check)
  }
  return [...groups].map(([key, group]) => rowOf(key, group)).sort(byWeight)
}

function keyOf({ verdict, stage, kind, pointer, id }: CheckView): string {
  if (verdict === 'open') return `open ${kind}`
  if (stage === 'lift') return `${verdict} ${pointer}`
  return verdict === 'fail' ? id : `${verdict} ${kind}`
}

function rowOf(key: string, group: readonly CheckView[]): Row {
  const [check, ...others] = [...group].sort(
    (a, b) => (b.utilisation ?? 0) - (a.utilisation ?? 0) || day(a) - day(b),
  ) as [CheckView, ...CheckView[]]
  const first = Math.min(...group.map(day))
  return {
    key,
    check,
    others,
    among: check.stage === 'lift' && check.verdict !== 'open' ? 'on this lift' : 'alike',
    at: Number.isFinite(first) ? first : undefined,
  }
}

const day = ({ follows }: CheckView): number => follows?.stops?.at ?? Number.POSITIVE_INFINITY

const byWeight = (a: Row, b: Row): number =>
  RANK[a.check.verdict] - RANK[b.check.verdict] ||
  (a.at ?? Number.MAX_VALUE) - (b.at ?? Number.MAX_VALUE) ||
  (b.check.utilisation ?? 0) - (a.check.utilisation ?? 0)
