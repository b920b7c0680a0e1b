import fc from 'fast-check'
import { expect, test } from 'vitest'
import { boxMesh, ringProfile, turnedProfile } from '../mass/solid.fixture.ts'
import type { Body } from '../numeric/body.ts'
import type { Mesh } from '../numeric/mesh.ts'
import { meshIntegrals, turnedInsideOut } from '../numeric/mesh.ts'
import { AT_REST, IDENTITY, type Vec3, ZERO } from '../numeric/vector.ts'
import { overlapOf } from './overlap.ts'
import { cellsOf, type PartCells } from './shape.ts'

const TOLERANCE = 0.002

const partOf = (id: string, body: Body): PartCells => cellsOf(id, [{ op: 'add', body }], AT_REST)
const meshPart = (id: string, mesh: Mesh): PartCells => partOf(id, { kind: 'mesh', mesh, scale: 1, at: ZERO })
const boxPart = (id: string, centre: Vec3, half: Vec3): PartCells =>
  partOf(id, { kind: 'box', centre, half, turn: IDENTITY })
type V2 = readonly [number, number]
const depthOf = (a: PartCells, b: PartCells): number => overlapOf(a, b, TOLERANCE)?.depth ?? 0

test('two boxes as meshes overlap just when their intervals do, faces in one plane or not, and no deeper than it takes to part them', () => {
  const side = fc
    .tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 2, max: 6 }))
    .map(([at, size]) => [at / 4, (at + size) / 4] as const)
  const box = fc.tuple(side, side, side)
  const count = { apart: 0, overlapping: 0 }
  fc.assert(
    fc.property(box, box, (a, b) => {
      const [p, q] = [a, b].map((sides, i) =>
        meshPart(`${i}`, boxMesh(sides.map((s) => s[0]) as unknown as Vec3, sides.map((s) => s[1]) as unknown as Vec3)),
      ) as [PartCells, PartCells]
      const out = Math.min(...a.map(([a0, a1], i) => Math.min(a1 - (b[i] as V2)[0], (b[i] as V2)[1] - a0)))
      const depth = depthOf(p, q)
      count[out > 0 ? 'overlapping' : 'apart']++
      expect(depth > TOLERANCE).toBe(out > 0)
      expect(depth).toBeLessThanOrEqual(Math.max(0, out) + 1e-6)
    }),
    { numRuns: 150, seed: 5 },
  )
  expect(Math.min(count.apart, count.overlapping)).toBeGreaterThan(20)
})

test('what lies wholly inside a mesh overlaps it, drawn or a mesh itself', () => {
  const outer = meshPart('outer', boxMesh([-2, -2, -2], [2, 2, 2]))
  expect(depthOf(outer, meshPart('inner', boxMesh([-0.3, -0.4, -0.5], [0.3, 0.4, 0.5])))).toBeGreaterThan(0.5)
  expect(depthOf(boxPart('inner', ZERO, [0.3, 0.4, 0.5]), outer)).toBeCloseTo(0.6, 3)
})

test('a shaft in the hole of a ring, both meshes, is in no solid', () => {
  const raw = turnedProfile(ringProfile(1, 2, [-1, 1]), 0, 2 * Math.PI, 24)
  const ring = meshPart('ring', meshIntegrals(raw).volume < 0 ? turnedInsideOut(raw) : raw)
  expect(depthOf(ring, meshPart('shaft', boxMesh([-3, -0.5, -0.5], [3, 0.5, 0.5])))).toBe(0)
  expect(depthOf(ring, boxPart('drawn', ZERO, [3, 0.5, 0.5]))).toBe(0)
})
