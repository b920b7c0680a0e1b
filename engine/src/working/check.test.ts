import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Answer, found, given, stated, sumOf } from './answer.ts'
import { type CheckKind, check, countVerdicts, utilisationOf, verdictOf } from './check.ts'
import { formula } from './formula.ts'

const kind: CheckKind = {
  id: 'test.hook.use',
  title: 'Hook load against the rating',
  stage: 'lift',
  source: { basis: 'common practice', text: 'demand over capacity' },
  practice: [20],
  decidedBy: 'lift engineer',
}
const subject = { pointer: '/lifts/head', id: 'head', name: 'Head' }

const hookLoad = formula({
  id: 'test.check.hook-load',
  title: 'Hook load',
  source: { basis: 'derived', text: 'sum of masses' },
  gives: ['H', 'kg'],
  from: { P: ['kg', 'piece'], R: ['kg', 'rigging'], k: ['1', 'allowance'] },
  as: 'P * (1 + k) + R',
  valid: ['k < 1'],
})

const inputs = {
  P: given('kg', '/pieces/head/mass', 566_000),
  R: given('kg', '/gear/frame/mass', 26_180),
  k: given('1', '/settings/allowance/calculated', 0.05),
}
const rated = given('kg', '/systems/tower/hooks/main/rated', 660_000)
const use = (demand: Answer<'kg'>, capacity: Answer<'kg'> = rated, near = 0.9) =>
  check({ kind, subject, demand, capacity, near })

test('a check has its kind, its subject and the ratio of both sides', () => {
  const c = use(hookLoad.show(inputs))
  expect(c.id).toBe('test.hook.use/head')
  expect(c.utilisation).toBeCloseTo((566_000 * 1.05 + 26_180) / 660_000, 12)
  expect(c).toMatchObject({
    verdict: 'near',
    stage: 'lift',
    title: kind.title,
    unit: 'kg',
    reasons: [],
    decidedBy: 'lift engineer',
  })
})

test.each([
  [100, 100, 'near'],
  [100.001, 100, 'fail'],
  [90, 100, 'pass'],
  [90.001, 100, 'near'],
  [0, 100, 'pass'],
  [-5, 100, 'pass'],
  [0, 0, 'pass'],
  [1e-9, 0, 'fail'],
  [1, -1, 'fail'],
  [Number.NaN, 1, 'open'],
  [1, Number.NaN, 'open'],
  [undefined, 1, 'open'],
  [1, undefined, 'open'],
  [Number.POSITIVE_INFINITY, 1, 'fail'],
] as const)('%s against %s is %s', (demand, capacity, verdict) => {
  expect(verdictOf(demand, capacity, 0.9)).toBe(verdict)
})

test('the last bit of a sum does not fail a check', () => {
  expect(0.1 + 0.2 > 0.3).toBe(true)
  expect(verdictOf(0.1 + 0.2, 0.3, 0.9)).toBe('near')
})

test('the verdict comes from the true values, not from what is shown', () => {
  expect(verdictOf(100.0001, 100, 0.9)).toBe('fail')
})

test('there is no ratio to a capacity of nothing', () => {
  expect(utilisationOf(1, 0)).toBeUndefined()
  expect(utilisationOf(1, -1)).toBeUndefined()
  expect(utilisationOf(undefined, 1)).toBeUndefined()
})

test('each input taken away in turn opens the check, and is named', () => {
  for (const symbol of ['P', 'R', 'k'] as const) {
    const gone = { ...inputs[symbol], value: undefined }
    const c = use(hookLoad.show({ ...inputs, [symbol]: gone } as typeof inputs))
    expect(c).toMatchObject({ verdict: 'open', utilisation: undefined, reasons: [`${gone.pointer} is not given`] })
  }
  expect(use(hookLoad.show(inputs), given('kg', rated.pointer, undefined))).toMatchObject({
    verdict: 'open',
    reasons: [`${rated.pointer} is not given`],
  })
})

test('a limit of a formula broken anywhere below opens the check, and is told in words', () => {
  const demand = sumOf('load', 'kg', [
    { label: 'hook load', answer: hookLoad.show({ ...inputs, k: given('1', '/k', 1.5) }) },
  ])
  expect(use(demand)).toMatchObject({
    verdict: 'open',
    reasons: ['Hook load: allowance is 1.500, where it holds only for less than 1.000'],
  })
})

test('a method that does not close opens the check, and is named', () => {
  const demand = found({
    unit: 'kg',
    value: 5,
    method: 'equilibrium',
    inputs: {},
    residuals: [{ title: 'sum of forces', value: 3, unit: 'N', tolerance: 1 }],
  })
  for (const on of [demand, sumOf('load', 'kg', [{ label: 'share', answer: demand }])]) {
    const { verdict, reasons } = use(on)
    expect([verdict, reasons.length]).toEqual(['open', 1])
    expect(reasons[0]).toMatch(/^sum of forces does not close, .* left over where no more than .* may be/)
  }
})

test('what stands in the way is said for a failure only', () => {
  const text = (load: number) =>
    check({
      kind,
      subject,
      demand: stated('kg', load, 'x'),
      capacity: stated('kg', 1, 'y'),
      near: 0.9,
      found: ['a rib'],
    })
  expect(text(2).reasons).toEqual(['a rib'])
  expect(text(0.5).reasons).toEqual([])
})

const side = fc.option(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { nil: undefined })

test('an unknown on either side is open, never pass; and open is for an unknown only', () => {
  fc.assert(
    fc.property(side, side, fc.double({ min: 0, max: 1, noNaN: true }), (d, c, near) => {
      const { verdict, reasons } = use(given('kg', '/d', d), given('kg', '/c', c), near)
      expect(verdict === 'open').toBe(d === undefined || c === undefined)
      if (verdict === 'open') expect(reasons.length).toBeGreaterThan(0)
    }),
  )
})

const ORDER = ['pass', 'near', 'fail']

test('more demand or less capacity never makes a verdict better', () => {
  const number = fc.double({ min: 0, max: 1e6, noNaN: true })
  fc.assert(
    fc.property(number, number, number, (demand, capacity, more) => {
      const rank = (d: number, c: number): number => ORDER.indexOf(verdictOf(d, c, 0.9))
      expect(rank(demand + more, capacity)).toBeGreaterThanOrEqual(rank(demand, capacity))
      expect(rank(demand, capacity + more)).toBeLessThanOrEqual(rank(demand, capacity))
    }),
  )
})

test('verdicts are counted', () => {
  expect(countVerdicts([{ verdict: 'pass' }, { verdict: 'open' }, { verdict: 'pass' }])).toEqual({
    pass: 2,
    near: 0,
    fail: 0,
    open: 1,
  })
})
