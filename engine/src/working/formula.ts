import type { Answer, Worked } from './answer.ts'
import { dimensionOfExpression } from './dimension.ts'
import { type Dual, dual, type Expression, readExpression, symbolsOf } from './expression.ts'
import { programOf } from './program.ts'
import { dimensionOf, type SiUnit, sameDimension } from './unit.ts'

/** How the text of a formula or a case is known. */
export type SourceBasis = 'read' | 'memory' | 'derived' | 'common practice'

export interface Source {
  basis: SourceBasis
  /** Standard, edition and clause; or the derivation in a line. */
  text: string
}

type Inputs = Readonly<Record<string, readonly [unit: SiUnit, meaning: string]>>
type Step = readonly [unit: SiUnit, as: string, meaning: string]

export interface FormulaText<I extends Inputs, U extends SiUnit> {
  id: string
  title: string
  source: Source
  gives: readonly [symbol: string, unit: U]
  from: I
  /** Named values on the way, in order; each may use inputs and earlier ones. */
  where?: Readonly<Record<string, Step>>
  as: string
  /** Limits within which the formula holds; outside, the answer is unknown. */
  valid?: readonly string[]
}

export interface Formula<I extends Inputs = Inputs, U extends SiUnit = SiUnit> {
  readonly text: FormulaText<I, U>
  readonly tree: Expression
  readonly steps: readonly { symbol: string; unit: SiUnit; meaning: string; tree: Expression }[]
  /** Number from numbers, SI. For loops; limits are not looked at. */
  value(inputs: Readonly<{ [K in keyof I]: number }>): number
  /** Answer with its working; unknown when an input is, or a limit is broken. */
  show(inputs: Readonly<{ [K in keyof I]: Answer<I[K][0]> }>): Worked<U>
  /** ∂result/∂input for every input, at these values. */
  slopes(inputs: Readonly<{ [K in keyof I]: number }>): { [K in keyof I]: number }
  /** Limits that these values break, as text. */
  broken(inputs: Readonly<Record<string, number>>): string[]
  /** Values of the named steps at these inputs. */
  between(inputs: Readonly<Record<string, number>>): Record<string, number>
}

const known = new Map<string, Formula>()

/** Every formula read so far, by id: the module graph loads them all before anything is shown. */
export const formulaById = (id: string): Formula => {
  const found = known.get(id)
  if (found === undefined) throw new Error(`formula "${id}" is not known`)
  return found
}

export const allFormulas = (): Formula[] => [...known.values()]

/**
 * A formula as data. Throws on import, naming the formula, when its text cannot be read, a symbol is not declared or not
 * used, the dimensions do not agree, or the id is taken.
 */
export function formula<const I extends Inputs, const U extends SiUnit>(text: FormulaText<I, U>): Formula<I, U> {
  try {
    const built = build(text)
    if (known.has(text.id)) throw new Error('this id is taken')
    known.set(text.id, built as unknown as Formula)
    return built
  } catch (error) {
    throw new Error(`formula ${text.id}: ${(error as Error).message}`)
  }
}

function build<I extends Inputs, U extends SiUnit>(text: FormulaText<I, U>): Formula<I, U> {
  const tree = readExpression(text.as)
  const steps = Object.entries(text.where ?? {}).map(([symbol, [unit, as, meaning]]) => ({
    symbol,
    unit,
    meaning,
    tree: readExpression(as),
  }))
  const limits = (text.valid ?? []).map((limit) => ({ limit, tree: readExpression(limit) }))
  checkSymbols(text, [tree, ...steps.map((s) => s.tree), ...limits.map((l) => l.tree)])
  checkDimensions(
    text,
    tree,
    steps,
    limits.map((l) => l.tree),
  )

  const row = rowOf(text, tree, steps, limits)
  const given = (inputs: object): Record<string, number> => inputs as Record<string, number>
  return {
    text,
    tree,
    steps,
    value: (inputs) => row.of(given(inputs)).value(),
    broken: (inputs) => row.of(inputs).broken(),
    between: (inputs) => ({ ...inputs, ...row.of(inputs).steps() }),
    show: (inputs) => answerOf(text, row, inputs as unknown as Record<string, Answer>),
    slopes: (inputs) => slopesOf(tree, steps, given(inputs)) as { [K in keyof I]: number },
  }
}

/** A formula made ready: its inputs are put in, then one of the rest is asked for. */
interface Row {
  inputs: readonly string[]
  /** Puts an input in, by its place. */
  put(place: number, value: number): void
  /** Puts all of them in. */
  of(known: Readonly<Record<string, number>>): Row
  value(): number
  /** The value once more, after any of the others. */
  last(): number
  broken(): string[]
  steps(): Record<string, number>
}

function rowOf(
  text: FormulaText<Inputs, SiUnit>,
  tree: Expression,
  steps: Formula['steps'],
  limits: readonly { limit: string; tree: Expression }[],
): Row {
  const inputs = Object.keys(text.from)
  const { row, places, run } = programOf(inputs, [...steps, { tree }, ...limits])
  const at = (i: number): number => row[places[i] as number] as number
  const result = steps.length
  const made: Row = {
    inputs,
    put: (place, value) => {
      row[place] = value
    },
    of: (known) => {
      for (let i = 0; i < inputs.length; i++) row[i] = known[inputs[i] as string] as number
      return made
    },
    value: () => {
      run(result)
      return at(result)
    },
    last: () => at(result),
    broken: () => {
      run(result + limits.length)
      return limits.filter((_, i) => at(result + 1 + i) === 0).map(({ limit }) => limit)
    },
    steps: () => {
      run(result)
      return Object.fromEntries(steps.map(({ symbol }, i) => [symbol, at(i)]))
    },
  }
  return made
}

function answerOf<U extends SiUnit>(
  text: FormulaText<Inputs, U>,
  row: Row,
  inputs: Readonly<Record<string, Answer>>,
): Worked<U> {
  const answer: Worked<U> = { kind: 'worked', unit: text.gives[1], value: undefined, formula: text.id, inputs }
  for (let i = 0; i < row.inputs.length; i++) {
    const known = inputs[row.inputs[i] as string]?.value
    if (known === undefined) return answer
    row.put(i, known)
  }
  const limits = row.broken()
  if (limits.length > 0) return { ...answer, broken: limits }
  const result = row.last()
  if (!Number.isFinite(result)) return { ...answer, broken: ['a finite result'] }
  answer.value = result
  return answer
}

function slopesOf(tree: Expression, steps: Formula['steps'], inputs: Record<string, number>): Record<string, number> {
  const symbols = Object.keys(inputs)
  const duals: Record<string, Dual> = {}
  for (const [i, symbol] of symbols.entries()) {
    duals[symbol] = { value: inputs[symbol] as number, slopes: symbols.map((_, j) => Number(i === j)) }
  }
  for (const step of steps) duals[step.symbol] = dual(step.tree, duals, symbols.length)
  const { slopes } = dual(tree, duals, symbols.length)
  return Object.fromEntries(symbols.map((symbol, i) => [symbol, slopes[i] as number]))
}

function checkSymbols(text: FormulaText<Inputs, SiUnit>, trees: Expression[]): void {
  const used = new Set(trees.flatMap((t) => [...symbolsOf(t)]))
  const declared = new Set([...Object.keys(text.from), ...Object.keys(text.where ?? {})])
  for (const symbol of used) if (!declared.has(symbol)) throw new Error(`symbol "${symbol}" is not declared`)
  for (const symbol of declared) if (!used.has(symbol)) throw new Error(`symbol "${symbol}" is declared and never used`)
}

function checkDimensions(
  text: FormulaText<Inputs, SiUnit>,
  tree: Expression,
  steps: Formula['steps'],
  limits: Expression[],
): void {
  const units = new Map<string, SiUnit>(Object.entries(text.from).map(([symbol, [unit]]) => [symbol, unit]))
  const of = (symbol: string) => {
    const unit = units.get(symbol)
    if (unit === undefined) throw new Error(`"${symbol}" is used before it is worked out`)
    return dimensionOf(unit)
  }
  const require = (t: Expression, unit: SiUnit, what: string): void => {
    if (!sameDimension(dimensionOfExpression(t, of), dimensionOf(unit)))
      throw new Error(`${what} does not come out in ${unit}`)
  }
  for (const step of steps) {
    require(step.tree, step.unit, `"${step.symbol}"`)
    units.set(step.symbol, step.unit)
  }
  require(tree, text.gives[1], `"${text.gives[0]}"`)
  for (const limit of limits) dimensionOfExpression(limit, of)
}
