import '../engine/src/index.ts'
import { type Answer, given } from '../engine/src/working/answer.ts'
import { allFormulas, type Formula } from '../engine/src/working/formula.ts'
import { dimensionOf, type SiUnit, sameDimension } from '../engine/src/working/unit.ts'
import { compared } from './compare.ts'
import type { Case, Comparison, Inputs, Outcome, Value, VerifiedFunction } from './types.ts'
import { isRecord, readWritten, siValue } from './value.ts'

type Ran = { got: Readonly<Record<string, Value>> } | { reason: string }

/**
 * Runs one case.
 *
 * @param stage the stage whose file it stands in
 * @param functions what a case may call beside the formulas
 * @returns the outcome; an error thrown by what was called is a failed case with its message
 */
export function runCase(one: Case, stage: string, functions: ReadonlyMap<string, VerifiedFunction>): Outcome {
  const ran = resultOf(one, functions)
  const got = 'got' in ran ? ran.got : {}
  const comparisons = 'got' in ran ? comparisonsOf(one, got) : []
  const { title, edition, place } = one.source
  return {
    id: one.id,
    stage,
    ...(one.title === undefined ? {} : { title: one.title }),
    source: [title, edition, place].filter((text) => text !== undefined).join(', '),
    basis: one.basis,
    function: one.function,
    inputs: one.inputs,
    expected: expectedOf(one),
    got: namedIn(one, got),
    comparisons,
    verdict: comparisons.length > 0 && comparisons.every((c) => c.holds) ? 'pass' : 'fail',
    ...('reason' in ran ? { reason: ran.reason } : {}),
    ...(one.note === undefined ? {} : { note: one.note }),
  }
}

function resultOf(one: Case, functions: ReadonlyMap<string, VerifiedFunction>): Ran {
  const formula = allFormulas().find((f) => f.text.id === one.function)
  const called = functions.get(one.function)
  if (formula === undefined && called === undefined) return { reason: `no formula or function "${one.function}"` }
  try {
    if (formula !== undefined) return formulaResult(formula, one)
    return { got: (called as VerifiedFunction)(siValue(one.inputs) as Inputs) }
  } catch (error) {
    return { reason: (error as Error).message }
  }
}

function formulaResult(formula: Formula, one: Case): Ran {
  const { from, gives } = formula.text
  const faults = [
    ...Object.keys(from)
      .filter((symbol) => !(symbol in one.inputs))
      .map((symbol) => `input "${symbol}" is missing`),
    ...Object.entries(one.inputs).flatMap(([symbol, value]) => inputFault(symbol, value, from[symbol]?.[0])),
    ...Object.entries(one.expected ?? {}).flatMap(([symbol, value]) => expectedFault(formula, symbol, value)),
  ]
  if (faults.length > 0) return { reason: faults.join('; ') }
  const answers = Object.entries(from).map(
    ([symbol, [unit]]) => [symbol, inputAnswer(unit, one.inputs[symbol])] as const,
  )
  const answer = formula.show(Object.fromEntries(answers) as Record<string, Answer>)
  const numbers = Object.fromEntries(answers.map(([symbol, a]) => [symbol, a.value as number]))
  const between = answer.value === undefined ? {} : formula.between(numbers)
  return { got: { ...between, [gives[0]]: answer.value } }
}

const inputAnswer = (unit: SiUnit, value: unknown): Answer => given(unit, '', readWritten(value)?.si)

function inputFault(symbol: string, value: unknown, unit: SiUnit | undefined): string[] {
  if (unit === undefined) return [`the formula has no input "${symbol}"`]
  return readWritten(value) === undefined
    ? [`input "${symbol}" is not a number with a known unit`]
    : unitFault(symbol, value, unit)
}

function expectedFault(formula: Formula, symbol: string, value: unknown): string[] {
  const [given, unit] = formula.text.gives
  const step = formula.steps.find((s) => s.symbol === symbol)
  if (symbol !== given && step === undefined) return [`the formula gives no "${symbol}"`]
  return value === null ? [] : unitFault(symbol, value, step?.unit ?? unit)
}

function unitFault(symbol: string, value: unknown, unit: SiUnit): string[] {
  const written = readWritten(value)
  const bare = written?.dimension === undefined
  const fits = bare ? unit === '1' || unit === 'rad' : sameDimension(written.dimension as never, dimensionOf(unit))
  return fits ? [] : [`"${symbol}" is ${String(value)} where ${unit} is due`]
}

const expectedOf = (one: Case): Readonly<Record<string, unknown>> =>
  one.notExpected === undefined ? (one.expected ?? {}) : { ...one.expected, not: one.notExpected }

function comparisonsOf(one: Case, got: Readonly<Record<string, Value>>): Comparison[] {
  const { of = {}, ...every } = one.tolerance ?? {}
  const toleranceOf = (name: string) => of[name] ?? every
  const due = Object.entries(one.expected ?? {}).flatMap(([name, value]) =>
    compared(name, value, got[name], toleranceOf(name)),
  )
  const errors = Object.entries(one.notExpected ?? {}).flatMap(([name, value]) =>
    compared(name, value, got[name], toleranceOf(name)).map((c) => avoided(c, got[name])),
  )
  return [...due, ...errors]
}

/** A printed error is avoided when a value came and it differs. */
const avoided = (c: Comparison, got: Value): Comparison => ({
  ...c,
  expected: `not ${c.expected}`,
  holds: !c.holds && got !== undefined,
})

/** The results in the unit that the case wrote them in, for a reader of the JSON. */
function namedIn(one: Case, got: Readonly<Record<string, Value>>): Readonly<Record<string, Value>> {
  const named = { ...one.expected, ...one.notExpected }
  return Object.fromEntries(Object.keys(named).map((name) => [name, likeWritten(named[name], got[name])]))
}

function likeWritten(expected: unknown, got: Value): Value {
  if (Array.isArray(expected) && Array.isArray(got)) return got.map((item, i) => likeWritten(expected[i], item))
  if (isRecord(expected) && isRecord(got)) {
    const inside = got as Readonly<Record<string, Value>>
    return Object.fromEntries(Object.keys(expected).map((name) => [name, likeWritten(expected[name], inside[name])]))
  }
  const label = readWritten(expected)
  if (label === undefined || label.label === '' || typeof got !== 'number') return got ?? null
  return `${Number((got / label.factor).toPrecision(10))} ${label.label}`
}
