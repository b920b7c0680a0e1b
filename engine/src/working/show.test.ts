import fc from 'fast-check'
import { expect, test } from 'vitest'
import { found, given, largestOf, stated, sumOf } from './answer.ts'
import { readExpression } from './expression.ts'
import { formula } from './formula.ts'
import { lineRead } from './line.fixture.ts'
import { evaluator } from './program.ts'
import { numbersLine, numberText, workingOf } from './show.ts'

const bending = formula({
  id: 'test.show.bending',
  title: 'Bending stress beside an axial one',
  source: { basis: 'derived', text: 'N/A + M/W' },
  gives: ['sigma', 'Pa'],
  from: { N: ['N', 'axial force'], A: ['m2', 'area'], M: ['N m', 'moment'], b: ['m', 'width'], d: ['m', 'depth'] },
  where: { W: ['m3', 'b * d^2 / 6', 'section modulus'] },
  as: 'N / A + M / W',
  valid: ['b > 0 * b', 'd <= 3 * b'],
})

const inputs = {
  N: given('N', '/N', 120_000),
  A: given('m2', '/A', 0.06),
  M: given('N m', '/M', 18_000),
  b: given('m', '/b', 0.2),
  d: given('m', '/d', 0.3),
}

test('the working shows the formula in symbols, with numbers, and its result', () => {
  const working = workingOf(bending.show(inputs))
  // By hand: W = 0.2 · 0.09 / 6 = 0.003 m³; σ = 2 MPa + 6 MPa = 8 MPa.
  expect(working).toMatchObject({
    title: 'Bending stress beside an axial one',
    by: 'test.show.bending',
    symbolic: 'σ = N / A + M / W',
    numbers: 'σ = 120000 / 0.06 + 18000 / 0.003 = 8e6',
    value: '8.00\u00a0MPa',
    si: expect.closeTo(8e6, 3),
    limits: [
      { limit: 'b > 0 * b', holds: true },
      { limit: 'd ≤ 3 * b', holds: true },
    ],
  })
  expect(working.steps).toMatchObject([
    {
      symbol: 'W',
      meaning: 'section modulus',
      symbolic: 'b · d^2 / 6',
      numbers: '0.2 · 0.3^2 / 6 = 0.003',
      value: '0.003\u00a0m³',
    },
  ])
  expect(working.lines.map((l) => [l.symbol, l.value, l.pointer])).toEqual([
    ['N', '120.0\u00a0kN', '/N'],
    ['A', '0.060\u00a0m²', '/A'],
    ['M', '18.0\u00a0kN m', '/M'],
    ['b', '0.20\u00a0m', '/b'],
    ['d', '0.30\u00a0m', '/d'],
  ])
})

test('the same working in US customary units shows other words and the same SI value', () => {
  const [si, us] = [workingOf(bending.show(inputs)), workingOf(bending.show(inputs), 'US')]
  expect(us.value).toBe('1.16\u00a0ksi')
  expect(us.si).toBe(si.si)
  expect(us.numbers).toBe(si.numbers)
})

test('a limit that is broken shows, with no value and no slopes', () => {
  const working = workingOf(bending.show({ ...inputs, d: given('m', '/d', 0.9) }))
  expect(working.value).toBe('open')
  expect(working.slopes).toEqual({})
  expect(working.limits.map((l) => l.holds)).toEqual([true, false])
})

test('a missing input is shown as open where it stands, and there is no line of numbers', () => {
  const working = workingOf(bending.show({ ...inputs, M: given('N m', '/M', undefined) }))
  expect(working.numbers).toBeUndefined()
  expect(working.lines.find((l) => l.symbol === 'M')).toMatchObject({ value: 'open', pointer: '/M', si: undefined })
})

test('slopes say what one unit more of each input does', () => {
  const { slopes } = workingOf(bending.show(inputs))
  // By hand: ∂σ/∂N = 1/A, ∂σ/∂M = 1/W, ∂σ/∂d = −2 M/(W d).
  expect(slopes.N).toBeCloseTo(1 / 0.06, 9)
  expect(slopes.M).toBeCloseTo(1 / 0.003, 6)
  expect(slopes.d).toBeCloseTo((-2 * 18_000) / 0.003 / 0.3, 3)
})

test('an input, a constant, a sum and a method have their working too', () => {
  expect(workingOf(given('kg', '/m', 5, 'weighed'))).toMatchObject({ title: '/m', by: 'weighed', value: '5.0\u00a0kg' })
  expect(workingOf(given('kg', '/m', undefined))).toMatchObject({ by: 'not given', value: 'open' })
  expect(workingOf(stated('m/s2', 9.80665, 'standard gravity'))).toMatchObject({
    title: 'standard gravity',
    by: 'constant',
  })
  const terms = [
    { label: 'head', answer: given('kg', '/a', 2000) },
    { label: 'drive', answer: given('kg', '/b', 3000) },
  ]
  expect(workingOf(sumOf('mass', 'kg', terms)).lines.map((l) => l.symbol)).toEqual(['head', 'drive'])
  expect(workingOf(largestOf('mass', 'kg', terms)).note).toBe('drive governs')
  const method = found({
    unit: 'N',
    value: 5,
    method: 'equilibrium',
    inputs: { head: terms[0]?.answer ?? stated('kg', 0, '') },
    residuals: [{ title: 'ΣF', value: 1e-7, unit: 'N', tolerance: 1e-3 }],
    note: 'six unknowns',
  })
  expect(workingOf(method)).toMatchObject({
    title: 'equilibrium',
    by: 'method',
    note: 'six unknowns',
    residuals: [{ title: 'ΣF', value: '1e-7', tolerance: '0.001', holds: true }],
  })
})

test.each([
  [0, '0'],
  [12.5, '12.5'],
  [-12.5, '(−12.5)'],
  [999_999, '999999'],
  [1_200_000, '1.2e6'],
  [0.0004, '4e-4'],
  [-0.0004, '(−4e−4)'],
])('%d stands in a line as %s', (value, text) => {
  expect(numberText(value)).toBe(text)
})

test('near-equal numbers subtracted are shown with the digits that it takes', () => {
  const tree = readExpression('a - b')
  expect(numbersLine(tree, { a: 1000.001, b: 1000 })).toBe('1000.001 − 1000 = 0.001')
})

/** Figures that a project could hold, of any size. */
const value = fc.oneof(
  fc.integer({ min: -9, max: 9 }),
  fc.integer({ min: -1e9, max: 1e9 }).map((n) => n / 100),
  fc.integer({ min: -1e7, max: 1e7 }).map((n) => n / 1e7),
)

test.each([
  'a - b',
  'a / (b + c)',
  '-a^2 + b * c',
  'max(a, b) - min(b, c)',
  'if(a > b, a - c, b - c)',
  'sqrt(a^2 + b^2) - abs(c)',
  '(a - b) * (b - c)',
])('the line of numbers of %s reads back to the value it shows', (text) => {
  const tree = readExpression(text)
  let read = 0
  fc.assert(
    fc.property(value, value, value, (a, b, c) => {
      const exact = evaluator(tree)({ a, b, c })
      if (!Number.isFinite(exact)) return
      read++
      const line = numbersLine(tree, { a, b, c })
      const { shown, worked } = lineRead(line)
      expect(Math.abs(shown - exact), line).toBeLessThanOrEqual(0.000501 * Math.abs(exact))
      expect(Math.abs(shown - worked), line).toBeLessThanOrEqual(0.000501 * Math.abs(shown))
    }),
  )
  expect(read).toBeGreaterThan(50)
})
