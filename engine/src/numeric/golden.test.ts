import fc from 'fast-check'
import { expect, test } from 'vitest'
import { goldenSection } from './golden.ts'

const number = (value: number): number => value
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('the top of a smooth curve is found to the root of what numbers tell apart, and its height exactly', () => {
  fc.assert(
    fc.property(real(-3, 3), real(0.1, 5), real(0.1, 5), (top, before, after) => {
      const best = goldenSection((x) => 2 - (x - top) ** 2, number, {
        from: top - before,
        to: top + after,
        sections: 60,
      })
      expect(best.at).toBeCloseTo(top, 6)
      expect(best.value).toBeCloseTo(2, 12)
    }),
  )
})

test('a peak with a kink is found as narrowly as the sections say: two straight flanks meet at it', () => {
  fc.assert(
    fc.property(real(-3, 3), real(0.1, 5), real(0.1, 5), (top, left, right) => {
      const flanks = (x: number): number => (x < top ? left * (x - top) : right * (top - x))
      const best = goldenSection(flanks, number, { from: top - 1, to: top + 1.5, sections: 30 })
      expect(Math.abs(best.at - top)).toBeLessThan(2.5 * 0.6181 ** 30)
    }),
  )
})

test('each round asks once, and what has no peak inside is greatest at its end', () => {
  let asked = 0
  const rising = (x: number): number => {
    asked++
    return x
  }
  expect(goldenSection(rising, number, { from: 0, to: 1, sections: 40 }).at).toBeCloseTo(1, 7)
  expect(asked).toBe(42)
})
