import { type Answer, type Basis, type Gathered, governing, inputsOf, type Term } from './answer.ts'
import { type Expression, symbolsOf } from './expression.ts'
import { type Formula, formulaById, type Source } from './formula.ts'
import { mathmlOf, mathmlSymbol, printExpression, symbolText } from './print.ts'
import { evaluator } from './program.ts'
import { showQuantity, type UnitSystem } from './quantity.ts'
import { type Sensitivity, sensitivityOf } from './sensitivity.ts'
import type { SiUnit } from './unit.ts'

/** One value of a working, for a reader: what it is, and where it comes from. */
export interface Line {
  /** Name of the input under the answer: what the chain is walked by. */
  key: string
  symbol: string
  meaning: string
  /** For the eye, in the unit system asked for. */
  value: string
  unit: SiUnit
  si: number | undefined
  /** An input of the file, a constant, or something worked out that can be opened in turn. */
  kind: Answer['kind']
  /** Where it stands in the project file, if it is an input. */
  pointer?: string
  basis?: Basis
}

/** A named value on the way, with its own expression. */
export interface ShownStep {
  symbol: string
  meaning: string
  symbolic: string
  numbers: string
  value: string
  /** Symbol, expression and expression with numbers as MathML. */
  mathml: { symbol: string; symbolic: string; numbers: string }
}

/** The working of one answer, one level deep; `under` leads on to the answers below. */
export interface Working {
  title: string
  value: string
  si: number | undefined
  unit: SiUnit
  /** Formula or method id. */
  by: string
  source?: Source
  /** The expression with symbols, with numbers (SI), and the result. */
  symbolic?: string
  numbers?: string
  mathml?: string
  /** The symbol of the result, and the expression with numbers (SI), as MathML. */
  symbolMathml?: string
  numbersMathml?: string
  /** Named values on the way, each with its own expression. */
  steps: readonly ShownStep[]
  lines: readonly Line[]
  limits: readonly { limit: string; holds: boolean }[]
  residuals: readonly { title: string; value: string; tolerance: string; holds: boolean }[]
  /** One more unit of each input changes the result by this much, SI per SI. */
  slopes: Readonly<Record<string, number>>
  /** The same in units a reader counts in, what moves the result most first. */
  sensitivity: readonly Sensitivity[]
  note?: string
}

/** The working of an answer. */
export function workingOf(answer: Answer, system: UnitSystem = 'SI'): Working {
  switch (answer.kind) {
    case 'given':
      return plain(answer, answer.pointer, system, answer.value === undefined ? 'not given' : (answer.basis ?? 'input'))
    case 'stated':
      return plain(answer, answer.text, system, 'constant')
    case 'worked':
      return workedWorking(answer, formulaById(answer.formula), system)
    case 'sum':
    case 'largest':
    case 'least':
      return gatheredWorking(answer, system)
    case 'found':
      return foundWorking(answer, system)
    default:
      return answer satisfies never
  }
}

const blank = { steps: [], lines: [], limits: [], residuals: [], slopes: {}, sensitivity: [] } as const

function plain(answer: Answer, title: string, system: UnitSystem, by: string): Working {
  return {
    ...blank,
    title,
    value: showQuantity(answer.value, answer.unit, system),
    si: answer.value,
    unit: answer.unit,
    by,
  }
}

function lineOf(symbol: string, meaning: string, input: Answer, system: UnitSystem): Line {
  const line: Line = {
    key: symbol,
    symbol: symbolText(symbol),
    meaning,
    value: showQuantity(input.value, input.unit, system),
    unit: input.unit,
    si: input.value,
    kind: input.kind,
  }
  if (input.kind !== 'given') return line
  return { ...line, pointer: input.pointer, ...(input.basis === undefined ? {} : { basis: input.basis }) }
}

function workedWorking(answer: Extract<Answer, { kind: 'worked' }>, f: Formula, system: UnitSystem): Working {
  const [symbol] = f.text.gives
  const numbers = numbersOf(answer)
  const lines = Object.entries(f.text.from).map(([s, [, meaning]]) =>
    lineOf(s, meaning, answer.inputs[s] as Answer, system),
  )
  const base = {
    ...blank,
    title: f.text.title,
    value: showQuantity(answer.value, answer.unit, system),
    si: answer.value,
    unit: answer.unit,
    by: f.text.id,
    source: f.text.source,
    symbolic: `${symbolText(symbol)} = ${printExpression(f.tree)}`,
    mathml: mathmlOf(f.tree),
    symbolMathml: mathmlSymbol(symbol),
    lines,
    limits: (f.text.valid ?? []).map((limit) => ({
      limit: limitText(limit),
      holds: !(answer.broken ?? []).includes(limit),
    })),
  }
  if (numbers === undefined) return base
  const all = f.between(numbers)
  const slopes = answer.value === undefined ? {} : f.slopes(numbers)
  return {
    ...base,
    steps: f.steps.map((s) => ({
      symbol: symbolText(s.symbol),
      meaning: s.meaning,
      symbolic: printExpression(s.tree),
      numbers: numbersLine(s.tree, all),
      value: showQuantity(all[s.symbol], s.unit, system),
      mathml: {
        symbol: mathmlSymbol(s.symbol),
        symbolic: mathmlOf(s.tree),
        numbers: numbersMathml(s.tree, all),
      },
    })),
    numbers: `${symbolText(symbol)} = ${numbersLine(f.tree, all)}`,
    numbersMathml: numbersMathml(f.tree, all),
    slopes,
    sensitivity: sensitivityOf(answer, lines, slopes, system),
  }
}

/** Comparison signs as a reader knows them; the text itself stays what ran. */
const limitText = (limit: string): string => limit.replace(/<=/g, '≤').replace(/>=/g, '≥')

function numbersOf(answer: Extract<Answer, { kind: 'worked' }>): Record<string, number> | undefined {
  const entries = Object.entries(answer.inputs).map(([symbol, input]) => [symbol, input.value] as const)
  return entries.some(([, value]) => value === undefined)
    ? undefined
    : (Object.fromEntries(entries) as Record<string, number>)
}

const FEWEST_DIGITS = 4
const MOST_DIGITS = 17

/** The expression with numbers and its result: enough digits that the line, read back, gives the value shown. */
export function numbersLine(tree: Expression, values: Readonly<Record<string, number>>): string {
  const { rounded, shown } = legible(tree, values)
  return `${printExpression(tree, (s) => numberText(rounded[s] as number))} = ${numberText(Number(shown))}`
}

/** The same as MathML, without the outer `math` element. */
function numbersMathml(tree: Expression, values: Readonly<Record<string, number>>): string {
  const { rounded, shown } = legible(tree, values)
  return `${mathmlOf(tree, (s) => numberText(rounded[s] as number))}<mo>=</mo><mn>${numberText(Number(shown))}</mn>`
}

/** Inputs rounded to as few digits as still give the result shown. */
function legible(tree: Expression, values: Readonly<Record<string, number>>) {
  const evaluate = evaluator(tree)
  const shown = evaluate(values).toPrecision(FEWEST_DIGITS)
  const symbols = [...symbolsOf(tree)]
  for (let digits = FEWEST_DIGITS; ; digits++) {
    const rounded = Object.fromEntries(symbols.map((s) => [s, Number((values[s] as number).toPrecision(digits))]))
    if (evaluate(rounded).toPrecision(FEWEST_DIGITS) === shown || digits === MOST_DIGITS) return { rounded, shown }
  }
}

/** SI number in a numbers line: plain where it can be read, powers of ten beyond, brackets round a minus. */
export function numberText(value: number): string {
  const magnitude = Math.abs(value)
  const text =
    magnitude !== 0 && (magnitude >= 1e6 || magnitude < 1e-3) ? value.toExponential().replace('e+', 'e') : String(value)
  return value < 0 ? `(${text.replace(/-/g, '−')})` : text
}

function gatheredWorking(answer: Extract<Answer, { kind: 'sum' | 'largest' | 'least' }>, system: UnitSystem): Working {
  const governs = answer.kind === 'sum' ? undefined : governing(answer as Gathered)
  return {
    ...blank,
    title: answer.title,
    value: showQuantity(answer.value, answer.unit, system),
    si: answer.value,
    unit: answer.unit,
    by: answer.kind,
    lines: answer.terms.map((t: Term) => lineOf(t.label, t.label, t.answer, system)),
    ...(governs === undefined ? {} : { note: `${governs.label} governs` }),
  }
}

function foundWorking(answer: Extract<Answer, { kind: 'found' }>, system: UnitSystem): Working {
  return {
    ...blank,
    title: answer.method,
    value: showQuantity(answer.value, answer.unit, system),
    si: answer.value,
    unit: answer.unit,
    by: 'method',
    lines: inputsOf(answer).map(([label, input]) => lineOf(label, label, input, system)),
    residuals: answer.residuals.map((r) => ({
      title: r.title,
      value: numberText(Number(r.value.toPrecision(3))),
      tolerance: numberText(Number(r.tolerance.toPrecision(3))),
      holds: Math.abs(r.value) <= r.tolerance,
    })),
    ...(answer.note === undefined ? {} : { note: answer.note }),
  }
}
