import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { allFormulas } from '@shieldwright/engine/working/formula.ts'
import type { FormulaView } from './protocol.ts'

/** Every formula, and the first check that it works in. */
export function formulaViews(checks: readonly Check[]): FormulaView[] {
  const usedIn = new Map<string, string>()
  const seen = new Set<Answer>()
  const walk = (answer: Answer, check: string): void => {
    if (seen.has(answer)) return
    seen.add(answer)
    if (answer.kind === 'worked' && !usedIn.has(answer.formula)) usedIn.set(answer.formula, check)
    for (const [, input] of inputsOf(answer)) walk(input, check)
  }
  for (const { id, demand, capacity } of checks) {
    walk(demand, id)
    walk(capacity, id)
  }
  return allFormulas()
    .map(({ text: { id, title } }) => ({ id, title, usedIn: usedIn.get(id) }))
    .sort((a, b) => a.id.localeCompare(b.id))
}
