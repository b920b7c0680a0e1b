import fc from 'fast-check'
import { expect, test } from 'vitest'
import { arcOf, extentOf, greatestRadius, type Hull, hullOf, movedHull, placedHull, reachAlong } from './hull.ts'
import { separation } from './separation.ts'
import { add, multiply, norm, rotationAbout, scale, subtract, type Vec3 } from './vector.ts'

const FAR = 1e6

function box([x, y, z]: Vec3, [a, b, c]: Vec3): Hull {
  const signs = [-1, 1]
  return hullOf(signs.flatMap((i) => signs.flatMap((j) => signs.map((k): Vec3 => [x + i * a, y + j * b, z + k * c]))))
}

const disc = (centre: Vec3, radius: number) => arcOf(centre, [0, 1, 0], [0, 0, 1], radius, Math.PI)
const cylinder = (x0: number, x1: number, y: number, z: number, radius: number): Hull =>
  hullOf([], [disc([x0, y, z], radius), disc([x1, y, z], radius)])

const real = (size: number) => fc.double({ min: -size, max: size, noNaN: true })
const point = fc.tuple(real(5), real(5), real(5))
const size = fc.double({ min: 0.1, max: 3, noNaN: true })
const sizes = fc.tuple(size, size, size)

/** Distance of upright boxes, or minus the depth: three intervals. */
function boxesApart(p: Vec3, a: Vec3, q: Vec3, b: Vec3): number {
  const apart = [0, 1, 2].map(
    (i) => Math.abs((p[i] as number) - (q[i] as number)) - (a[i] as number) - (b[i] as number),
  )
  const most = Math.max(...apart)
  return most <= 0 ? most : Math.hypot(...apart.map((x) => Math.max(0, x)))
}

const signed = (s: ReturnType<typeof separation>): number => (s.gap > 0 ? s.gap : -s.depth[1])

test('upright boxes lie as far apart, or as deep in each other, as their intervals say', () => {
  fc.assert(
    fc.property(point, sizes, point, sizes, (p, a, q, b) => {
      const found = separation(box(p, a), box(q, b), FAR, 0)
      const due = boxesApart(p, a, q, b)
      expect(Math.abs(signed(found) - due)).toBeLessThan(2e-5)
      if (due >= 0) return
      // The search may end once the depth is known to a fiftieth; its bounds are sure all the same.
      expect(found.depth[0]).toBeLessThan(-due + 1e-9)
      expect(found.depth[0]).toBeGreaterThan(-0.98 * due - 1e-6)
    }),
    { numRuns: 500 },
  )
})

test('balls, and cylinders with one direction of axis, lie as far apart as their centre lines less their radii', () => {
  fc.assert(
    fc.property(point, size, point, size, (p, a, q, b) => {
      const balls = separation(hullOf([p], [], a), hullOf([q], [], b), FAR, 0)
      expect(signed(balls)).toBeCloseTo(norm(subtract(p, q)) - a - b, 6)
      const across = Math.hypot(p[1] - q[1], p[2] - q[2]) - a - b
      const rods = separation(cylinder(-50, 50, p[1], p[2], a), cylinder(-50, 50, q[1], q[2], b), FAR, 0)
      if (across > 0) expect(rods.gap).toBeCloseTo(across, 3)
      else {
        expect(rods.depth[0]).toBeLessThan(-across + 1e-6)
        expect(rods.depth[1]).toBeGreaterThan(-across - 1e-6)
        expect(rods.depth[1]).toBeLessThan(-1.03 * across + 1e-6)
      }
    }),
    { numRuns: 200 },
  )
})

test('the gap does not depend on the frame, and its point lies between the two', () => {
  fc.assert(
    fc.property(point, sizes, point, sizes, real(3), real(3), point, (p, a, q, b, roll, yaw, shift) => {
      const pose = { turn: multiply(rotationAbout('z', yaw), rotationAbout('x', roll)), shift }
      const here = separation(box(p, a), box(q, b), FAR, 0)
      const there = separation(placedHull(box(p, a), pose), placedHull(box(q, b), pose), FAR, 0)
      expect(signed(there)).toBeCloseTo(signed(here), 5)
      if (here.gap > 0.01) {
        const half = scale(here.normal, here.gap / 2 + 1e-6)
        expect(boxesApart(add(here.at, half), [0, 0, 0], q, b)).toBeLessThan(1e-4)
        expect(boxesApart(subtract(here.at, half), [0, 0, 0], p, a)).toBeLessThan(1e-4)
      }
    }),
    { numRuns: 200 },
  )
})

test('a swept body reaches as near as it does at the nearest of many stops', () => {
  fc.assert(
    fc.property(point, sizes, point, sizes, point, (p, a, q, b, by) => {
      const swept = separation(movedHull(box(p, a), [0, 0, 0], by), box(q, b), FAR, 0)
      const stops = Array.from({ length: 201 }, (_, i) => boxesApart(add(p, scale(by, i / 200)), a, q, b))
      const nearest = Math.min(...stops)
      if (nearest > 0.05) expect(Math.abs(swept.gap - nearest)).toBeLessThan(0.05)
      if (nearest < 0) expect(swept.gap).toBe(0)
    }),
    { numRuns: 300 },
  )
})

test('a search that may end early still gives a sure bound and a sure side of the tolerance', () => {
  fc.assert(
    fc.property(point, sizes, point, sizes, (p, a, q, b) => {
      const due = boxesApart(p, a, q, b)
      const found = separation(box(p, a), box(q, b), 0.5, 0.1)
      if (due > 0) expect(found.gap).toBeLessThanOrEqual(due + 1e-9)
      if (due > 0.5) expect(found.gap).toBeGreaterThan(0.49)
      if (due < -0.1001) expect(found.depth[0]).toBeGreaterThan(0.1)
      if (due < 0 && due > -0.0999) expect(found.depth[1]).toBeLessThanOrEqual(0.1)
    }),
    { numRuns: 500 },
  )
})

test('an arc reaches as far as a fine polygon of it', () => {
  fc.assert(
    fc.property(point, fc.double({ min: 0.05, max: 3.1, noNaN: true }), size, point, (c, half, radius, d) => {
      const arc = hullOf([], [arcOf(c, [0, 1, 0], [0, 0, 1], radius, half)])
      const fine = Array.from({ length: 4001 }, (_, i) => {
        const t = half * (i / 2000 - 1)
        return add(c, [0, radius * Math.cos(t), radius * Math.sin(t)])
      })
      const polygon = hullOf(fine)
      expect(reachAlong(arc, d)).toBeGreaterThanOrEqual(reachAlong(polygon, d) - 1e-9)
      expect(reachAlong(arc, d)).toBeLessThan(reachAlong(polygon, d) + 1e-4)
      const radius1 = greatestRadius(arc, [0, 1, 0.5], [1, 0, 0])
      const radius2 = greatestRadius(polygon, [0, 1, 0.5], [1, 0, 0])
      expect(radius1).toBeCloseTo(radius2, 4)
    }),
  )
})

test('the bounds of a lying cylinder are its length and its diameter', () => {
  const bounds = extentOf(cylinder(-2, 3, 1, -1, 0.5))
  for (const [i, due] of [-2, 0.5, -1.5, 3, 1.5, -0.5].entries()) expect(bounds[i]).toBeCloseTo(due, 12)
})
