import { CONSTANTS, type Expression, FUNCTIONS, type Operator, operated, square, symbolsOf } from './expression.ts'

/**
 * Trees made ready to be worked many times: one row of numbers, the inputs first, and instructions that each write one more. A part
 * that stands in several trees, or twice in one, is worked once. Allowed under a strict content security policy.
 */
export interface Program {
  /** Inputs in their order, then everything that is worked from them; one row for all runs: read before the next. */
  readonly row: Float64Array
  /** Where in the row the number of each tree stands. */
  readonly places: readonly number[]
  /** Works the trees up to this one from what stands in the row for the inputs. */
  run(upTo: number): void
}

/** A tree, and the symbol by which later trees know it. */
export interface Named {
  symbol?: string
  tree: Expression
}

/** The number of an expression, from its symbols' values by name. */
export type Evaluate = (values: Readonly<Record<string, number>>) => number

/** One tree made ready by itself. */
export function evaluator(tree: Expression): Evaluate {
  const symbols = [...symbolsOf(tree)]
  const { row, places, run } = programOf(symbols, [{ tree }])
  return (values) => {
    for (const [i, symbol] of symbols.entries()) row[i] = values[symbol] as number
    run(0)
    return row[places[0] as number] as number
  }
}

/** Each step: what is done, with the numbers at three places, and the place that it is written to. */
const WIDTH = 5

const OPERATORS: readonly Operator[] = ['+', '-', '*', '/', '^', '<', '<=', '>', '>=', '==', 'and', 'or']
/** What is no operator of the text comes after them; `runOver` knows all of these by number. */
const [MIN, MAX, ATAN2, IF, SQUARE, NEGATE, SQRT, LN, ATAN, FIRST_FUNCTION] = [12, 13, 14, 15, 16, 17, 18, 19, 20, 21]
const FUNCTION_NAMES = Object.keys(FUNCTIONS)
const VALUES = FUNCTION_NAMES.map((name) => FUNCTIONS[name]?.value as (x: number) => number)
/** Functions with a number of their own. */
const COMMON: Readonly<Record<string, number>> = { sqrt: SQRT, ln: LN, atan: ATAN }

/**
 * @param inputs symbols of the first numbers of the row
 * @param trees in the order in which they are worked; each may use inputs and named ones before it
 * @throws an error with the name of a function that is not known, or that takes another number of arguments
 */
export function programOf(inputs: readonly string[], trees: readonly Named[]): Program {
  const writing = writingOf(inputs)
  const places: number[] = []
  const ends: number[] = []
  for (const { symbol, tree } of trees) {
    const place = writing.placeOf(tree)
    places.push(place)
    ends.push(writing.code.length)
    if (symbol !== undefined) writing.name(symbol, place)
  }
  const code = Int32Array.from(writing.code)
  const row = Float64Array.from(writing.row)
  return { row, places, run: (upTo) => runOver(code, ends[upTo] as number, row) }
}

/** All in one loop: a number that is handed to a function of its own is put into an object first, which costs more than its use. */
function runOver(code: Int32Array, end: number, row: Float64Array): void {
  for (let i = 0; i < end; i += WIDTH) {
    const a = row[code[i + 1] as number] as number
    const b = row[code[i + 2] as number] as number
    const to = code[i + 4] as number
    const what = code[i] as number
    switch (what) {
      case 0:
        row[to] = a + b
        break
      case 1:
        row[to] = a - b
        break
      case 2:
        row[to] = a * b
        break
      case 3:
        row[to] = a / b
        break
      case 12:
        row[to] = Math.min(a, b)
        break
      case 13:
        row[to] = Math.max(a, b)
        break
      case 14:
        row[to] = Math.atan2(a, b)
        break
      case 15:
        row[to] = a !== 0 ? b : (row[code[i + 3] as number] as number)
        break
      case 16:
        row[to] = square(a)
        break
      case 17:
        row[to] = -a
        break
      case 18:
        row[to] = Math.sqrt(a)
        break
      case 19:
        row[to] = Math.log(a)
        break
      case 20:
        row[to] = Math.atan(a)
        break
      default:
        row[to] =
          what < OPERATORS.length
            ? operated(OPERATORS[what] as Operator, a, b)
            : (VALUES[what - FIRST_FUNCTION] as (x: number) => number)(a)
    }
  }
}

/** What a program is written into. */
interface Writing {
  row: number[]
  code: number[]
  name(symbol: string, place: number): void
  placeOf(tree: Expression): number
}

function writingOf(inputs: readonly string[]): Writing {
  const row: number[] = inputs.map(() => Number.NaN)
  const code: number[] = []
  const named = new Map(inputs.map((symbol, i) => [symbol, i]))
  const constants = new Map<number, number>()
  const written = new Map<string, number>()
  const constant = (value: number): number => {
    if (!constants.has(value)) constants.set(value, row.push(value) - 1)
    return constants.get(value) as number
  }
  const step = (what: number, a: number, b = a, c = a): number => {
    const key = `${what} ${a} ${b} ${c}`
    if (!written.has(key)) {
      const place = row.push(Number.NaN) - 1
      code.push(what, a, b, c, place)
      written.set(key, place)
    }
    return written.get(key) as number
  }
  const placeOf = (tree: Expression): number => {
    const value = constantOf(tree)
    if (value !== undefined) return constant(value)
    switch (tree.kind) {
      case 'number':
        return constant(tree.value)
      case 'symbol':
        return named.get(tree.name) ?? constant(Number.NaN)
      case 'negate':
        return step(NEGATE, placeOf(tree.of))
      case 'binary':
        return tree.operator === '^' && constantOf(tree.right) === 2
          ? step(SQUARE, placeOf(tree.left))
          : step(OPERATORS.indexOf(tree.operator), placeOf(tree.left), placeOf(tree.right))
      case 'call':
        return called(tree.name, tree.of.map(placeOf), step)
      default:
        return tree satisfies never
    }
  }
  return { row, code, name: (symbol, place) => named.set(symbol, place), placeOf }
}

/** The value of a part that no symbol enters; undefined where one does, and of calls, which are worked as they come. */
function constantOf(tree: Expression): number | undefined {
  if (tree.kind === 'number') return tree.value
  if (tree.kind === 'symbol') return CONSTANTS[tree.name]
  if (tree.kind !== 'binary') return undefined
  const [a, b] = [constantOf(tree.left), constantOf(tree.right)]
  return a === undefined || b === undefined ? undefined : operated(tree.operator, a, b)
}

function called(
  name: string,
  of: readonly number[],
  step: (what: number, a: number, b?: number, c?: number) => number,
): number {
  const [a, b, c] = of as [number, number, number]
  if (name === 'min') return of.reduce((least, next) => step(MIN, least, next))
  if (name === 'max') return of.reduce((most, next) => step(MAX, most, next))
  if (name === 'atan2' && of.length === 2) return step(ATAN2, a, b)
  if (name === 'if' && of.length === 3) return step(IF, a, b, c)
  const known = FUNCTION_NAMES.indexOf(name)
  if (known < 0 || of.length !== 1) throw new Error(`function "${name}" with ${of.length} arguments is not known`)
  return step(COMMON[name] ?? FIRST_FUNCTION + known, a)
}
