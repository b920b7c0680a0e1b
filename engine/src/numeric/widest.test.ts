import fc from 'fast-check'
import { expect, test } from 'vitest'
import { widestGap } from './widest.ts'

type Point = readonly [number, number]

/** Gap along a direction from one hull of points, each a disc, to another. */
const gapBetween =
  (a: readonly Point[], b: readonly Point[], radius = 0) =>
  (angle: number): number => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    const along = ([x, y]: Point): number => x * c + y * s
    return Math.min(...b.map(along)) - Math.max(...a.map(along)) - radius
  }

const rectangle = (x: number, y: number, w: number, h: number): Point[] => [
  [x, y],
  [x + w, y],
  [x + w, y + h],
  [x, y + h],
]

const counted = (of: (angle: number) => number) => {
  let looks = 0
  return {
    of: (angle: number): number => {
      looks++
      return of(angle)
    },
    looks: () => looks,
  }
}

test('two discs are apart by what lies between them along the line of their centres', () => {
  const { of, looks } = counted(gapBetween([[0, 0]], [[3, 4]], 1.5))
  const { angle, gap } = widestGap(of, 0.2)
  expect(gap).toBeCloseTo(3.5, 9)
  expect(angle).toBeCloseTo(Math.atan2(4, 3), 4)
  expect(looks()).toBeLessThan(20)
})

test('corner to corner, and face to face, in a few looks', () => {
  const corners = counted(gapBetween(rectangle(0, 0, 2, 1), rectangle(5, 5, 1, 1)))
  expect(widestGap(corners.of, 0.7).gap).toBeCloseTo(5, 9)
  const faces = counted(gapBetween(rectangle(0, 0, 2, 4), rectangle(3, 1, 1, 1)))
  expect(widestGap(faces.of, 0.3).gap).toBeCloseTo(1, 9)
  expect(corners.looks() + faces.looks()).toBeLessThan(24)
})

test('what lies in one another comes out by the shorter way', () => {
  expect(widestGap(gapBetween(rectangle(0, 0, 4, 4), rectangle(3, 1, 4, 2)), 2).gap).toBeCloseTo(-1, 9)
})

test('a gap that is enough ends the search', () => {
  const { of, looks } = counted(gapBetween([[0, 0]], [[10, 0]]))
  expect(widestGap(of, 0.5, 6)).toEqual({ angle: 0.5, gap: 10 * Math.cos(0.5) })
  expect(looks()).toBe(1)
})

const coordinate = fc.double({ min: -10, max: 10, noNaN: true })
const cloud = fc.array(fc.tuple(coordinate, coordinate), { minLength: 1, maxLength: 8 })

test('no direction of a thousand is wider', () => {
  fc.assert(
    fc.property(cloud, cloud, fc.double({ min: -4, max: 4, noNaN: true }), (a, b, start) => {
      const of = gapBetween(a, b)
      const { angle, gap } = widestGap(of, start)
      expect(of(angle)).toBe(gap)
      const all = Array.from({ length: 1000 }, (_, k) => of((2 * Math.PI * k) / 1000))
      const widest = Math.max(...all)
      // what lies in one another may have more than one way out: the best of a fan is looked about
      const fan = Array.from({ length: 24 }, (_, k) => of(start + (2 * Math.PI * k) / 24))
      expect(gap).toBeGreaterThanOrEqual(widest > 0 ? widest - 1e-7 : Math.max(...fan) - 1e-12)
    }),
    { numRuns: 500 },
  )
})
