import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dateText, differenceOf, figureOf, hoursText, textOfUse } from './figures.ts'

test('a use that is not 1 is never written so that it reads as 1', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.9, max: 1.1, noNaN: true }), (use) => {
      fc.pre(Math.abs(use - 1) > 1e-8)
      const read = Number(textOfUse(use))
      expect(Math.sign(read - 1)).toBe(Math.sign(use - 1))
    }),
  )
  expect(textOfUse(1.0132)).toBe('1.013')
  expect(textOfUse(0.99996)).toBe('0.99996')
})

test('figures of a column are written on the scale of its largest', () => {
  expect(figureOf(850, 'kg', 'SI', 4e5)).toEqual({ number: '0.8', unit: 't' })
  expect(figureOf(660_000, 'kg', 'SI')).toEqual({ number: '660.0', unit: 't' })
  expect(figureOf(411_390, 'kg', 'US')).toEqual({ number: '907.0', unit: 'kip' })
  expect(figureOf(-29.42, 'm', 'SI')).toEqual({ number: '−29.42', unit: 'm' })
})

// a degree Fahrenheit is five ninths of a kelvin; 40 °C is 104 °F
test('a temperature is told on its scale, and how far two of them are apart in its degrees', () => {
  for (const [value, unit] of [
    [313.15, 'K'],
    [40, '°C'],
  ] as const) {
    expect(figureOf(value, unit, 'SI')).toEqual({ number: '40.0', unit: '°C' })
    expect(figureOf(value, unit, 'US')).toEqual({ number: '104.0', unit: '°F' })
    expect(differenceOf(10, unit, 'SI', value)).toEqual({ number: '10.0', unit: '°C' })
    expect(differenceOf(-10, unit, 'US', value)).toEqual({ number: '−18.0', unit: '°F' })
  }
})

test('dates are words, and an unknown date says so', () => {
  expect(dateText(Date.UTC(2033, 2, 14))).toBe('Mon 14 Mar 2033')
  expect(dateText(undefined)).toBe('open')
  expect(hoursText(5400)).toBe('1.5 h')
})
