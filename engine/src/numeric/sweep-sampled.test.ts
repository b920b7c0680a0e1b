import fc from 'fast-check'
import { BoxGeometry, type BufferGeometry, CylinderGeometry, Matrix4, TorusGeometry, Vector3 } from 'three'
import { MeshBVH } from 'three-mesh-bvh'
import { expect, test } from 'vitest'
import type { Body } from './body.ts'
import { type Cell, cellOf } from './cell.ts'
import { encounter } from './encounter.ts'
import { straightMotion } from './motion.ts'
import { AT_REST, IDENTITY, type Vec3 } from './vector.ts'

const RADIUS = 0.7
const SIDES = 96
const SAMPLES = 60

/** The same solids as bodies of ours and as triangles; a ring between 1 m and 2 m has a square section. */
const box: Body = { kind: 'box', centre: [0, 0, 0], half: [0.5, 0.4, 0.3], turn: IDENTITY }
const boxMesh = new BoxGeometry(1, 0.8, 0.6)
const rod: Body = { kind: 'frustum', from: [0, -1, 0], to: [0, 1, 0], radii: [RADIUS, RADIUS] }
const rodMesh = new CylinderGeometry(RADIUS, RADIUS, 2, SIDES)
const ring: Body = { kind: 'ring sector', inner: 1, outer: 2, rear: -0.5, front: 0.5, start: 0, sweep: 2 * Math.PI }
const ringMesh = squareRing()

/** A torus of four sides about x, its square section brought to the size of the ring. */
function squareRing(): BufferGeometry {
  const torus = new TorusGeometry(1.5, Math.SQRT1_2, 4, SIDES).rotateY(Math.PI / 2)
  const position = torus.getAttribute('position')
  for (let i = 0; i < position.count; i++) {
    const [x, y, z] = [position.getX(i), position.getY(i), position.getZ(i)]
    const [away, turned] = [Math.hypot(y, z), Math.atan2(z, y)]
    const [along, out] = [x, away - 1.5]
    // A quarter of the section turned by 45 degrees: its corners become those of an upright square.
    const [a, b] = [(along + out) * Math.SQRT1_2, (out - along) * Math.SQRT1_2]
    position.setXYZ(i, a, (1.5 + b) * Math.cos(turned), (1.5 + b) * Math.sin(turned))
  }
  return torus
}

const real = fc.integer({ min: -100, max: 100 }).map((i) => i / 100)
const point = (size: number) => fc.tuple(real, real, real).map(([x, y, z]): Vec3 => [size * x, size * y, size * z])
const cells = (body: Body, at: Vec3 = [0, 0, 0]): Cell[] => [cellOf(body, { ...AT_REST, shift: at }) as Cell]

/** Least distance over many places along the way by triangles; zero where the surfaces meet. */
function sampledGap(moving: BufferGeometry, standing: MeshBVH, from: Vec3, by: Vec3): number {
  let least = Number.POSITIVE_INFINITY
  for (let i = 0; i <= SAMPLES; i++) {
    const [x, y, z] = [0, 1, 2].map((k) => (from[k] as number) + ((by[k] as number) * i) / SAMPLES) as [
      number,
      number,
      number,
    ]
    const matrix = new Matrix4().makeTranslation(x, y, z)
    if (standing.intersectsGeometry(moving, matrix)) return 0
    const nearest = { point: new Vector3(), distance: 0, faceIndex: 0 }
    least = Math.min(least, standing.closestPointToGeometry(moving, matrix, nearest)?.distance ?? least)
  }
  return least
}

for (const [name, body, mesh] of [
  ['a rod', rod, rodMesh],
  ['a ring', ring, ringMesh],
] as const)
  test(`a box on its way past ${name} keeps the clearance that dense samples of triangles find`, () => {
    const bvh = new MeshBVH(mesh)
    const chord = 2 * (1 - Math.cos(Math.PI / SIDES)) * 2
    let [struck, clear] = [0, 0]
    fc.assert(
      fc.property(point(5), point(8), (from, by) => {
        const found = encounter(cells(box, from), cells(body), { ...straightMotion(AT_REST, by) }, NEAR)
        const sampled = sampledGap(boxMesh, bvh, from, by)
        const step = Math.hypot(...by) / SAMPLES
        if (found.verdict === 'struck') {
          struck++
          expect(sampled).toBeLessThan(step + chord)
        } else if (sampled > 0 && sampled < NEAR.reach) {
          clear++
          expect(found.gap).toBeLessThanOrEqual(sampled + chord)
          expect(found.gap).toBeGreaterThan(sampled - step - chord - NEAR.resolution - sampled / 50)
        }
      }),
      { numRuns: 60, seed: 11 },
    )
    expect(struck).toBeGreaterThan(5)
    expect(clear).toBeGreaterThan(15)
  })

const NEAR = { tolerance: 1e-3, reach: 12, resolution: 1e-3 }
