import { expect, test } from 'vitest'
import type { Body } from '../../numeric/body.ts'
import { AT_REST, IDENTITY, rotationAbout, type Vec3 } from '../../numeric/vector.ts'
import { nearestBetween, nearestOn } from './nearest.ts'

const away = (body: Body, p: Vec3): number | undefined => nearestOn([{ body, pose: AT_REST }], p)?.away

test('the nearest point of a box lies on its face, its edge or its corner', () => {
  const box: Body = { kind: 'box', centre: [0, 0, 0], half: [1, 2, 3], turn: IDENTITY }
  expect(away(box, [4, 0, 0])).toBeCloseTo(3, 12)
  expect(away(box, [4, 6, 0])).toBeCloseTo(5, 12)
  expect(away(box, [0.5, 0.5, 0.5])).toBe(0)
})

test('a ring is near at its rim, its bore, its ends and the edges of its sector', () => {
  const ring: Body = { kind: 'ring sector', inner: 4, outer: 6, rear: -1, front: 1, start: 0, sweep: Math.PI }
  expect(away(ring, [0, 0, 9])).toBeCloseTo(3, 12)
  expect(away(ring, [0, 0, 1])).toBeCloseTo(3, 12)
  expect(away(ring, [3, 0, 5])).toBeCloseTo(2, 12)
  // below the half ring: the nearest point is on the edge at angle 0, (y 5, z 0)
  expect(away(ring, [0, 5, -2])).toBeCloseTo(2, 12)
})

test('a cylinder is near at its side and its rim, wherever it is turned', () => {
  const cylinder: Body = { kind: 'frustum', from: [0, 0, 0], to: [0, 0, 4], radii: [1, 1] }
  expect(away(cylinder, [3, 0, 2])).toBeCloseTo(2, 12)
  expect(away(cylinder, [4, 0, 8])).toBeCloseTo(5, 12)
  const pose = { turn: rotationAbout('y', Math.PI / 2), shift: [0, 0, 0] as const }
  expect(nearestOn([{ body: cylinder, pose }], [2, 0, 3])?.away).toBeCloseTo(2, 12)
})

test('nothing is near where there is nothing', () => {
  expect(nearestOn([], [0, 0, 0])).toBeUndefined()
})

test('two boxes, a box and a cylinder, two cylinders: nearest points and the distance between them', () => {
  const boxAt = (x: number): Body => ({ kind: 'box', centre: [x, 0, 0], half: [1, 1, 1], turn: IDENTITY })
  const cylinderAt = (x: number): Body => ({ kind: 'frustum', from: [x, 0, -3], to: [x, 0, 3], radii: [1, 1] })
  const one = (body: Body) => [{ body, pose: AT_REST }]
  expect(nearestBetween(one(boxAt(0)), one(boxAt(5)), [2, 7, 3])?.away).toBeCloseTo(3, 6)
  expect(nearestBetween(one(boxAt(0)), one(cylinderAt(4)), [1, 3, 2])?.away).toBeCloseTo(2, 6)
  expect(nearestBetween(one(cylinderAt(0)), one(cylinderAt(6)), [3, 3, 0])?.away).toBeCloseTo(4, 5)
})
