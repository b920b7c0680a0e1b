import { type Answer, type Broken, brokenUnder } from './answer.ts'
import { type Expression, readExpression, symbolsOf } from './expression.ts'
import { type Formula, formulaById } from './formula.ts'
import { printExpression, symbolText } from './print.ts'
import { evaluator } from './program.ts'
import { shownScale, showQuantity } from './quantity.ts'
import type { SiUnit } from './unit.ts'

/** Every validity limit that is broken under an answer, each once, in words that need no formula to be read. */
export const brokenWords = (answer: Answer): string[] => [...new Set(brokenUnder(answer).map(limitWords))]

/**
 * A broken limit in words: what is worked, which of its values lies outside, how much it is and how much it may be, in the units
 * of a reader.
 */
export function limitWords({ answer, limit }: Broken): string {
  const formula = formulaById(answer.formula)
  const title = formula.text.title
  const values = valuesOf(formula, answer.inputs)
  if (!(formula.text.valid ?? []).includes(limit))
    return `${title}: these inputs give no number (${namedIn(formula, formula.tree, values)})`
  const tree = readExpression(limit)
  return `${title}: ${sidesWords(formula, tree, values) ?? `it holds only while ${printExpression(tree)} (${namedIn(formula, tree, values)})`}`
}

type Values = Readonly<Record<string, number>>

function valuesOf(formula: Formula, inputs: Readonly<Record<string, Answer>>): Values {
  return formula.between(Object.fromEntries(Object.entries(inputs).map(([symbol, a]) => [symbol, a.value as number])))
}

/** Which way a comparison wants its left side, and which way its right side. */
const WANTED: Readonly<Record<string, readonly [left: string, right: string]>> = {
  '<': ['less than', 'more than'],
  '<=': ['no more than', 'no less than'],
  '>': ['more than', 'less than'],
  '>=': ['no less than', 'no more than'],
  '==': ['exactly', 'exactly'],
}

/** Of a comparison with one symbol on a side: its meaning, its value, and what it is held against; undefined for any other. */
function sidesWords(formula: Formula, tree: Expression, values: Values): string | undefined {
  if (tree.kind !== 'binary') return undefined
  const wanted = WANTED[tree.operator]
  if (wanted === undefined) return undefined
  const { left, right } = tree
  if (left.kind === 'symbol') return sideWords(formula, left.name, wanted[0], right, values)
  return right.kind === 'symbol' ? sideWords(formula, right.name, wanted[1], left, values) : undefined
}

function sideWords(formula: Formula, symbol: string, wanted: string, other: Expression, values: Values): string {
  const { unit, meaning } = symbolOf(formula, symbol)
  const [is, due] = [values[symbol] as number, evaluator(other)(values)]
  // two that read alike are told in the unit and digits of the very value
  const shown = [is, due].map((value) => showQuantity(value, unit, 'SI', due === 0 ? is : due)) as [string, string]
  const [isText, dueText] = shown[0] === shown[1] && is !== due ? [exact(is, unit), exact(due, unit)] : shown
  const against = other.kind === 'symbol' ? `${symbolOf(formula, other.name).meaning}, ` : ''
  return `${meaning} is ${isText}, where it holds only for ${wanted} ${against}${dueText}`
}

/** In the unit of a reader with as many digits as are asked for, such as tell a limit from what lies just beyond it. */
export function exact(value: number, unit: SiUnit, digits = 9): string {
  const { label, factor, zero = 0 } = shownScale(value, unit, 'SI')
  return `${Number((value / factor - zero).toPrecision(digits))}${label === '' ? '' : `\u00a0${label}`}`
}

function symbolOf(formula: Formula, symbol: string): { unit: SiUnit; meaning: string } {
  const step = formula.text.where?.[symbol]
  if (step !== undefined) return { unit: step[0], meaning: step[2] }
  const [unit, meaning] = formula.text.from[symbol] as readonly [SiUnit, string]
  return { unit, meaning }
}

/** The symbols of an expression with their meanings and values. */
const namedIn = (formula: Formula, tree: Expression, values: Values): string =>
  [...symbolsOf(tree)]
    .map((symbol) => {
      const { unit, meaning } = symbolOf(formula, symbol)
      return `${symbolText(symbol)}, ${meaning}: ${showQuantity(values[symbol], unit)}`
    })
    .join('; ')
