import fc from 'fast-check'
import { expect, test } from 'vitest'
import { expectedOf, likeOf, readQuantity, showNumber, shownScale, showQuantity, writeQuantity } from './quantity.ts'
import type { SiUnit } from './unit.ts'

const FT = 0.3048
const DEG = Math.PI / 180

test.each<[string, SiUnit, number]>([
  ['412 t', 'kg', 412_000],
  ['12 345.6 kg', 'kg', 12_345.6],
  ['12\u202f345.6\u00a0kg', 'kg', 12_345.6],
  ['907 kip', 'kg', 907 * 453.59237],
  ['907 kip', 'N', 907 * 4448.2216152605],
  ['63 ft', 'm', 63 * FT],
  ['63 ft 4 in', 'm', (63 + 4 / 12) * FT],
  ['−3 ft 4 in', 'm', -(3 + 4 / 12) * FT],
  ['-0 ft 4 in', 'm', (-4 / 12) * FT],
  ['1 yd 2 ft 3 in', 'm', 5.25 * FT],
  ['-29.42 m', 'm', -29.42],
  ['−0.1 deg', 'rad', -0.1 * DEG],
  ['1.4°', 'rad', 1.4 * DEG],
  ['0.5 rad', 'rad', 0.5],
  ['1.5 deg/min', 'rad/s', (1.5 * DEG) / 60],
  ['18 m/s', 'm/s', 18],
  ['13 m/h', 'm/s', 13 / 3600],
  ['392.7 kN', 'N', 392_700],
  ['210 kPa', 'Pa', 210_000],
  ['18.5 kN/m³', 'N/m3', 18_500],
  ['3100 l', 'm3', 3.1],
  ['5 %', '1', 0.05],
  ['0.951', '1', 0.951],
  ['2h 30min', 's', 9000],
  ['2 h 30 min', 's', 9000],
  ['1e-9 m/s', 'm/s', 1e-9],
  ['.5 m', 'm', 0.5],
  ['5 1/m', '1/m', 5],
  ['8 short-ton', 'kg', 8 * 907.18474],
  // fixed points of the Celsius and Fahrenheit scales
  ['0 °C', 'K', 273.15],
  ['212 °F', 'K', 373.15],
  ['−40 °F', 'K', 233.15],
  ['313 K', 'K', 313],
  ['0 °C', '°C', 0],
  ['212 °F', '°C', 100],
  ['−40 °F', '°C', -40],
  ['0 K', '°C', -273.15],
])('"%s" where %s is due', (text, unit, value) => {
  expect(readQuantity(text, unit)).toBeCloseTo(value, 9)
})

test.each<[string, SiUnit]>([
  ['412', 'kg'],
  ['412 m', 'kg'],
  ['412 kN', 'kg'],
  ['412 kg', 'N'],
  ['90', 'rad'],
  ['0.5 rad', '1'],
  ['5 Hz', 'rad/s'],
  ['1/800', '1'],
  ['1,234 kg', 'kg'],
  ['12 34 kg', 'kg'],
  ['3 ft -4 in', 'm'],
  ['3 ft 4 kg', 'm'],
  ['1 m 2 m 3 m 4 m', 'm'],
  ['', 'kg'],
  ['kg', 'kg'],
  ['--5 kg', 'kg'],
  ['0x10 kg', 'kg'],
  ['Infinity kg', 'kg'],
  ['NaN kg', 'kg'],
  ['1e999 kg', 'kg'],
  ['5 constructor', 'kg'],
  ['5 °C', 'rad'],
  ['40', 'K'],
  ['40', '°C'],
  ['120 kg', '°C'],
  [`${'1'.repeat(90)} kg`, 'kg'],
])('"%s" is refused where %s is due, with what is and an example', (text, unit) => {
  expect(readQuantity(text, unit)).toMatchObject({
    expected: expectedOf(unit).expected,
    example: expectedOf(unit).example,
  })
})

test.each(['412 ton', '412 tons', '5 tonf', '412 T'])('"%s" means different things to different people', (text) => {
  const fault = readQuantity(text, text.endsWith('f') ? 'N' : 'kg')
  expect((fault as { expected: string }).expected).toMatch(/alone is ambiguous: write/)
})

const UNITS: SiUnit[] = [
  'kg',
  'm',
  's',
  'rad',
  'N',
  'Pa',
  'm/s',
  'm2',
  'm3',
  'kg/m3',
  'kg/m',
  'N/m3',
  'N m',
  'N/m',
  '1',
  '1/m',
  'kg m2',
  'm2/kg',
  'V',
  'W',
  'rad/s',
  'm3/s',
  'm3/J',
  'kg/s',
  'K',
  'm/s2',
]
const unitArbitrary = fc.constantFrom(...UNITS)

test('what is written reads back to the very same value, in SI and in US customary', () => {
  const any = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }), fc.integer())
  fc.assert(
    fc.property(any, unitArbitrary, fc.constantFrom('SI', 'US'), (value, unit, system) => {
      expect(readQuantity(writeQuantity(value, unit, system as 'SI' | 'US'), unit)).toBe(value + 0)
    }),
    { numRuns: 2000 },
  )
})

test('from SI to US customary and back, and back again, nothing is lost', () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, min: 1e-6, max: 1e9 }), unitArbitrary, (value, unit) => {
      const inUs = readQuantity(writeQuantity(value, unit, 'US'), unit) as number
      expect(readQuantity(writeQuantity(inUs, unit, 'SI'), unit)).toBe(value)
    }),
  )
})

test('a round figure of feet is written as one', () => {
  expect(writeQuantity(63 * FT, 'm', 'US')).toBe('63 ft')
  expect(writeQuantity(1.5 * 453.59237 * 1000, 'kg', 'US')).toMatch(/^1500 kip$|^1.5e3 kip$/)
})

test('four values in five can be written in feet without loss; the rest stay in metres', () => {
  const values = Array.from({ length: 1000 }, (_, i) => 0.37 + i * 1.137)
  const inUs = values.filter((v) => writeQuantity(v, 'm', 'US').endsWith(' ft'))
  expect(inUs.length).toBeGreaterThan(800)
})

test.each<[number | undefined, SiUnit, 'SI' | 'US', string]>([
  [565_940, 'kg', 'SI', '565.9\u00a0t'],
  [565_950, 'kg', 'US', '1247.7\u00a0kip'],
  // 500 N over 4.4482216152605 N to the pound
  [500, 'N', 'US', '112\u00a0lbf'],
  [245, 'kg', 'SI', '245\u00a0kg'],
  [2.6, 'kg', 'SI', '2.6\u00a0kg'],
  [-29.42, 'm', 'SI', '\u221229.42\u00a0m'],
  [0.038, 'm', 'SI', '38.0\u00a0mm'],
  [13 / 3600, 'm/s', 'SI', '13.00\u00a0m/h'],
  [0.3, 'm/s', 'SI', '18.00\u00a0m/min'],
  [11, 'm/s', 'SI', '11.0\u00a0m/s'],
  [0.95144, '1', 'SI', '0.951'],
  [(1.4 * Math.PI) / 180, 'rad', 'SI', '1.4\u00a0°'],
  // standard gravity
  [9.80665, 'm/s2', 'US', '32.17\u00a0ft/s²'],
  [313.15, 'K', 'SI', '40.0\u00a0°C'],
  [313.15, 'K', 'US', '104.0\u00a0°F'],
  [40, '°C', 'SI', '40.0\u00a0°C'],
  [40, '°C', 'US', '104.0\u00a0°F'],
  // 1.25 kg/m³ over 16.01846337 kg/m³ to the pound in a cubic foot
  [1.25, 'kg/m3', 'US', '0.0780\u00a0lb/ft³'],
  [7850, 'kg/m3', 'US', '490.1\u00a0lb/ft³'],
  [undefined, 'kg', 'SI', 'open'],
  [0, 'kg', 'SI', '0.0\u00a0t'],
])('%d %s is shown in %s as %s', (value, unit, system, text) => {
  expect(showQuantity(value, unit, system)).toBe(text)
})

test.each<[number, number, SiUnit, 'SI' | 'US', string, string]>([
  [0.0762, 0.6096, 'm', 'US', '0.25\u00a0ft', '2.00\u00a0ft'],
  [0.00635, 0.3048, 'm', 'US', '0.25\u00a0in', '12.00\u00a0in'],
  [0.3048, 0.00635, 'm', 'US', '12.00\u00a0in', '0.25\u00a0in'],
  [0.038, 0.3, 'm', 'SI', '38.0\u00a0mm', '300.0\u00a0mm'],
  [0, 0.038, 'm', 'SI', '0.0\u00a0mm', '38.0\u00a0mm'],
  [900, 25_000, 'kg', 'SI', '900\u00a0kg', '25\u202f000\u00a0kg'],
  [8_000, 25_000, 'kg', 'SI', '8.0\u00a0t', '25.0\u00a0t'],
])('%d and %d %s stand in one row in one unit, in %s', (demand, limit, unit, system, left, right) => {
  const like = likeOf([demand, limit], unit, system)
  expect([demand, limit].map((v) => showQuantity(v, unit, system, like))).toEqual([left, right])
})

test('a number is shown with a true minus, thin groups from five figures, and no minus before nothing', () => {
  expect(showNumber(-1234.5, 1)).toBe('\u22121234.5')
  expect(showNumber(12_345.67, 1)).toBe('12\u202f345.7')
  expect(showNumber(-0.001, 1)).toBe('0.0')
})

test('what is shown reads back to what was rounded', () => {
  fc.assert(
    fc.property(
      fc.double({ noNaN: true, min: -1e9, max: 1e9 }),
      unitArbitrary,
      fc.constantFrom('SI', 'US'),
      (value, unit, s) => {
        const system = s as 'SI' | 'US'
        const { factor, decimals } = shownScale(value, unit, system)
        const back = readQuantity(showQuantity(value, unit, system), unit)
        const halfOfLastDigit = 0.5 * factor * 10 ** -decimals
        // a large angle has digits enough that dividing by its unit and multiplying again loses the last of a double's
        const lostInDoubles = 4 * Number.EPSILON * Math.abs(value)
        expect(Math.abs((back as number) - value)).toBeLessThanOrEqual(halfOfLastDigit + lostInDoubles)
      },
    ),
  )
})
