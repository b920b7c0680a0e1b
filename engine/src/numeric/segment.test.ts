import fc from 'fast-check'
import { expect, test } from 'vitest'
import { pointToBox, type Segment, segmentsApart, segmentToBox } from './segment.ts'
import { add, norm, scale, subtract, type Vec3 } from './vector.ts'

test('two lines that cross at different heights are apart by the height between them', () => {
  const a: Segment = [
    [-5, 0, 0],
    [5, 0, 0],
  ]
  const b: Segment = [
    [1, -5, 3],
    [1, 5, 3],
  ]
  expect(segmentsApart(a, b)).toEqual({ distance: 3, on: [1, 0, 0] })
})

test('a line that goes up over a box is as far off as its corner', () => {
  // 45° up from (0, 0, 0); the corner (3, ·, 1) lies √2 off that line
  const line: Segment = [
    [0, 0, 0],
    [10, 0, 10],
  ]
  const { distance, on } = segmentToBox(line, { low: [3, -1, 0], high: [5, 1, 1] })
  expect(distance).toBeCloseTo(Math.SQRT2, 9)
  expect(on[0]).toBeCloseTo(2, 6)
  expect(segmentToBox(line, { low: [4, -1, 4], high: [5, 1, 6] }).distance).toBeCloseTo(0, 9)
})

const coordinate = fc.double({ min: -10, max: 10, noNaN: true })
const point: fc.Arbitrary<Vec3> = fc.tuple(coordinate, coordinate, coordinate)

test('no pair of points on two lines is nearer than their distance', () => {
  fc.assert(
    fc.property(point, point, point, point, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, c, d, t) => {
      const least = segmentsApart([a, b], [c, d]).distance
      const on = (p: Vec3, q: Vec3, share: number): Vec3 => add(p, scale(subtract(q, p), share))
      for (const s of [0, 0.25, 0.5, 0.75, 1])
        expect(norm(subtract(on(a, b, t), on(c, d, s)))).toBeGreaterThanOrEqual(least - 1e-9)
    }),
  )
})

test('a line is as near to a box as its nearest point, wherever it passes it', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true })
  const side = fc.double({ min: 0, max: 5, noNaN: true })
  fc.assert(
    fc.property(point, point, point, fc.tuple(side, side, side), share, (a, b, low, size, t) => {
      const box = { low, high: add(low, size) }
      const { distance, on } = segmentToBox([a, b], box)
      expect(pointToBox(on, box)).toBe(distance)
      for (const s of [0, 0.25, 0.5, 0.75, 1, t])
        expect(pointToBox(add(a, scale(subtract(b, a), s)), box)).toBeGreaterThanOrEqual(distance - 1e-9)
      const sampled = Array.from({ length: 2001 }, (_, k) => pointToBox(add(a, scale(subtract(b, a), k / 2000)), box))
      expect(distance).toBeGreaterThanOrEqual(Math.min(...sampled) - norm(subtract(b, a)) / 2000)
    }),
  )
})
