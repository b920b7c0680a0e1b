import { expect, test } from 'vitest'
import type { Body } from '../numeric/body.ts'
import { freedomOf } from '../numeric/freedom.ts'
import { AT_REST, IDENTITY, type Pose, rotationAbout, scale, type Vec3 } from '../numeric/vector.ts'
import { contactNormals } from './contact.ts'
import { cellsOf, type PartCells } from './shape.ts'

const DEG = Math.PI / 180
const GAP = 0.001

function part(bodies: readonly Body[], pose: Pose = AT_REST): PartCells {
  return cellsOf(
    'part',
    bodies.map((body) => ({ op: 'add', body })),
    pose,
  )
}
const ring = (inner: number, outer: number, rear: number, front: number, from = 0, to = 360): Body => ({
  kind: 'ring sector',
  inner,
  outer,
  rear,
  front,
  start: from * DEG,
  sweep: (to - from) * DEG,
})
const block = (centre: Vec3, size: Vec3): Body => ({ kind: 'box', centre, half: scale(size, 0.5), turn: IDENTITY })
const freedom = (a: PartCells, b: PartCells) => freedomOf(contactNormals(a, b, GAP))

test('a block on a table may go anywhere but down', () => {
  const found = freedom(part([block([0, 0, 0.5], [1, 1, 1])]), part([block([0, 0, -0.5], [9, 9, 1])]))
  expect(found.solidAngle).toBeCloseTo(2 * Math.PI, 9)
})

test('a bearing ring in its seat with a shoulder behind it leaves forward only', () => {
  const seat = part([ring(3.02, 3.3, -1, 1), ring(2.62, 3.3, -1.2, -1)])
  const bearing = part([ring(2.6, 3.02, -1, 0)])
  const { dimension, rays } = freedom(bearing, seat)
  expect(dimension).toBe(1)
  expect(rays.map((r) => r[0])).toEqual([1])
  const back = freedom(seat, bearing)
  expect(back.rays.map((r) => r[0])).toEqual([-1])
})

test('the crown segment between its neighbours leaves upwards in a wedge of 60 degrees', () => {
  const crown = part([ring(5.9, 6.1, 0, 2, 60, 120)])
  const beside = [ring(5.9, 6.1, 0, 2, 0, 60), ring(5.9, 6.1, 0, 2, 120, 180)].map((b) => part([b]))
  const normals = beside.flatMap((b) => contactNormals(crown, b, GAP))
  expect(normals).toHaveLength(2)
  // Radial faces 60 degrees apart: the wedge they leave free opens by as much, and a wedge of angle w has 2 w of solid angle.
  expect(freedomOf(normals).solidAngle).toBeCloseTo(2 * (60 * DEG), 6)
})

test('faces a gap apart touch only when the gap is within the limit', () => {
  const [a, b] = [part([block([0, 0, 0.5], [1, 1, 1])]), part([block([0, 0, -0.505], [1, 1, 1])])]
  expect(contactNormals(a, b, 0.001)).toHaveLength(0)
  expect(contactNormals(a, b, 0.006)).toHaveLength(1)
})

test('blocks that meet in an edge hold nothing', () => {
  expect(contactNormals(part([block([0, 0, 0], [1, 1, 1])]), part([block([1, 0, 1], [1, 1, 1])]), GAP)).toHaveLength(0)
})

test('a roller in a trough touches its two sides, whatever way the trough is turned', () => {
  for (const roll of [0, 20, 130]) {
    const pose: Pose = { turn: rotationAbout('x', roll * DEG), shift: [1, 2, 3] }
    const roller = part([{ kind: 'frustum', from: [-1, 0, 0], to: [1, 0, 0], radii: [0.5, 0.5] }], pose)
    const trough = part([block([0, 1, 0], [4, 1, 3]), block([0, 0, -1], [4, 1, 1])], pose)
    const { dimension, solidAngle } = freedom(roller, trough)
    expect(dimension).toBe(3)
    expect(solidAngle).toBeCloseTo(Math.PI, 6)
  }
})
