import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type GroupLine, groupLoads, worstOfLevel, worstOfLoss } from './group.ts'

const ring = (n: number, radius: number, stiffness = 4e7): GroupLine[] =>
  Array.from({ length: n }, (_, i) => {
    const turn = (2 * Math.PI * i) / n
    return { at: [radius * Math.cos(turn), radius * Math.sin(turn)], stiffness, ahead: 0 }
  })
const most = (lines: readonly GroupLine[], weight: number): number =>
  Math.max(...(groupLoads(lines, weight)?.loads ?? [Number.NaN]))

const groups = fc
  .record({
    n: fc.integer({ min: 3, max: 8 }),
    radius: fc.double({ min: 0.5, max: 4, noNaN: true }),
    ahead: fc.array(fc.double({ min: -0.02, max: 0.02, noNaN: true }), { minLength: 8, maxLength: 8 }),
  })
  .map(({ n, radius, ahead }) => ring(n, radius).map((l, i) => ({ ...l, ahead: ahead[i] as number })))

test('lines of a group carry the weight, balance it about the pin, and never push', () => {
  fc.assert(
    fc.property(groups, fc.double({ min: 1e5, max: 1e7, noNaN: true }), (lines, weight) => {
      const loads = groupLoads(lines, weight)?.loads as number[]
      const moment = (axis: 0 | 1) => lines.reduce((sum, l, i) => sum + l.at[axis] * (loads[i] as number), 0)
      expect(loads.reduce((a, b) => a + b, 0) / weight).toBeCloseTo(1, 6)
      expect(Math.abs(moment(0)) / weight).toBeLessThan(1e-5)
      expect(Math.abs(moment(1)) / weight).toBeLessThan(1e-5)
      expect(Math.min(...loads)).toBeGreaterThanOrEqual(0)
    }),
  )
})

test('a heavier load never unloads the line that bears most, and a larger difference never loads it less', () => {
  fc.assert(
    fc.property(
      groups,
      fc.double({ min: 1e5, max: 5e6, noNaN: true }),
      fc.double({ min: 1, max: 2, noNaN: true }),
      (lines, weight, more) => {
        expect(most(lines, weight * more)).toBeGreaterThanOrEqual(most(lines, weight) * (1 - 1e-6))
        const even = lines.map((l) => ({ ...l, ahead: 0 }))
        const level = (difference: number) => worstOfLevel(even, weight, difference)?.load as number
        expect(level(0.01 * more)).toBeGreaterThanOrEqual(level(0.01) * (1 - 1e-6))
      },
    ),
  )
})

test('like lines on a ring share evenly, and turning the ring changes nothing', () => {
  for (const n of [3, 4, 5, 6]) {
    for (const load of groupLoads(ring(n, 2), 6e6)?.loads ?? []) expect(load).toBeCloseTo(6e6 / n, 2)
  }
})

test('the signs taken for the worst difference are the worst of all corners', () => {
  fc.assert(
    fc.property(fc.integer({ min: 2, max: 7 }), fc.double({ min: 1e6, max: 1e7, noNaN: true }), (n, weight) => {
      const lines = ring(n, 1.6, 6e7)
      const corners = Array.from({ length: 2 ** n }, (_, c) =>
        most(
          lines.map((l, i) => ({ ...l, ahead: (c >> i) & 1 ? 0.002 : -0.002 })),
          weight,
        ),
      )
      expect(worstOfLevel(lines, weight, 0.004)?.load as number).toBeCloseTo(Math.max(...corners), 0)
    }),
    { numRuns: 30 },
  )
})

test('of four lines of a square one drawn in by δ takes k δ / 4 more, by hand', () => {
  const lines = ring(4, 2, 45e6).map((l, i) => ({ ...l, ahead: i === 0 ? 0.02 : 0 }))
  expect(groupLoads(lines, 6e6)?.loads[0]).toBeCloseTo(1.5e6 + (45e6 * 0.02) / 4, 0)
})

test('two or three lines are determinate: a difference of strokes tilts the block and loads nothing', () => {
  for (const n of [2, 3]) expect(worstOfLevel(ring(n, 2), 6e6, 0.05)?.load).toBeCloseTo(6e6 / n, 0)
})

test('one of six lost leaves 0.278 of the weight in the worst, one of four a half on a diagonal, one of two tips the block', () => {
  // by hand for six: a = W / 4.5 with the tilt a / 2r, so 1.25 a beside the gap
  expect(worstOfLoss(ring(6, 1.6), 4.5e6)?.load).toBeCloseTo(1.25e6, 0)
  const four = worstOfLoss(ring(4, 1.6), 4e6)
  expect(four?.load).toBeCloseTo(2e6, 0)
  expect(four?.tips).toBe(false)
  expect(worstOfLoss(ring(2, 1.6), 4e6)).toMatchObject({ load: 4e6, tips: true })
})
