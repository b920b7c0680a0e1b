import fc from 'fast-check'
import { expect, test } from 'vitest'
import { freedomOf, wrapNormals } from './freedom.ts'
import { apply, dot, multiply, rotationAbout, scale, unit, type Vec3 } from './vector.ts'

const DEG = Math.PI / 180

test('a journal in half a bore leaves straight out or along the axis, and nothing lies between', () => {
  const { dimension, rays } = freedomOf(wrapNormals([0, 0, -1], [1, 0, 0], 90 * DEG, true))
  expect(dimension).toBe(2)
  for (const ray of rays) expect(Math.abs(ray[0])).toBeLessThan(1e-9)
  expect(rays.some((ray) => ray[2] > 0.999)).toBe(true)
})

test('a bore that wraps more than half keeps its journal, save along the axis', () => {
  const { dimension, rays } = freedomOf(wrapNormals([0, 0, -1], [1, 0, 0], 100 * DEG, true))
  expect(dimension).toBe(1)
  expect(rays.length).toBe(2)
  for (const ray of rays) expect(Math.abs(ray[1])).toBeCloseTo(1, 12)
})

test('a tongue in a slot at 37 degrees is free along just that line', () => {
  const tilt = rotationAbout('y', -37 * DEG)
  const normals = [
    [0, 0, 1],
    [0, 0, -1],
    [0, 1, 0],
    [0, -1, 0],
  ].map((n) => apply(tilt, n as unknown as Vec3))
  const { dimension, rays } = freedomOf(normals)
  expect(dimension).toBe(1)
  expect(Math.atan2(Math.abs(rays[0]?.[2] ?? 0), Math.abs(rays[0]?.[0] ?? 0)) / DEG).toBeCloseTo(37, 9)
})

test('normals that a hair parts say what one says: rounding opens no direction and closes none', () => {
  const floor: Vec3 = [0, 0, 1]
  const near = unit([1e-7, -2e-7, 1])
  expect(freedomOf([floor, near]).solidAngle).toBeCloseTo(2 * Math.PI, 12)
  expect(freedomOf([floor, scale(near, -1)]).dimension).toBe(2)
  expect(freedomOf([unit([0.6, 0, -0.8]), unit([0, 7.5e-10, -1]), [-1, 0, 0]]).dimension).toBe(3)
})

test('the solid angle does not change when the whole is turned, and sampling finds the same', () => {
  const real = fc.double({ min: -1, max: 1, noNaN: true })
  const normal = fc
    .tuple(real, real, real)
    .filter((v) => Math.hypot(...v) > 0.1)
    .map((v) => unit(v))
  const samples = Array.from({ length: 4000 }, (_, i): Vec3 => {
    const z = 1 - (2 * i + 1) / 4000
    const r = Math.sqrt(1 - z * z)
    return [r * Math.cos(i * 2.399963), r * Math.sin(i * 2.399963), z]
  })
  fc.assert(
    fc.property(fc.array(normal, { minLength: 1, maxLength: 6 }), real, real, (normals, a, b) => {
      const turn = multiply(rotationAbout('x', 3 * a), rotationAbout('z', 3 * b))
      const { solidAngle } = freedomOf(normals)
      expect(freedomOf(normals.map((n) => apply(turn, n))).solidAngle).toBeCloseTo(solidAngle, 6)
      const share = samples.filter((d) => normals.every((n) => dot(n, d) >= 0)).length / samples.length
      expect(Math.abs(share * 4 * Math.PI - solidAngle)).toBeLessThan(0.12)
    }),
    { numRuns: 100 },
  )
})
