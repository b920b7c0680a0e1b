import { expect, test } from 'vitest'
import type { Body } from '../../numeric/body.ts'
import { AT_REST, IDENTITY, rotationAbout, type Vec3, ZERO } from '../../numeric/vector.ts'
import { loopArea, type Point2 } from './convex.ts'
import { distanceBetween, grown } from './distance.ts'
import { outlineMemory } from './memory.ts'
import { LOOKING_DOWN, LOOKING_FORWARD, LOOKING_LEFT, moved, section, silhouette } from './picture.ts'

const areaOf = (loops: readonly (readonly Point2[])[]): number => loops.reduce((sum, loop) => sum + loopArea(loop), 0)
const at = (body: Body) => [{ body, pose: AT_REST }]
const boxOf = (half: Vec3): Body => ({ kind: 'box', centre: ZERO, half, turn: IDENTITY })
const ring = (sweep = 2 * Math.PI): Body => ({
  kind: 'ring sector',
  inner: 4,
  outer: 6,
  rear: -1,
  front: 2,
  start: 0.3,
  sweep,
})

test('a ring seen along its axis is an annulus, seen from the side a rectangle', () => {
  // π(R² − r²) less the chords, and length × diameter
  expect(areaOf(silhouette(at(ring()), LOOKING_FORWARD, 1e-3))).toBeCloseTo(Math.PI * (36 - 16), 1)
  expect(areaOf(silhouette(at(ring()), LOOKING_LEFT, 1e-3))).toBeCloseTo(3 * 12, 1)
})

test('half a ring covers half of what the ring does along its axis', () => {
  expect(areaOf(silhouette(at(ring(Math.PI)), LOOKING_FORWARD, 1e-3))).toBeCloseTo((Math.PI * 20) / 2, 1)
})

test('a ball is a disc from anywhere', () => {
  const ball: Body = { kind: 'ball', centre: [1, 2, 3], radius: 2 }
  for (const look of [LOOKING_DOWN, LOOKING_FORWARD, LOOKING_LEFT])
    expect(areaOf(silhouette(at(ball), look, 1e-3))).toBeCloseTo(4 * Math.PI, 1)
})

test('a cut through a ring along its axis is two rectangles', () => {
  const loops = section(at(ring()), { look: LOOKING_LEFT, through: [0, 0, 0] }, 1e-4)
  expect(loops).toHaveLength(2)
  expect(areaOf(loops)).toBeCloseTo(2 * 3 * 2, 2)
})

test('a box turned on its edge shows its diagonal', () => {
  const pose = { turn: rotationAbout('y', Math.PI / 4), shift: [0, 0, 0] as const }
  const loops = silhouette(moved(at(boxOf([1, 1, 1])), pose), LOOKING_DOWN, 1e-3)
  expect(areaOf(loops)).toBeCloseTo(2 * 2 * Math.SQRT2, 3)
})

test('an outline remembered and turned about the look is the outline of the turned body', () => {
  const bodies = [...at(ring(2)), ...at(boxOf([1, 2, 3]))]
  const remembered = outlineMemory(bodies, 1e-3)
  remembered(AT_REST, LOOKING_LEFT)
  for (const angle of [0.2, 1.1, -0.7]) {
    const pose = { turn: rotationAbout('y', angle), shift: [3, 1, -2] as const }
    const [again, fresh] = [remembered(pose, LOOKING_LEFT), silhouette(moved(bodies, pose), LOOKING_LEFT, 1e-3)]
    expect(areaOf(again)).toBeCloseTo(areaOf(fresh), 2)
    expect(
      distanceBetween(
        again,
        fresh.map((l) => l.map(([u, v]): Point2 => [u + 100, v])),
      ).gap,
    ).toBeCloseTo(
      distanceBetween(
        fresh,
        fresh.map((l) => l.map(([u, v]): Point2 => [u + 100, v])),
      ).gap,
      2,
    )
  }
})

const square = (left: number): Point2[] => [
  [left, 0],
  [left + 1, 0],
  [left + 1, 1],
  [left, 1],
]

test('outlines side by side are as far apart as the room between them; one within the other has none', () => {
  expect(distanceBetween([square(0)], [square(3)]).gap).toBeCloseTo(2, 12)
  expect(
    distanceBetween(
      [square(0)],
      [
        [
          [0.2, 0.2],
          [0.4, 0.2],
          [0.3, 0.4],
        ],
      ],
    ).gap,
  ).toBe(0)
  expect(distanceBetween([square(0)], [square(0.5)]).gap).toBe(0)
})

test('a square grown by a gap has the area of Steiner: square + perimeter × gap + a disc', () => {
  // Steiner's formula for convex sets; round corners are drawn as chords
  expect(loopArea(grown(square(0), 0.5))).toBeCloseTo(1 + 4 * 0.5 + Math.PI * 0.25, 1)
})
