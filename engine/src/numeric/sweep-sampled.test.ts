import fc from 'fast-check'
import { BoxGeometry, type BufferGeometry, CylinderGeometry, Matrix4, TorusGeometry, Vector3 } from 'three'
import { MeshBVH } from 'three-mesh-bvh'
import { expect, test } from 'vitest'
import type { Body } from './body.ts'
import { type Cell, cellOf } from './cell.ts'
import { type Encounter, encounter } from './encounter.ts'
import { straightMotion, turningMotion } from './motion.ts'
import { AT_REST, IDENTITY, type Vec3, ZERO } from './vector.ts'

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
/** A place so far off that the box is never wholly inside a solid: triangles are surfaces, and would not see it. */
const outside = (size: number) => point(size).filter((p) => Math.hypot(...p) > 1.3)
const point = (size: number) => fc.tuple(real, real, real).map(([x, y, z]): Vec3 => [size * x, size * y, size * z])
const cells = (body: Body, at: Vec3 = [0, 0, 0]): Cell[] => [cellOf(body, { ...AT_REST, shift: at }) as Cell]

/** Least distance over many places along the way by triangles; zero where the surfaces meet. */
function sampledGap(moving: BufferGeometry, standing: MeshBVH, placeAt: (share: number) => Matrix4): number {
  let least = Number.POSITIVE_INFINITY
  for (let i = 0; i <= SAMPLES; i++) {
    const matrix = placeAt(i / SAMPLES)
    if (standing.intersectsGeometry(moving, matrix)) return 0
    const nearest = { point: new Vector3(), distance: 0, faceIndex: 0 }
    least = Math.min(least, standing.closestPointToGeometry(moving, matrix, nearest)?.distance ?? least)
  }
  return least
}

/** Places of a straight way. */
const straight =
  (from: Vec3, by: Vec3) =>
  (share: number): Matrix4 =>
    new Matrix4().makeTranslation(from[0] + share * by[0], from[1] + share * by[1], from[2] + share * by[2])

/** Places of a turn about an axis through the origin. */
const turning =
  (from: Vec3, axis: Vec3, angle: number) =>
  (share: number): Matrix4 =>
    new Matrix4().makeRotationAxis(new Vector3(...axis), share * angle).multiply(straight(from, [0, 0, 0])(0))

const SOLIDS = [
  ['a rod', rod, rodMesh, outside(2)],
  ['a ring', ring, ringMesh, point(4)],
] as const
/** What a chord of the triangles cuts off the widest circle. */
const CHORD = 2 * (1 - Math.cos(Math.PI / SIDES)) * 2
const NEAR = { tolerance: 1e-3, reach: 12, resolution: 1e-3 }

/** Whether a sweep agrees with dense samples whose neighbours lie no farther apart than `step`. */
function agrees(found: Encounter, sampled: number, step: number, bvh: MeshBVH): 'struck' | 'clear' | 'neither' {
  if (found.verdict === 'struck') {
    expect(sampled).toBeLessThan(step + CHORD)
    return 'struck'
  }
  if (sampled === 0 || sampled >= NEAR.reach) return 'neither'
  const unsure = NEAR.resolution + sampled / 50
  const inBore = Math.hypot(found.at[1], found.at[2]) < 1 && Math.abs(found.normal[0]) < 1e-9
  expect(found.gap).toBeLessThanOrEqual(sampled + CHORD)
  // In a bore the gap is that of a bore that goes on: a lower bound where the widest of the way lies past its end.
  if (!inBore) expect(found.gap).toBeGreaterThan(sampled - step - CHORD - unsure)
  // Where: half way across the gap.
  const off = bvh.closestPointToPoint(new Vector3(...found.at))?.distance ?? Number.NaN
  expect(off).toBeLessThan(found.gap / 2 + CHORD + 2 * unsure + step)
  return 'clear'
}

for (const [name, body, mesh, from] of SOLIDS) {
  const bvh = new MeshBVH(mesh)

  test(`a box on its way past ${name} keeps the clearance that dense samples of triangles find, and there`, () => {
    const count = { struck: 0, clear: 0, neither: 0 }
    fc.assert(
      fc.property(from, point(8), (at, by) => {
        const found = encounter(cells(box, at), cells(body), straightMotion(AT_REST, by), NEAR)
        count[agrees(found, sampledGap(boxMesh, bvh, straight(at, by)), Math.hypot(...by) / SAMPLES, bvh)]++
      }),
      { numRuns: 50, seed: 11 },
    )
    expect(count.struck).toBeGreaterThan(3)
    expect(count.clear).toBeGreaterThan(15)
  })

  test(`a box turned about an axis past ${name} does so as well`, () => {
    const count = { struck: 0, clear: 0, neither: 0 }
    const axis = fc.constantFrom<Vec3>([1, 0, 0], [0, 1, 0], [0, 0, 1], [0.6, 0, 0.8], [0.48, 0.6, 0.64])
    fc.assert(
      fc.property(from, axis, fc.integer({ min: 5, max: 175 }), (at, about, degrees) => {
        const to = (degrees * Math.PI) / 180
        const motion = turningMotion({ pose: AT_REST, axis: about, about: ZERO, from: 0, to })
        const found = encounter(cells(box, at), cells(body), motion, NEAR)
        const reach = (Math.hypot(...at) + Math.hypot(0.5, 0.4, 0.3)) * (to / SAMPLES)
        count[agrees(found, sampledGap(boxMesh, bvh, turning(at, about, to)), reach, bvh)]++
      }),
      { numRuns: 50, seed: 12 },
    )
    expect(count.struck).toBeGreaterThan(3)
    expect(count.clear).toBeGreaterThan(10)
  })
}
