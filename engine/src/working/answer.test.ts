import { expect, test } from 'vitest'
import {
  type Answer,
  brokenUnder,
  found,
  given,
  governing,
  inputsOf,
  knownOr,
  largestOf,
  leastOf,
  leavesOf,
  missingUnder,
  restsOn,
  stated,
  sumOf,
} from './answer.ts'
import { formula } from './formula.ts'

const double = formula({
  id: 'test.answer.double',
  title: 'Twice',
  source: { basis: 'derived', text: '2 x' },
  gives: ['y', 'kg'],
  from: { x: ['kg', 'a mass'] },
  as: '2 * x',
  valid: ['x > 0 * x'],
})

const a = given('kg', '/a', 1)
const b = given('kg', '/b', 5)
const unknown = given('kg', '/u', undefined)
const term = (label: string, answer: Answer<'kg'>) => ({ label, answer })

test('a sum, a largest and a least of named terms', () => {
  const terms = [term('a', a), term('b', b), term('2b', double.show({ x: b }))]
  expect(sumOf('sum', 'kg', terms).value).toBe(16)
  expect(largestOf('largest', 'kg', terms).value).toBe(10)
  expect(leastOf('least', 'kg', terms).value).toBe(1)
  expect(governing(largestOf('largest', 'kg', terms))?.label).toBe('2b')
})

test('an unknown term makes all of them unknown: it might have governed', () => {
  const terms = [term('a', a), term('u', unknown)]
  for (const of of [sumOf, largestOf, leastOf]) expect(of('x', 'kg', terms).value).toBeUndefined()
  expect(governing(largestOf('x', 'kg', terms))).toBeUndefined()
})

test('nothing at all sums to nothing, and has no largest', () => {
  expect(sumOf('sum', 'kg', []).value).toBe(0)
  expect(largestOf('largest', 'kg', []).value).toBeUndefined()
})

test('a hundred thousand terms have a largest', () => {
  const terms = Array.from({ length: 100_000 }, (_, i) => term(String(i), given('kg', `/${i}`, i)))
  expect(largestOf('largest', 'kg', terms).value).toBe(99_999)
})

test('a result of a method stands only when its residuals are within tolerance and its inputs known', () => {
  const result = (value: number, input: Answer<'kg'>) =>
    found({
      unit: 'N',
      value: 7,
      method: 'm',
      inputs: { input },
      residuals: [{ title: 'ΣF', value, unit: 'N', tolerance: 1 }],
    }).value
  expect(result(0.5, a)).toBe(7)
  expect(result(-1, a)).toBe(7)
  expect(result(1.5, a)).toBeUndefined()
  expect(result(Number.NaN, a)).toBeUndefined()
  expect(result(0, unknown)).toBeUndefined()
})

test('an answer rests on its inputs, each once, wherever they stand under it', () => {
  const twice = double.show({ x: b })
  const top = sumOf('sum', 'kg', [
    term('a', a),
    term('2b', twice),
    term('again', twice),
    term('c', stated('kg', 3, 'constant')),
  ])
  expect(restsOn(top)).toEqual(['/a', '/b'])
  expect(leavesOf(a)).toEqual([a])
  expect(inputsOf(a)).toEqual([])
})

test('what is missing and what is out of limits is found wherever it stands under an answer', () => {
  const top = largestOf('x', 'kg', [
    term('2u', double.show({ x: unknown })),
    term('0', double.show({ x: given('kg', '/z', -1) })),
  ])
  expect(missingUnder(top)).toEqual(['/u'])
  expect(brokenUnder(top).map(({ answer, limit }) => [answer.formula, limit])).toEqual([
    ['test.answer.double', 'x > 0 * x'],
  ])
})

test('an answer shared a great many times is walked once', () => {
  let top: Answer<'kg'> = a
  for (let i = 0; i < 60; i++) top = sumOf(`${i}`, 'kg', [term('l', top), term('r', top)])
  expect(restsOn(top)).toEqual(['/a'])
  expect(brokenUnder(top)).toEqual([])
})

test('what is not in the file is open at the place where it should stand', () => {
  expect(knownOr(undefined, 'kg', '/x')).toEqual({ kind: 'given', unit: 'kg', value: undefined, pointer: '/x' })
  expect(knownOr(a, 'kg', '/x')).toBe(a)
})

test('what keeps an answer unknown is looked for under unknown answers only', () => {
  const known: Answer<'kg'> = {
    kind: 'found',
    unit: 'kg',
    value: 1,
    method: 'known',
    residuals: [],
    get inputs(): Record<string, Answer> {
      throw new Error('looked at what is known')
    },
  }
  const sum = sumOf('sum', 'kg', [term('known', known), term('u', unknown)])
  expect(missingUnder(sum)).toEqual(['/u'])
  expect(brokenUnder(sum)).toEqual([])
})
