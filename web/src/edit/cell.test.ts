import { readQuantity } from '@shieldwright/engine/working/quantity.ts'
import { expect, test } from 'vitest'
import { cellText, otherText, parted, readCell } from './cell.ts'
import { fieldOf } from './field.ts'

const mass = fieldOf({ type: 'string', description: 'mass. a mass with its unit' })
const share = fieldOf({ type: ['number', 'string'], description: 'share. a plain number or a percentage' })
const heat = fieldOf({ type: ['number', 'string'], description: 'least preheat. a temperature with its unit' })
const point = fieldOf({
  type: 'array',
  prefixItems: ['x', 'y'].map((axis) => ({ type: 'string', description: `${axis}, site. a length with its unit` })),
})
const read = (field: ReturnType<typeof fieldOf>, text: string) => readCell(field as never, text)

test('a quantity is kept as it is typed, in any unit', () => {
  expect(read(mass, ' 907 kip ')).toEqual({ value: '907 kip' })
  expect(read(share, '0.03')).toEqual({ value: 0.03 })
  expect(read(share, '3 %')).toEqual({ value: '3 %' })
  expect(read(point, '63 ft 4 in, 2 m')).toEqual({ value: ['63 ft 4 in', '2 m'] })
  expect(read(mass, '')).toEqual({ absent: true })
})

test('a bare number is answered in both systems', () => {
  expect(read(mass, '47.9')).toEqual({ fault: 'A mass needs its unit. Type 47.9 t or 105.6 kip.' })
})

test('the other system stands beside what was typed', () => {
  expect(otherText(mass, '412 t')).toBe('908.3\u00a0kip')
  expect(otherText(mass, '907 kip')).toBe('411.4\u00a0t')
  expect(readQuantity(otherText(mass, '412 t'), 'kg')).toBeCloseTo(412_000, -2)
  expect(otherText(share, '3 %')).toBe('')
})

// 32 °F and 212 °F are the freezing and boiling points of water on that scale
test('a temperature is typed in either scale and stands in the other; one kept without its unit is in degrees Celsius', () => {
  expect(read(heat, '212 °F')).toEqual({ value: '212 °F' })
  expect(otherText(heat, '212 °F')).toBe('100.0\u00a0°C')
  expect(otherText(heat, '0 °C')).toBe('32.0\u00a0°F')
  expect(otherText(heat, '100')).toBe('212.0\u00a0°F')
  expect(read(heat, '100')).toEqual({ fault: 'A temperature needs its unit. Type 100 °C or 212.0 °F.' })
})

test('a figure is parted at its decimal point; a length in feet and inches is left whole', () => {
  expect(parted('37.5751 t')).toEqual({ whole: '37', fraction: '.5751', unit: 't' })
  expect(parted('-29 m')).toEqual({ whole: '\u221229', fraction: '', unit: 'm' })
  expect(parted('63 ft 4 in')).toBeUndefined()
})

test('what stands in several places of a list is one text that reads back', () => {
  const needs = fieldOf({
    type: 'object',
    propertyNames: { type: 'string' },
    additionalProperties: { type: 'integer' },
  })
  expect(cellText({ crew: 2, LT1: 1 })).toBe('crew: 2, LT1: 1')
  expect(read(needs, 'crew: 2, LT1: 1')).toEqual({ value: { crew: 2, LT1: 1 } })
  expect(read(needs, 'crew')).toHaveProperty('fault')
})
