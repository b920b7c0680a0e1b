import type { Moved, Preview } from '../engine/protocol.ts'

/** How an edit changed a finding, weightiest first: `moves` keeps its verdict. */
export type Turn = 'newly FAIL' | 'newly near' | 'newly open' | 'mended' | 'newly passing' | 'moves'

const TURNS: readonly Turn[] = ['newly FAIL', 'newly near', 'newly open', 'mended', 'newly passing', 'moves']

export function turnOf({ check, before }: Moved): Turn {
  if (before?.verdict === check.verdict) return 'moves'
  if (check.verdict === 'fail') return 'newly FAIL'
  if (check.verdict === 'open') return 'newly open'
  if (before?.verdict === 'fail') return 'mended'
  return check.verdict === 'near' ? 'newly near' : 'newly passing'
}

/** What an edit moved, in the order in which one reads it: newly failing first, then by how far the use moved. */
export function inOrder(moved: readonly Moved[]): Moved[] {
  const weight = (m: Moved): number => Math.abs((m.check.utilisation ?? 0) - (m.before?.utilisation ?? 0))
  return [...moved].sort((a, b) => TURNS.indexOf(turnOf(a)) - TURNS.indexOf(turnOf(b)) || weight(b) - weight(a))
}

/** Counts of each turn that happened. */
export function turnsOf(moved: readonly Moved[]): (readonly [Turn, number])[] {
  return TURNS.map((turn) => [turn, moved.filter((m) => turnOf(m) === turn).length] as const).filter(([, n]) => n > 0)
}

const DAY = 86_400_000

/** What becomes of the planned restart, in words; undefined when there is none. */
export function restartWords({ restartBefore, restartAfter }: Preview): string | undefined {
  if (restartBefore === undefined && restartAfter === undefined) return undefined
  if (restartBefore === undefined) return 'a restart can be planned'
  if (restartAfter === undefined) return 'restart can no longer be planned'
  const days = (restartAfter - restartBefore) / DAY
  if (Math.abs(days) < 0.05) return 'restart stays'
  return `restart ${Math.abs(days).toFixed(1)} d ${days > 0 ? 'later' : 'earlier'}`
}
