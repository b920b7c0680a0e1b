import { type Answer, inputsOf } from '../../working/answer.ts'
import { allFormulas } from '../../working/formula.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { type Working, workingOf } from '../../working/show.ts'

/** The working of one number on a sheet: what is needed to do it again by hand. */
export interface SheetWorking {
  title: string
  /** Formula id or kind of result. */
  by: string
  symbolic?: string
  numbers?: string
  /** Named values on the way. */
  steps: readonly string[]
  /** What goes in, each with its value. */
  inputs: readonly string[]
  value: string
  source: string
  limits: readonly string[]
  residuals: readonly string[]
}

/**
 * Workings of answers and of all that they rest on, each once, from the top down; plain inputs are named in the line that
 * uses them.
 *
 * @param leave ids of formulas whose result is plain from the table it stands in
 */
export function workingsUnder(
  answers: readonly Answer[],
  units: UnitSystem,
  leave: ReadonlySet<string> = new Set(),
): SheetWorking[] {
  const seen = new Set<Answer>()
  const shown = new Set<string>()
  const workings: SheetWorking[] = []
  const go = (answer: Answer): void => {
    if (seen.has(answer)) return
    seen.add(answer)
    if (isWorthShowing(answer, leave)) {
      const working = sheetWorking(workingOf(answer, units))
      const key = `${working.title} ${working.numbers ?? ''} ${working.inputs.join()} ${working.value}`
      if (!shown.has(key)) workings.push(working)
      shown.add(key)
    }
    for (const [, input] of inputsOf(answer)) go(input)
  }
  for (const answer of answers) go(answer)
  return workings
}

function isWorthShowing(answer: Answer, leave: ReadonlySet<string>): boolean {
  if (answer.kind === 'given' || answer.kind === 'stated') return false
  return answer.kind !== 'worked' || !leave.has(answer.formula)
}

/** Formulas whose working every reader sees in the line itself: count × mass of one. */
export const PLAIN_FORMULAS: ReadonlySet<string> = new Set(
  allFormulas()
    .map(({ text }) => text.id)
    .filter((id) => id.endsWith('.items.mass')),
)

function sheetWorking(working: Working): SheetWorking {
  const { title, by, value, source, symbolic, numbers } = working
  return {
    title,
    by,
    ...(symbolic === undefined ? {} : { symbolic }),
    ...(numbers === undefined ? {} : { numbers }),
    steps: working.steps.map((s) => `${s.symbol} = ${s.symbolic} = ${s.numbers} · ${s.meaning}`),
    inputs: working.lines.map((l) => `${l.symbol === l.meaning ? l.symbol : `${l.symbol} ${l.meaning}`}: ${l.value}`),
    value,
    source: source === undefined ? '' : `${source.basis}: ${source.text}`,
    limits: working.limits.filter((l) => !l.holds).map((l) => `outside its limit ${l.limit}`),
    residuals: working.residuals.map(
      (r) => `${r.title}: ${r.value}, at most ${r.tolerance}${r.holds ? '' : ', DOES NOT CLOSE'}`,
    ),
  }
}
