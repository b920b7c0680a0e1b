import { expect, test } from 'vitest'
import { spreadDirections } from './directions.ts'
import { dot, norm, scale, subtract, unit, type Vec3 } from './vector.ts'

test('no direction lies farther from the nearest of a spread than it says, and some lie nearly as far', () => {
  for (const n of [1, 2]) {
    const { directions, coverage } = spreadDirections(n)
    const samples = Array.from({ length: 40_000 }, (_, i): Vec3 => {
      const z = 1 - (2 * i + 1) / 40_000
      const r = Math.sqrt(1 - z * z)
      return [r * Math.cos(i * 2.399963), r * Math.sin(i * 2.399963), z]
    })
    const nearest = samples.map((s) => Math.acos(Math.min(1, Math.max(...directions.map((d) => dot(d, s))))))
    const farthest = nearest.reduce((most, a) => Math.max(most, a), 0)
    expect(farthest).toBeLessThanOrEqual(coverage + 1e-9)
    expect(farthest).toBeGreaterThan(0.97 * coverage)
  }
})

test('a spread holds the axes, and with each direction its opposite', () => {
  const { directions } = spreadDirections(1)
  expect(directions).toHaveLength(26)
  for (const axis of [
    [1, 0, 0],
    [0, -1, 0],
    [0, 0, 1],
  ] as Vec3[])
    expect(directions.some((d) => norm(subtract(d, axis)) < 1e-12)).toBe(true)
  for (const d of directions) expect(directions.some((e) => norm(subtract(e, scale(d, -1))) < 1e-12)).toBe(true)
  expect(directions.every((d) => norm(subtract(d, unit(d))) < 1e-12)).toBe(true)
})
