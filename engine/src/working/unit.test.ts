// @ts-expect-error the package comes without types
import unit from 'unitmath'
import { expect, test } from 'vitest'
import { dimensionOf, readUnit, type SiUnit, sameDimension } from './unit.ts'

/** Text of one of our units, and the same in the words of an independent unit library. */
const AGAINST: readonly [ours: string, theirs: string, si: string][] = [
  ['g', 'g', 'kg'],
  ['t', 'tonne', 'kg'],
  ['lb', 'lbm', 'kg'],
  ['short-ton', 'ton', 'kg'],
  ['mm', 'mm', 'm'],
  ['cm', 'cm', 'm'],
  ['km', 'km', 'm'],
  ['in', 'in', 'm'],
  ['ft', 'ft', 'm'],
  ['yd', 'yd', 'm'],
  ['mi', 'mile', 'm'],
  ['min', 'minute', 's'],
  ['h', 'hour', 's'],
  ['d', 'day', 's'],
  ['wk', 'week', 's'],
  ['deg', 'deg', 'rad'],
  ['kN', 'kN', 'N'],
  ['MN', 'MN', 'N'],
  ['lbf', 'lbf', 'N'],
  ['kipf', 'kip', 'N'],
  ['kPa', 'kPa', 'Pa'],
  ['MPa', 'MPa', 'Pa'],
  ['GPa', 'GPa', 'Pa'],
  ['bar', 'bar', 'Pa'],
  ['psi', 'psi', 'Pa'],
  ['psf', 'lbf/ft^2', 'Pa'],
  ['ksf', 'kip/ft^2', 'Pa'],
  ['ksi', 'kip/in^2', 'Pa'],
  ['pcf', 'lbm/ft^3', 'kg/m^3'],
  ['mph', 'mile/hour', 'm/s'],
  ['l', 'L', 'm^3'],
  ['gal', 'gallon', 'm^3'],
  ['kJ', 'kJ', 'J'],
  ['kW', 'kW', 'W'],
  ['hp', 'hp', 'W'],
  ['kV', 'kV', 'V'],
  ['kN/m3', 'kN/m^3', 'N/m^3'],
  ['m/h', 'm/hour', 'm/s'],
  ['kg/h', 'kg/hour', 'kg/s'],
  ['lb/ft', 'lbm/ft', 'kg/m'],
  ['m2/t', 'm^2/tonne', 'm^2/kg'],
  ['l/min', 'L/minute', 'm^3/s'],
]

test.each(AGAINST)('one %s is what an independent unit library says of %s', (ours, theirs, si) => {
  const expected = unit(`1 ${theirs}`).to(si).getValue() as number
  expect(readUnit(ours)?.factor).toBeDefined()
  expect((readUnit(ours)?.factor as number) / expected).toBeCloseTo(1, 12)
})

// NIST SP 811 (2008), Appendix B.8, factors printed in bold there as exact; from memory.
test.each([
  ['ft', 0.3048],
  ['in', 0.0254],
  ['yd', 0.9144],
  ['mi', 1609.344],
  ['lb', 0.45359237],
  ['short-ton', 907.18474],
  ['long-ton', 1016.0469088],
  ['kgf', 9.80665],
  ['lbf', 4.4482216152605],
  ['gal', 0.003785411784],
  ['mph', 0.44704],
  ['bar', 100_000],
] as const)('one %s is exactly %d in SI', (name, factor) => {
  expect(readUnit(name)?.factor).toBeCloseTo(factor, 14)
})

// NIST SP 811 (2008), Appendix B.8, rounded there to seven figures; from memory.
test.each([
  ['psi', 6894.757],
  ['ksi', 6_894_757],
  ['psf', 47.88026],
  ['pcf', 16.01846],
] as const)('one %s is %d in SI, to seven figures', (name, factor) => {
  expect((readUnit(name)?.factor as number) / factor).toBeCloseTo(1, 6)
})

test('pounds and kips are mass, and force where a force is due', () => {
  expect(readUnit('kip')?.factor).toBeCloseTo(453.59237, 12)
  expect(readUnit('kip', true)?.factor).toBeCloseTo(4448.2216152605, 9)
  expect(readUnit('kip ft', true)?.factor).toBeCloseTo(1355.8179483, 6)
})

test('powers and products may be written as the trade does', () => {
  const same = ['kg/m3', 'kg/m^3', 'kg/m³', 'kg m-3', 'kg·m⁻³', 'kg * m-3']
  for (const text of same) expect(readUnit(text), text).toEqual({ dimension: [1, -3, 0, 0, 0], factor: 1 })
  expect(readUnit('N mm2')?.factor).toBeCloseTo(1e-6, 18)
  expect(readUnit('kg/m/s')?.dimension).toEqual([1, -1, -1, 0, 0])
})

test.each(['', 'xyz', 'kgm', 'm23', 'constructor', '__proto__', 'toString', 'm^', '^2', 'tons', '/800'])(
  '"%s" is no unit',
  (text) => {
    expect(readUnit(text)).toBeUndefined()
  },
)

test('a unit of angle is known as one, in compounds as well', () => {
  expect(readUnit('deg')?.angle).toBe(true)
  expect(readUnit('deg/min')?.angle).toBe(true)
  expect(readUnit('1')?.angle).toBeUndefined()
})

test('every SI label has a dimension, and equal dimensions meet', () => {
  const labels: SiUnit[] = ['N', 'N m', 'Pa', 'J', 'W', 'kg m2', 'm3/s', '1/K', 'V', 'm2/kg', 'rad/s']
  for (const label of labels) expect(dimensionOf(label)).toHaveLength(5)
  expect(sameDimension(dimensionOf('N m'), dimensionOf('J'))).toBe(true)
  expect(sameDimension(dimensionOf('Pa'), dimensionOf('N/m2'))).toBe(true)
  expect(sameDimension(dimensionOf('N'), dimensionOf('kg'))).toBe(false)
})

test('a label that the table does not know is a fault of our own', () => {
  expect(() => dimensionOf('furlong' as SiUnit)).toThrow('unit label "furlong" is not in the table')
})

test('a temperature on its own scale has no dimension that a formula could take', () => {
  expect(() => dimensionOf('°C')).toThrow('unit label "°C" is not in the table')
})
