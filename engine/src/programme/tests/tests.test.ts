import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { model } from '../../model/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { checksOfTests, read } from './tests.fixture.ts'
import { codeExcess } from './tests.formulas.ts'

const verdictOf = (tests: Parameters<typeof checksOfTests>[0], id: string): string | undefined =>
  checksOfTests(tests).get(`programme.test.${id}`)?.verdict

describe('readings against a limit', () => {
  test('the worst reading decides, on either side of a band', () => {
    const band = { proves: 'seals', limit: { atLeast: 1.1, atMost: 1.6 } }
    const verdicts = (...values: number[]) =>
      ['most', 'least'].map((of) => verdictOf({ T1: { ...band, ...read(...values) } }, `seals/T1/${of}`))
    expect(verdicts(1.1, 1.4, 1.6)).toEqual(['pass', 'pass'])
    expect(verdicts(1.4, 1.7)).toEqual(['fail', 'pass'])
    expect(verdicts(1.0, 1.4)).toEqual(['pass', 'fail'])
  })

  test('a reading in the band passes whatever the others in it, one outside fails whatever the others (random)', () => {
    const inside = fc.double({ min: 1.1, max: 1.6, noNaN: true })
    fc.assert(
      fc.property(
        fc.array(inside, { minLength: 1, maxLength: 6 }),
        fc.double({ min: 1.61, max: 9, noNaN: true }),
        (ok, bad) => {
          const limit = { atLeast: 1.1, atMost: 1.6 }
          expect(verdictOf({ T1: { limit, ...read(...ok) } }, 'other/T1/most')).toBe('pass')
          expect(verdictOf({ T1: { limit, ...read(...ok, bad) } }, 'other/T1/most')).toBe('fail')
        },
      ),
      { numRuns: 40 },
    )
  })

  test('a later reading of the same place stands for the earlier; of another place it does not', () => {
    const at = (of: string, value: number, on: string) => ({ of, value, by: 'fitter', on })
    const run = (second: string) => ({
      T1: {
        limit: { atMost: 1 },
        readings: { a: at('feeder 1', 2, '2033-02-01'), b: at(second, 0.5, '2033-02-03') },
      },
    })
    expect(verdictOf(run('feeder 1'), 'other/T1/most')).toBe('pass')
    expect(verdictOf(run('feeder 2'), 'other/T1/most')).toBe('fail')
  })

  test('a test without a limit is open whatever is read, and names what is missing', () => {
    const found = checksOfTests({ T1: read(0.1) }).get('programme.test.other/T1')
    expect(found?.verdict).toBe('open')
    expect(found?.reasons).toEqual(['/tests/T1/limit is not given'])
  })
})

describe('cleanliness of oil, ISO 4406', () => {
  // From memory of the standard: each step of a scale number doubles the count; a code "or better" bounds each of the three.
  test.each([
    ['17/15/12', 'pass'],
    ['16/13/10', 'pass'],
    ['18/15/12', 'fail'],
    ['17/16/12', 'fail'],
    ['17/15/13', 'fail'],
    ['10/10/13', 'fail'],
  ])('a sample of %s against 17/15/12: %s', (code, verdict) => {
    expect(verdictOf({ T1: { proves: 'oil', limit: { code: '17/15/12' }, ...read(code) } }, 'oil/T1/code')).toBe(
      verdict,
    )
  })

  test('a dirtier sample is never nearer to its limit (random)', () => {
    const scale = fc.integer({ min: 0, max: 28 })
    fc.assert(
      fc.property(
        fc.tuple(scale, scale, scale),
        fc.tuple(scale, scale, scale),
        fc.nat(5),
        ([a, b, c], [A, B, C], more) => {
          const at = (m: number) => codeExcess.value({ a: a + m, b, c: c + m, A, B, C })
          expect(at(more)).toBeGreaterThanOrEqual(at(0))
        },
      ),
    )
  })
})

describe('order and witnesses', () => {
  test('a test begun before the one it rests on had passed fails, and says which', () => {
    const later = { limit: { atMost: 1 }, readings: { a: { value: 0.5, by: 'fitter', on: '2033-02-05' } } }
    const found = checksOfTests({ T1: later, T2: { after: ['T1'], ...read(1) } }).get('programme.test.order/T2')
    expect(found?.verdict).toBe('fail')
    expect(found?.reasons.join()).toContain('T1')
    expect(found?.reasons.join()).toContain('2033-02-05')
  })

  test('nothing read on what it rests on is a fault once it has begun, and none before', () => {
    const first = { limit: { atMost: 1 } }
    expect(verdictOf({ T1: first, T2: { after: ['T1'], ...read(1) } }, 'order/T2')).toBe('fail')
    expect(verdictOf({ T1: first, T2: { after: ['T1'] } }, 'order/T2')).toBe('pass')
  })

  test('a reading that cannot be held against its limit leaves what rests on it open', () => {
    const sampled = { proves: 'oil', limit: { code: '17/15/12' }, ...read(16) }
    expect(verdictOf({ T1: sampled, T2: { after: ['T1'], ...read(1) } }, 'order/T2')).toBe('open')
  })

  test('nobody witnesses their own test; a lock is witnessed whether or not it is a hold point', () => {
    const alone = {
      proves: 'lock',
      readings: { a: { value: 1, by: 'A. Fitter', on: '2033-02-01', witness: 'A. Fitter' } },
    }
    expect(verdictOf({ T1: alone }, 'witnessed/T1')).toBe('fail')
    expect(verdictOf({ T1: { proves: 'lock', ...read(1) } }, 'witnessed/T1')).toBe('pass')
    expect(verdictOf({ T1: read(1) }, 'witnessed/T1')).toBeUndefined()
  })
})

test.each([
  [{ limit: {} }, '/tests/T1/limit', 'one bound at least'],
  [{ limit: { code: '17-15-12' } }, '/tests/T1/limit/code', 'three scale numbers'],
  [{ readings: { a: { by: 'fitter', on: '2033-02-01' } } }, '/tests/T1/readings/a', 'either a value or a code'],
  [{ readings: { a: { value: 1, by: 'fitter', on: '2033-02-30' } } }, '/tests/T1/readings/a/on', 'a date'],
])('%j is refused at its place', (test, pointer, expected) => {
  const tests = { T1: { system: 'drive', test: 'Run-out', duration: '2 h', ...test } }
  const { problems } = model({ schemaVersion: 1, about: { title: 'Small' }, tests }, freshMemory())
  expect(problems.map((p) => p.pointer)).toContain(pointer)
  expect(problems.find((p) => p.pointer === pointer)?.expected).toContain(expected)
})
