import fc from 'fast-check'
import { expect, test } from 'vitest'
import { convexHull } from '../../numeric/polygon.ts'
import { loopArea, type Point2 } from './convex.ts'
import { nearestOnSegment } from './distance.ts'
import { unionOutline } from './union.ts'

const square = (left: number, bottom: number, side = 1): Point2[] => [
  [left, bottom],
  [left + side, bottom],
  [left + side, bottom + side],
  [left, bottom + side],
]
const areaOf = (loops: readonly Point2[][]) => loops.reduce((sum, loop) => sum + loopArea(loop), 0)

test('two squares side by side are one rectangle of four corners', () => {
  const loops = unionOutline([square(0, 0), square(1, 0)])
  expect(loops).toHaveLength(1)
  expect(loops[0]).toHaveLength(4)
  expect(areaOf(loops)).toBeCloseTo(2, 9)
})

test('two squares that overlap by a quarter cover 1.75', () => {
  expect(areaOf(unionOutline([square(0, 0), square(0.5, 0.5)]))).toBeCloseTo(1.75, 9)
})

test('the same square twice is one square', () => {
  expect(areaOf(unionOutline([square(0, 0), square(0, 0)]))).toBeCloseTo(1, 9)
})

test('a frame of wedges has a hole: its outline runs the other way round inside', () => {
  const wedge = (k: number): Point2[] => {
    const [a, b] = [(k * Math.PI) / 18, ((k + 1) * Math.PI) / 18]
    return [a, b].flatMap((t): Point2[] => [
      [2 * Math.cos(t), 2 * Math.sin(t)],
      [3 * Math.cos(t), 3 * Math.sin(t)],
    ])
  }
  const loops = unionOutline(Array.from({ length: 36 }, (_, k) => wedge(k)))
  expect(loops.map((loop) => Math.sign(loopArea(loop))).sort()).toEqual([-1, 1])
  // area of a regular 36-gon of radius r: 18 r² sin 10°
  expect(areaOf(loops)).toBeCloseTo(18 * (9 - 4) * Math.sin(Math.PI / 18), 3)
})

test('the outline of random convex polygons encloses just what they cover', () => {
  const polygon = fc
    .tuple(
      fc.integer({ min: 0, max: 40 }),
      fc.integer({ min: 0, max: 40 }),
      fc.array(fc.tuple(fc.nat(30), fc.nat(30)), { minLength: 3, maxLength: 7 }),
    )
    .map(([u, v, points]) => convexHull(points.map(([a, b]): Point2 => [(u + a) / 10, (v + b) / 10])))
    .filter((hull) => hull.length > 2)
  fc.assert(
    fc.property(fc.array(polygon, { minLength: 1, maxLength: 9 }), (polygons) => {
      const loops = unionOutline(polygons)
      // a point on an edge is on either side of it: rounding decides
      const onAnEdge = (p: Point2): boolean => polygons.some((hull) => awayFrom(hull, p) < 3e-4)
      for (let u = 0.0337; u < 7.1; u += 0.31)
        for (let v = 0.0419; v < 7.1; v += 0.29) {
          const p: Point2 = [u, v]
          if (onAnEdge(p)) continue
          expect(Math.abs(windings(loops, p)) > 0.5).toBe(polygons.some((hull) => windings([hull], p) > 0.5))
        }
    }),
    { numRuns: 120 },
  )
})

test('polygons a hair off one another, turned by next to nothing, still give closed outlines of the right area', () => {
  const turned = (points: readonly Point2[], angle: number): Point2[] =>
    points.map(([u, v]) => [u * Math.cos(angle) - v * Math.sin(angle), u * Math.sin(angle) + v * Math.cos(angle)])
  const hair = fc.double({ min: -2e-3, max: 2e-3, noNaN: true })
  const nearly = fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 2 }), hair, hair)
  fc.assert(
    fc.property(fc.array(nearly, { minLength: 2, maxLength: 12 }), (list) => {
      const polygons = list.map(([i, j, angle, off]) => turned(square(i + off, j), angle))
      const loops = unionOutline(polygons)
      for (let u = 0.0337; u < 6.5; u += 0.217)
        for (let v = 0.0419; v < 3.5; v += 0.193) {
          const p: Point2 = [u, v]
          const inside = polygons.some((polygon) => windings([polygon], p) > 0.5)
          const edge = polygons.some((polygon) => awayFrom(polygon, p) < 3e-4)
          if (!edge) expect(windings(loops, p)).toBeCloseTo(inside ? 1 : 0, 6)
        }
    }),
    { numRuns: 60 },
  )
})

test('a corner made of two points one step of the grid apart stays a corner', () => {
  const turned: Point2[] = [
    [0, 1],
    [1, 1],
    [1.0001, 2],
    [0.0001, 2],
  ]
  const loops = unionOutline([turned, square(0, 0), square(0, 1)])
  expect(windings(loops, [0.5, 1.5])).toBeCloseTo(1, 6)
  expect(windings(loops, [0.1, 1.95])).toBeCloseTo(1, 6)
})

/** Distance from a point to the nearest side of a loop. */
const awayFrom = (loop: readonly Point2[], p: Point2): number =>
  Math.min(
    ...loop.map((a, i) => {
      const q = nearestOnSegment(p, a, loop[(i + 1) % loop.length] as Point2)
      return Math.hypot(p[0] - q[0], p[1] - q[1])
    }),
  )

/** How often loops run round a point: by the sum of the angles. */
function windings(loops: readonly Point2[][], [u, v]: Point2): number {
  const turn = loops.reduce(
    (sum, loop) =>
      sum +
      loop.reduce((inner, a, i) => {
        const b = loop[(i + 1) % loop.length] as Point2
        const [x1, y1, x2, y2] = [a[0] - u, a[1] - v, b[0] - u, b[1] - v]
        return inner + Math.atan2(x1 * y2 - x2 * y1, x1 * x2 + y1 * y2)
      }, 0),
    0,
  )
  return turn / (2 * Math.PI)
}
