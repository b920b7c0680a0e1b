import { expect, test } from 'vitest'
import type { PaperPoint } from '../drawing.ts'
import { asOne, grain, grainOf, grainsOf, hatch } from './hatch.ts'

const square = (left: number, top: number, side: number): PaperPoint[] => [
  [left, top],
  [left + side, top],
  [left + side, top + side],
  [left, top + side],
]
const lengths = (lines: ReturnType<typeof hatch>): number =>
  lines.reduce(
    (sum, { points: [a, b] }) => sum + Math.hypot((b?.[0] ?? 0) - (a?.[0] ?? 0), (b?.[1] ?? 0) - (a?.[1] ?? 0)),
    0,
  )

test('hatch covers an area with about area over spacing of line, at any angle', () => {
  for (const angle of [0, 0.4, Math.PI / 4, -Math.PI / 4, 1.3]) {
    expect(lengths(hatch([square(3, 7, 40)], 0.5, angle))).toBeCloseTo((40 * 40) / 0.5, -2)
  }
})

test('a hole is left bare', () => {
  const lines = hatch([square(0, 0, 40), square(10, 10, 20)], 1, Math.PI / 4)
  const middle = (points: readonly PaperPoint[]): PaperPoint => [
    ((points[0]?.[0] ?? 0) + (points[1]?.[0] ?? 0)) / 2,
    ((points[0]?.[1] ?? 0) + (points[1]?.[1] ?? 0)) / 2,
  ]
  expect(lines.map((l) => middle(l.points)).some(([x, y]) => x > 10.5 && x < 29.5 && y > 10.5 && y < 29.5)).toBe(false)
  expect(lengths(lines)).toBeCloseTo(40 * 40 - 20 * 20, -2)
})

test('the name of a layer chooses its grain', () => {
  expect(
    [
      'medium dense sand',
      'soft estuarine clay',
      'very stiff till',
      'made ground',
      'dense gravelly sand with cobbles',
    ].map(grainOf),
  ).toEqual(['sand', 'clay', 'till', 'made ground', 'gravel'])
})

test('a layer of several soils shows each of them', () => {
  expect(grainsOf('dense gravelly sand with cobbles')).toEqual(['sand', 'gravel', 'cobbles'])
  expect(grainsOf('fine silty sand, confined')).toEqual(['sand', 'silt'])
  expect(grainsOf('hard laminated clay')).toEqual(['clay'])
  expect(grainsOf('very stiff till')).toEqual(['till'])
  expect(grainsOf('made ground, sand and brick')).toEqual(['made ground'])
})

test('grain stays in its box, and as one path it has the same strokes', () => {
  for (const kind of ['clay', 'silt', 'sand', 'gravel', 'cobbles', 'till', 'made ground', 'rock'] as const) {
    const lines = grain(kind, { left: 10, right: 40, top: 5, bottom: 17 })
    expect(lines.length).toBeGreaterThan(3)
    for (const [x, y] of lines.flatMap((l) => l.points)) {
      expect(x).toBeGreaterThanOrEqual(10)
      expect(x).toBeLessThanOrEqual(40)
      expect(y).toBeGreaterThanOrEqual(5)
      expect(y).toBeLessThanOrEqual(17)
    }
    expect(asOne(lines)[0]?.loops).toHaveLength(lines.length)
  }
})
