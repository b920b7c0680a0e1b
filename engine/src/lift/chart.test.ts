import fc from 'fast-check'
import { expect, test } from 'vitest'
import { given } from '../working/answer.ts'
import { type Between, type Chart, type Fitted, readCharts } from './chart.ts'

const m = (value: number) => given('m', '/x', value)
const t = (value: number) => given('kg', '/x', value * 1000)
const deg = (value: number) => given('rad', '/x', (value * Math.PI) / 180)

const chart = (id: string, rows: readonly (readonly [number, number])[], more: Partial<Chart> = {}): Chart => ({
  id,
  between: 'next larger radius',
  rows: rows.map(([radius, rated]) => ({ radius: m(radius), rated: t(rated) })),
  ...more,
})
const ROWS = [
  [10, 100],
  [14, 70],
  [20, 40],
] as const
const at = (charts: readonly Chart[], radius: number, fitted: Fitted = {}) =>
  readCharts(charts, fitted, m(radius), '/setUp')
const tonnes = (charts: readonly Chart[], radius: number, fitted: Fitted = {}) =>
  (at(charts, radius, fitted).rated.value as number) / 1000

test('between rows the row of the next larger radius holds, or a straight line only where the chart permits one', () => {
  const read = (between: Between) => tonnes([chart('a', ROWS, { between })], 12)
  expect(read('next larger radius')).toBe(70)
  expect(read('linear')).toBeCloseTo(85, 9)
})

test('outside its rows a chart rates nothing, whatever the slope, and says its range and what would cure it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 60, noNaN: true }),
      fc.constantFrom<Between>('next larger radius', 'linear'),
      (radius, between) => {
        const read = at([chart('a', ROWS, { between })], radius)
        const inside = radius >= 10 && radius <= 20
        expect(read.outside.length).toBe(inside ? 0 : 1)
        expect((read.rated.value as number) > 0).toBe(inside)
        if (inside) expect(read.rated.value as number).toBeLessThanOrEqual(100_000)
      },
    ),
  )
  expect(at([chart('a', ROWS)], 21.5).outside[0]).toMatch(/runs from 10.0 m to 20.0 m; stand 1.5 m nearer/)
  expect(at([chart('a', ROWS)], 8).outside[0]).toMatch(/keep the load 2.0 m farther out/)
})

test('a radius beyond one boom names the set-up whose chart reaches it', () => {
  const charts = [chart('short', ROWS, { boom: m(30) }), chart('long', [...ROWS, [26, 20]], { boom: m(42) })]
  expect(at(charts, 24, { boom: m(30) }).outside[0]).toMatch(/or set up as charted in boom 42.0 m/)
  expect(tonnes(charts, 24, { boom: m(42) })).toBe(20)
})

test('a boom between two that are listed is read as the next longer, a counterweight as the next lighter', () => {
  const charts = [
    chart('30', [[10, 100]], { boom: m(30), counterweight: t(60) }),
    chart('42', [[10, 80]], { boom: m(42), counterweight: t(60) }),
    chart('42 heavy', [[10, 95]], { boom: m(42), counterweight: t(90) }),
  ]
  expect(tonnes(charts, 10, { boom: m(36), counterweight: t(80) })).toBe(80)
  expect(at(charts, 10, { boom: m(48), counterweight: t(90) }).outside[0]).toMatch(/longest is 42.0 m/)
  expect(at(charts, 10, { boom: m(30), counterweight: t(50) }).outside[0]).toMatch(/least is 60.0 t/)
})

test('charts that differ by boom are open where nobody says which boom is fitted', () => {
  const read = at([chart('30', ROWS, { boom: m(30) })], 12)
  expect(read.rated.value).toBeUndefined()
  expect(read.inputs.boom).toMatchObject({ pointer: '/setUp/boom', value: undefined })
})

test('a slew through two sectors takes the lower of both, within one its own, and where none holds nothing is rated', () => {
  const charts = [
    chart('behind', [[10, 100]], { sector: [deg(120), deg(240)] }),
    chart('side', [[10, 60]], { sector: [deg(30), deg(120)] }),
  ]
  const slew = (from: number, to: number): Fitted => ({ slew: [deg(from), deg(to)] })
  expect(tonnes(charts, 10, slew(150, 200))).toBe(100)
  expect(tonnes(charts, 10, slew(100, 200))).toBe(60)
  expect(at(charts, 10, slew(0, 60)).outside[0]).toMatch(/slew of 0°/)
  expect(at(charts, 10).outside[0]).toMatch(/no chart holds at a slew/)
})

test('a larger radius never rates more', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 10, max: 20, noNaN: true }),
      fc.double({ min: 0, max: 10, noNaN: true }),
      fc.constantFrom<Between>('next larger radius', 'linear'),
      (radius, more, between) => {
        const charts = [chart('a', ROWS, { between })]
        expect(tonnes(charts, radius + more)).toBeLessThanOrEqual(tonnes(charts, radius) + 1e-9)
      },
    ),
  )
})
