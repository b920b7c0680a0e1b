import { expect, test } from 'vitest'
import type { Body } from '../numeric/body.ts'
import { AT_REST, dot, IDENTITY, norm, type Pose, rotationAbout, subtract, type Vec3 } from '../numeric/vector.ts'
import { touchPoints } from './press-points.ts'
import { cellsOf, type PartCells } from './shape.ts'

const DEG = Math.PI / 180
const GAP = 0.001
const UP: Vec3 = [0, 0, 1]

const part = (bodies: readonly Body[], pose: Pose = AT_REST): PartCells =>
  cellsOf(
    'part',
    bodies.map((body) => ({ op: 'add', body })),
    pose,
  )
const block = (low: Vec3, high: Vec3): Body => ({
  kind: 'box',
  centre: [0, 1, 2].map((i) => ((low[i] as number) + (high[i] as number)) / 2) as unknown as Vec3,
  half: [0, 1, 2].map((i) => ((high[i] as number) - (low[i] as number)) / 2) as unknown as Vec3,
  turn: IDENTITY,
})
const ring = (inner: number, outer: number, rear: number, front: number, from = 0, to = 360): Body => ({
  kind: 'ring sector',
  inner,
  outer,
  rear,
  front,
  start: from * DEG,
  sweep: (to - from) * DEG,
})
/** Points to a hundredth of a millimetre, each once. */
const rounded = (points: readonly { at: Vec3 }[]) =>
  [...new Set(points.map(({ at }) => at.map((x) => (Math.round(x * 1e5) / 1e5 + 0).toString()).join(' ')))].sort()

test('a block half over the edge of a table presses on the corners of what lies on it', () => {
  const found = touchPoints(part([block([-1, 0, 0], [1, 1, 1])]), part([block([0, -5, -1], [9, 9, 0])]), GAP)
  expect(rounded(found)).toEqual(['0 0 0', '0 1 0', '1 0 0', '1 1 0'])
  for (const { into } of found) expect(into).toEqual(UP)
})

test('blocks that meet along an edge, at a corner or not at all hold nothing', () => {
  const first = part([block([0, 0, 0], [1, 1, 1])])
  for (const other of [block([1, 0, 1], [2, 1, 2]), block([1, 1, 1], [2, 2, 2]), block([0, 0, 1.01], [1, 1, 2])])
    expect(touchPoints(first, part([other]), GAP)).toEqual([])
})

test('a journal in a half bearing presses along its arc, at both ends of the shared length, towards the axis', () => {
  const saddle = part([ring(1, 1.5, 0, 2, 180, 360)])
  const found = touchPoints(part([ring(0.8, 1, -1, 1)]), saddle, GAP)
  expect(found.length).toBeGreaterThan(30)
  for (const { at, into } of found) {
    expect(Math.hypot(at[1], at[2])).toBeCloseTo(1, 9)
    expect(dot(into, [0, at[1], at[2]])).toBeCloseTo(-1, 9)
  }
  expect(new Set(found.map(({ at }) => Math.round(1e6 * at[0])))).toEqual(new Set([0, 1e6]))
})

test('a cylinder that lies on a floor presses along one line', () => {
  const found = touchPoints(part([ring(0, 1, 0, 3)]), part([block([-1, -3, -2], [5, 3, -1])]), GAP)
  expect(rounded(found)).toEqual(['0 0 -1', '3 0 -1'])
})

test('two flanges press over the ring they share; a disc in the hole of a flange does not touch it', () => {
  const flange = part([ring(2, 3, 0, 0.1)])
  const found = touchPoints(part([ring(2.2, 2.8, 0.1, 0.5)]), flange, GAP)
  for (const { at, into } of found) {
    expect(at[0]).toBeCloseTo(0.1, 9)
    expect(into).toEqual([1, 0, 0])
    expect(norm([0, at[1], at[2]])).toBeGreaterThan(2.75)
  }
  expect(found.length).toBeGreaterThan(11)
  expect(touchPoints(part([ring(0, 1.5, 0.1, 0.5)]), flange, GAP)).toEqual([])
})

test('turning both parts turns their points', () => {
  const pose: Pose = { turn: rotationAbout('y', 0.7), shift: [3, -2, 1] }
  const bodies = [block([-1, 0, 0], [1, 1, 1]), block([0, -5, -1], [9, 9, 0])] as const
  const found = touchPoints(part([bodies[0]], pose), part([bodies[1]], pose), GAP)
  expect(found.length).toBe(4)
  const normal: Vec3 = [Math.sin(0.7), 0, Math.cos(0.7)]
  for (const { into } of found) expect(norm(subtract(into, normal))).toBeLessThan(1e-9)
})
