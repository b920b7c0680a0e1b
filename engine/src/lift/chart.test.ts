import fc from 'fast-check'
import { expect, test } from 'vitest'
import { given, missingUnder } from '../working/answer.ts'
import { type Chart, chartsOf, type Fitted, readCharts } from './chart.ts'
import type { Between } from './chartRows.ts'
import { widened } from './sector.ts'

const m = (value: number) => given('m', '/x', value)
const t = (value: number) => given('kg', '/x', value * 1000)
const deg = (value: number) => given('rad', '/x', (value * Math.PI) / 180)

const chart = (id: string, rows: readonly (readonly [number, number])[], more: Partial<Chart> = {}): Chart => ({
  id,
  at: (field) => `/charts/${id}/${field}`,
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
  readCharts(charts, { fitted, radius: m(radius), at: '/setUp' })
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

test('of a boom that is fitted a chart that names none is open at its boom, never read; so of counterweight and slew', () => {
  const fitted: [Fitted, string][] = [
    [{ boom: m(30) }, '/charts/a/boom'],
    [{ counterweight: t(60) }, '/charts/a/counterweight'],
    [{ slew: [deg(0), deg(90)] }, '/charts/a/sector'],
  ]
  for (const [one, pointer] of fitted) {
    const read = at([chart('a', ROWS)], 12, one)
    expect(missingUnder(read.rated)).toEqual([pointer])
    expect(read.how).toMatch(/a does not say its (boom|counterweight|sector)/)
  }
  // nobody says what is fitted, nor what the chart is for: the crane has one
  expect(tonnes([chart('a', ROWS)], 12)).toBe(70)
})

test('rows of a hook that has one chart have no place for a boom: with one fitted they are open, and belong under charts', () => {
  const rows = chart('a', ROWS).rows
  const lone = chartsOf({ chart: rows, charts: {} }, '/hook')
  expect(missingUnder(at(lone, 12, { boom: m(30) }).rated)).toEqual(['/hook/charts'])
  const named = chartsOf({ charts: { a: { boom: m(30), between: 'next larger radius', rows } } }, '/hook')
  expect(tonnes(named, 12, { boom: m(30) })).toBe(70)
})

test('of two charts that nothing tells apart, as of floats half and fully out, the lower holds', () => {
  const full = chart('floats fully out', [[10, 100]])
  const half = chart('floats half out', [[10, 40]])
  expect(tonnes([full, half], 10)).toBe(40)
  expect(tonnes([half, full], 10)).toBe(40)
})

test('where both hold for the slew the chart over the rear counts, which rates more than the one for the whole circle', () => {
  const round = chart('round', [[10, 60]], { sector: [deg(0), deg(360)] })
  const rear = chart('rear', [[10, 100]], { sector: [deg(150), deg(210)] })
  const slew = (from: number, to: number): Fitted => ({ slew: [deg(from), deg(to)] })
  expect(tonnes([round, rear], 10, slew(160, 200))).toBe(100)
  expect(tonnes([round, rear], 10, slew(90, 200))).toBe(60)
  // across straight ahead, which is the beginning of the circle and its end
  expect(tonnes([round, rear], 10, slew(-20, 20))).toBe(60)
})

test('a slew goes to the left: from 350° to 10° it passes straight ahead and nothing else', () => {
  const ahead = chart('ahead', [[10, 30]], { sector: [deg(340), deg(20)] })
  const rest = chart('rest', [[10, 100]], { sector: [deg(20), deg(340)] })
  expect(tonnes([ahead, rest], 10, { slew: [deg(350), deg(10)] })).toBe(30)
  expect(tonnes([ahead, rest], 10, { slew: [deg(30), deg(300)] })).toBe(100)
})

test('nearer than its first row a chart rates nothing, however far out the load goes after', () => {
  const read = readCharts([chart('a', ROWS)], { fitted: {}, radius: m(18), nearest: m(9), at: '/setUp' })
  expect(read.outside[0]).toMatch(
    /a radius of 9.0 m: the chart runs from 10.0 m to 20.0 m; keep the load 1.0 m farther/,
  )
  expect(read.rated.value).toBe(0)
})

test('a jib that rates less close in than far out is held to the lowest of the rows that its load passes', () => {
  const jib = [
    [10, 20],
    [14, 35],
    [20, 30],
  ] as const
  const over = (nearest: number | undefined, between: Between = 'next larger radius') =>
    readCharts([chart('jib', jib, { between })], {
      fitted: {},
      radius: m(18),
      nearest: nearest === undefined ? undefined : m(nearest),
      at: '/setUp',
    }).rated.value
  expect(over(15)).toBe(30_000)
  expect(over(11)).toBe(20_000)
  // how near it comes is not known: it may come as near as the chart goes
  expect(over(undefined)).toBe(20_000)
  expect(over(11, 'linear')).toBe(20_000)
})

test('a radius that is that of a row but for the last digits of its coordinates is read from that row', () => {
  expect(tonnes([chart('a', ROWS)], 14 + 1e-12)).toBe(70)
  expect(tonnes([chart('a', ROWS)], 10 - 1e-12)).toBe(100)
  expect(tonnes([chart('a', ROWS, { between: 'linear' })], 20 + 1e-12)).toBe(40)
})

test('slews that the hook passes widen what is stated of them, whichever way round their angles are counted', () => {
  const quarter = Math.PI / 2
  const said = [deg(150), deg(210)] as const
  const [from, to] = widened(said, [-quarter, -quarter - 0.1, Math.PI])
  expect(from).toBeCloseTo((150 * Math.PI) / 180, 9)
  expect(to).toBeCloseTo(3 * quarter, 9)
  expect(widened(said, [Math.PI])).toEqual([said[0].value, said[1].value])
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
