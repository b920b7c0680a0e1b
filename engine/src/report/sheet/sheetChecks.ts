import type { GroundResult } from '../../ground/index.ts'
import { type Check, countVerdicts, type Verdict } from '../../working/check.ts'
import { likeOf, showNumber, showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { OPEN, useText } from './figures.ts'

/** One check as the sheet prints it. */
export interface SheetCheck {
  id: string
  /** By which figures on the sheet name it: its place in the list, from 1. */
  number: number
  title: string
  of: string
  demand: string
  capacity: string
  use: number | undefined
  useText: string
  verdict: Verdict
  why: string
  decidedBy: string
}

const UNDER_A_LIFT = /^ground\.(tower|crane|platform|bay|line)\./

/** What the ground stage says of this lift: the machine's supports, and where the piece is set down. */
export function groundChecksOf(ground: GroundResult, steps: readonly string[], lift: string): Check[] {
  const own = new Set([lift, ...steps])
  return ground.checks.filter((c) => own.has(c.subject.id) && UNDER_A_LIFT.test(c.kind))
}

const WORST_FIRST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

export const worstOf = (checks: readonly Check[]): Verdict =>
  WORST_FIRST.find((verdict) => checks.some((c) => c.verdict === verdict)) ?? 'open'

export function summaryOf(checks: readonly Check[]): string {
  const counts = countVerdicts(checks)
  const words = WORST_FIRST.filter((v) => counts[v] > 0).map((v) => `${counts[v]} ${verdictWord(v)}`)
  return words.length === 0 ? 'no check has been made' : words.join(', ')
}

/**
 * The worst check: a failure first, then what is open, then the largest use. What passes at exactly its limit asks for no more
 * than that, such as a load test at 125 %: it is not what is tightest.
 */
export function governingText(checks: readonly Check[]): string {
  const isMet = ({ verdict, utilisation }: Check): boolean => verdict === 'pass' && utilisation === 1
  const worst = checks.filter((c) => !isMet(c)).sort(worstFirst)[0] ?? checks[0]
  if (worst === undefined) return ''
  return `${worst.title}${worst.utilisation === undefined ? '' : `: ${useText(worst.utilisation)}`}`
}

const worstFirst = (a: Check, b: Check): number =>
  WORST_FIRST.indexOf(a.verdict) - WORST_FIRST.indexOf(b.verdict) || (b.utilisation ?? 0) - (a.utilisation ?? 0)

/** Capitals for a failure: in small print "fails" reads "falls". */
export const verdictWord = (verdict: Verdict): string =>
  ({ pass: 'passes', near: 'near', fail: 'FAIL', open: OPEN })[verdict]

export function sheetChecks(checks: readonly Check[], units: UnitSystem): SheetCheck[] {
  return [...checks].sort(worstFirst).map((c, i) => ({
    id: c.id,
    number: i + 1,
    title: c.title,
    of: c.id.split('/').slice(2).join(' '),
    ...sides(c, units),
    use: c.utilisation,
    useText: c.utilisation === undefined ? '–' : useText(c.utilisation),
    verdict: c.verdict,
    why: c.reasons.join('; '),
    decidedBy: c.decidedBy,
  }))
}

/** Demand and limit as they are printed, in one unit; a fact that is counted in faults has none allowed. */
function sides({ demand, capacity, unit }: Check, units: UnitSystem): { demand: string; capacity: string } {
  if (unit === '1' && capacity.value === 0)
    return { demand: demand.value === undefined ? OPEN : showNumber(demand.value, 0), capacity: 'none' }
  const like = likeOf([demand.value, capacity.value], unit, units)
  return {
    demand: showQuantity(demand.value, unit, units, like),
    capacity: showQuantity(capacity.value, unit, units, like),
  }
}
