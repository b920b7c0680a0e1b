import { expect, test } from 'vitest'
import { formula } from '../engine/src/working/formula.ts'
import { numberOf, textOf } from './inputs.ts'
import type { VerifiedFunction } from './types.ts'
import { verification } from './verify.ts'

formula({
  id: 'verification.test.weight',
  title: 'Weight of a mass',
  source: { basis: 'derived', text: 'F = m g' },
  gives: ['W', 'N'],
  from: { m: ['kg', 'mass'], g: ['m/s2', 'gravity'] },
  as: 'm * g',
  valid: ['m > 0'],
})

const known = new Map<string, VerifiedFunction>([
  ['double', (inputs) => ({ twice: 2 * numberOf(inputs, 'once'), word: 'twice', open: undefined })],
  ['mode', (inputs) => ({ mode: textOf(inputs, 'mode'), list: [1, 2, { x: 3 }] })],
])

/** One case in a file of its own; `more` holds the lines from `function` on. */
function outcome(...more: string[]) {
  const head = ['- id: one', '  source: {title: t, place: p}', '  basis: derived']
  const text = ['cases:', ...[...head, ...more.map((line) => `  ${line}`)].map((line) => `  ${line}`)].join('\n')
  const { cases } = verification([{ name: 'mass-test.yaml', text }], known)
  expect(cases).toHaveLength(1)
  return cases[0] as (typeof cases)[number]
}

test('a value with another unit of the same dimension agrees', () => {
  const one = outcome('function: double', 'inputs: {once: 412 t}', 'expected: {twice: 824000 kg}')
  expect(one).toMatchObject({ verdict: 'pass', stage: 'mass', id: 'mass-test/one', got: { twice: '824000 kg' } })
})

test.each([
  ['tolerance: {absolute: 0.6 t}', 'pass'],
  ['tolerance: {absolute: 0.4 t}', 'fail'],
  ['tolerance: {relative: 0.1 %}', 'pass'],
  ['tolerance: {relative: 1e-4, absolute: 0.6 t}', 'pass'],
  ['tolerance: {relative: 1, of: {twice: {relative: 1e-4}}}', 'fail'],
  ['note: no tolerance', 'fail'],
])('half a tonne off in 824 with %s: %s', (tolerance, verdict) => {
  const one = outcome('function: double', 'inputs: {once: 412 t}', 'expected: {twice: 824.5 t}', tolerance)
  expect(one.verdict).toBe(verdict)
})

test('a formula is called by its id, with its units held to its dimensions', () => {
  const by = 'function: verification.test.weight'
  expect(outcome(by, 'inputs: {m: 2 t, g: 10 m/s2}', 'expected: {W: 20 kN}').verdict).toBe('pass')
  const wrong = outcome(by, 'inputs: {m: 2 kN, g: 10 m/s2}', 'expected: {W: 20 t}')
  expect(wrong).toMatchObject({ verdict: 'fail', reason: '"m" is 2 kN where kg is due; "W" is 20 t where N is due' })
})

test('outside its limits a formula gives no value, and a case may expect just that', () => {
  const by = 'function: verification.test.weight'
  expect(outcome(by, 'inputs: {m: 0 t, g: 10 m/s2}', 'expected: {W: null}').verdict).toBe('pass')
  expect(outcome(by, 'inputs: {m: 0 t, g: 10 m/s2}', 'expected: {W: 0 N}').verdict).toBe('fail')
})

test('what a source prints in error must not come out, and nothing at all is not an answer either', () => {
  const inputs = 'inputs: {once: 2}'
  expect(outcome('function: double', inputs, 'notExpected: {twice: 5}').verdict).toBe('pass')
  expect(outcome('function: double', inputs, 'notExpected: {twice: 4}').verdict).toBe('fail')
  expect(outcome('function: double', inputs, 'notExpected: {open: 4}').verdict).toBe('fail')
})

test('words, lists and values by name are compared leaf by leaf', () => {
  const inputs = 'inputs: {mode: basket}'
  expect(outcome('function: mode', inputs, 'expected: {mode: basket, list: [1, 2, {x: 3}]}').verdict).toBe('pass')
  expect(outcome('function: mode', inputs, 'expected: {mode: choker}').verdict).toBe('fail')
  expect(outcome('function: mode', inputs, 'expected: {list: [1, 2, {x: 4}]}').verdict).toBe('fail')
  expect(outcome('function: mode', inputs, 'expected: {list: [1, 2]}').verdict).toBe('fail')
})

test.each([
  [
    'an unknown function',
    ['function: triple', 'inputs: {once: 1}', 'expected: {twice: 2}'],
    'no formula or function "triple"',
  ],
  ['a missing input', ['function: double', 'inputs: {}', 'expected: {twice: 2}'], 'input "once": found nothing'],
  ['an unknown unit', ['function: double', 'inputs: {once: 2 stone}', 'expected: {twice: 2}'], 'found "2 stone"'],
  ['nothing expected', ['function: double', 'inputs: {once: 1}'], 'expected something that is expected'],
  ['a misspelt field', ['function: double', 'inputs: {once: 1}', 'expect: {twice: 2}'], 'only the fields of a case'],
])('%s is a failed case that says so', (_, lines, reason) => {
  const { cases, failed } = verification([{ name: 'mass-test.yaml', text: fileOf(lines) }], known)
  expect(failed).toBe(cases.length)
  expect(cases.map((c) => c.reason).join()).toContain(reason)
})

test('a file that is no YAML, or holds no case, is a failure', () => {
  for (const text of ['cases: [', 'cases: []', '', '[]', '&a [*a]']) {
    expect(verification([{ name: 'lift-x.yaml', text }], known), text).toMatchObject({ passed: 0, failed: 1 })
  }
})

test('one broken case does not hide the others, and an id stands once in a file', () => {
  const whole = ['function: double', 'inputs: {once: 1}', 'expected: {twice: 2}']
  const text = `${fileOf(whole)}\n${fileOf(['function: double']).replace('cases:\n', '')}`
  expect(verification([{ name: 'mass-test.yaml', text }], known).passed).toBe(1)
  const twice = `${fileOf(whole)}\n${fileOf(whole).replace('cases:\n', '')}`
  expect(verification([{ name: 'mass-test.yaml', text: twice }], known).failed).toBe(1)
})

function fileOf(lines: readonly string[]): string {
  const head = ['- id: one', '  source: {title: t, place: p}', '  basis: read']
  return ['cases:', ...[...head, ...lines.map((line) => `  ${line}`)].map((line) => `  ${line}`)].join('\n')
}
