import { type Answer, inputsOf } from '../../working/answer.ts'
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
 * uses them. A mass is shown one level deep: its own working stands in the mass report.
 */
export function workingsUnder(answers: readonly Answer[], units: UnitSystem): SheetWorking[] {
  const seen = new Set<Answer>()
  const shown = new Set<string>()
  const workings: SheetWorking[] = []
  const go = (answer: Answer): void => {
    if (seen.has(answer)) return
    seen.add(answer)
    if (isWorthShowing(answer)) {
      const working = sheetWorking(workingOf(answer, units))
      const key = `${working.title} ${working.numbers ?? ''} ${working.inputs.join()} ${working.value}`
      if (!shown.has(key)) workings.push(working)
      shown.add(key)
    }
    if (!isMass(answer)) for (const [, input] of inputsOf(answer)) go(input)
  }
  for (const answer of answers) go(answer)
  return workings
}

/** Count × mass of one stands in the label of its line. */
const PLAIN = new Set(['lift.items.mass'])

const isWorthShowing = (answer: Answer): boolean =>
  answer.kind !== 'given' && answer.kind !== 'stated' && !(answer.kind === 'worked' && PLAIN.has(answer.formula))

/** A mass of the piece, as the mass stage rolled it up. */
function isMass(answer: Answer): boolean {
  if (answer.kind === 'worked') return answer.formula.startsWith('mass.')
  return answer.kind === 'sum' && answer.unit === 'kg' && !answer.terms.some((t) => isHookLine(t.answer))
}

const isHookLine = (answer: Answer): boolean => answer.kind === 'worked' && answer.formula.startsWith('lift.')

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
