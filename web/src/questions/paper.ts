import { ledgerRows } from '../first/ledgerRows.ts'
import { textOfUse } from '../parts/figures.ts'
import { routeTo } from '../state.ts'
import { checksOf, counted, type Facts } from './facts.ts'
import type { Place } from './questions.ts'

const first = ({ summary }: Facts) =>
  ledgerRows(summary.checks.filter((c) => c.verdict === 'fail' || c.verdict === 'near'))[0]?.check

export function working(facts: Facts): string {
  const check = first(facts)
  return check === undefined
    ? 'Any underlined number opens its working, down to the file.'
    : `Any underlined number opens its working, down to the file: here ${check.title.toLowerCase()}, used ${textOfUse(check.utilisation)}.`
}

export function workingPlace(facts: Facts): Place {
  const check = first(facts) ?? facts.summary.checks[0]
  return { href: check === undefined ? routeTo('project') : routeTo('project', check.id) }
}

export function open({ summary }: Facts): string {
  const checks = summary.checks.filter((c) => c.verdict === 'open')
  const who = new Map<string, number>()
  for (const c of checks) who.set(c.decidedBy, (who.get(c.decidedBy) ?? 0) + 1)
  const most = [...who].sort((a, b) => b[1] - a[1]).slice(0, 4)
  return checks.length === 0 ? 'None.' : `${checks.length}: ${most.map(([name, n]) => `${name} ${n}`).join(', ')}.`
}

export const changed = (): string => 'Every edit with who, when and why, the latest first.'

export function records({ summary }: Facts): string {
  const missing = (name: string, ...kinds: string[]): string => {
    const all = checksOf(summary, ...kinds)
    return `${name} ${all.filter((c) => c.verdict !== 'pass').length} of ${all.length}`
  }
  return `Not there: ${missing('welds of lugs', 'lift.lug.tested')}, ${missing('isolations', 'strip.isolation.discharged')}, ${missing('faces of joints', 'strip.joint.faces')}; ${counted(checksOf(summary, 'strip.bolts.preload').length, 'bolt group')} stated.`
}
