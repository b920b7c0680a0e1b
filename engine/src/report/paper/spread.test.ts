import fc from 'fast-check'
import { expect, test } from 'vitest'
import { spread } from './spread.ts'

test('places that have room stay where they are wanted; two on one spot part evenly', () => {
  expect(spread([0, 5, 20], 3)).toEqual([0, 5, 20])
  expect(spread([10, 10], 3)).toEqual([8.5, 11.5])
})

test('whatever is wanted, neighbours keep the gap, the order stands, and the mean does not move', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 20 }), (places) => {
      const wanted = [...places].sort((a, b) => a - b)
      const apart = spread(wanted, 3)
      for (let i = 1; i < apart.length; i++)
        expect((apart[i] as number) - (apart[i - 1] as number)).toBeGreaterThan(3 - 1e-6)
      const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length
      expect(mean(apart)).toBeCloseTo(mean(wanted), 6)
    }),
  )
})
