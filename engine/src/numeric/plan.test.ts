import fc from 'fast-check'
import { expect, test } from 'vitest'
import { kernReach, type Point2, polygonAround, sectionOf } from './plan.ts'

const rectangle = (b: number, l: number, [x, y]: Point2 = [0, 0]): Point2[] => [
  [x - b / 2, y - l / 2],
  [x + b / 2, y - l / 2],
  [x + b / 2, y + l / 2],
  [x - b / 2, y + l / 2],
]
const size = fc.double({ min: 0.1, max: 50, noNaN: true })
const place = fc.double({ min: -100, max: 100, noNaN: true })

test('a rectangle anywhere has its area, its middle, and b³l/12 about it', () => {
  fc.assert(
    fc.property(size, size, place, place, (b, l, x, y) => {
      const s = sectionOf(rectangle(b, l, [x, y]))
      expect(Math.abs(s.area / (b * l) - 1)).toBeLessThan(1e-9)
      expect(Math.hypot(s.centroid[0] - x, s.centroid[1] - y)).toBeLessThan(1e-9 * (b + l + 100))
      expect(Math.abs(s.xx / ((b ** 3 * l) / 12) - 1)).toBeLessThan(1e-6)
      expect(Math.abs(s.yy / ((l ** 3 * b) / 12) - 1)).toBeLessThan(1e-6)
    }),
  )
})

test('the polygon around a box along the axes has the area of the box', () => {
  const support = ([x, y]: Point2) => Math.abs(x) * 3 + Math.abs(y) * 2
  expect(sectionOf(polygonAround(support, 96)).area).toBeCloseTo(24, 9)
})

test('the polygon around a circle is larger by tan(π/n)/(π/n)', () => {
  const n = 96
  const { area } = sectionOf(polygonAround(([x, y]) => 5 * Math.hypot(x, y), n))
  expect(area / (25 * Math.PI)).toBeCloseTo(Math.tan(Math.PI / n) / (Math.PI / n), 9)
})

test('the kern of a rectangle reaches a sixth of each side, that of a circle a quarter of its radius', () => {
  const b = rectangle(6, 3)
  expect(kernReach(b, sectionOf(b), [1, 0])).toBeCloseTo(1, 9)
  expect(kernReach(b, sectionOf(b), [0, 1])).toBeCloseTo(0.5, 9)
  const circle = polygonAround(([x, y]) => 4 * Math.hypot(x, y), 360)
  expect(kernReach(circle, sectionOf(circle), [Math.SQRT1_2, Math.SQRT1_2])).toBeCloseTo(1, 3)
})

test('two-way off centre in a rectangle: the kern is a rhombus, 6 e_B/B + 6 e_L/L = 1', () => {
  const b = rectangle(4, 6)
  const way: Point2 = [0.6, 0.8]
  const reach = kernReach(b, sectionOf(b), way)
  expect((6 * reach * 0.6) / 4 + (6 * reach * 0.8) / 6).toBeCloseTo(1, 9)
})

test('a polygon of no area has no kern', () => {
  const line: Point2[] = [
    [0, 0],
    [1, 0],
    [2, 0],
  ]
  expect(sectionOf(line).area).toBe(0)
  expect(kernReach(line, sectionOf(line), [0, 1])).toBe(0)
})
