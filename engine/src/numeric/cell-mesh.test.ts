import fc from 'fast-check'
import { BufferGeometry, Float32BufferAttribute, IcosahedronGeometry, Matrix4, TorusGeometry, Vector3 } from 'three'
import { MeshBVH } from 'three-mesh-bvh'
import { expect, test } from 'vitest'
import { type Cell, cellOf } from './cell.ts'
import { encounter } from './encounter.ts'
import type { Mesh } from './mesh.ts'
import { straightMotion } from './motion.ts'
import { AT_REST, multiply, type Pose, rotationAbout, type Vec3, ZERO } from './vector.ts'

function meshOf(geometry: BufferGeometry): Mesh {
  const plain = geometry.index === null ? geometry : geometry.toNonIndexed()
  const position = plain.getAttribute('position')
  const vertices = Array.from(
    { length: position.count },
    (_, i): Vec3 => [position.getX(i), position.getY(i), position.getZ(i)],
  )
  return {
    vertices,
    triangles: Array.from({ length: position.count / 3 }, (_, i) => [3 * i, 3 * i + 1, 3 * i + 2] as const),
  }
}

const geometryOf = ({ vertices }: Mesh): BufferGeometry =>
  new BufferGeometry().setAttribute('position', new Float32BufferAttribute(vertices.flat(), 3))

const cells = (mesh: Mesh, pose: Pose): Cell[] => [cellOf({ kind: 'mesh', mesh, scale: 1, at: ZERO }, pose) as Cell]

function matrixOf({ turn, shift }: Pose): Matrix4 {
  const [a, b, c] = turn
  return new Matrix4().set(...a, shift[0], ...b, shift[1], ...c, shift[2], 0, 0, 0, 1)
}

const ball = meshOf(new IcosahedronGeometry(1, 1))
const torus = meshOf(new TorusGeometry(1.2, 0.4, 6, 10))
const real = fc.integer({ min: -1000, max: 1000 }).map((i) => i / 1000)
const pose = fc.tuple(real, real, real, real, real).map(
  ([x, y, z, a, b]): Pose => ({
    turn: multiply(rotationAbout('x', 3 * a), rotationAbout('z', 3 * b)),
    shift: [2.5 * x, 2.5 * y, 2.5 * z],
  }),
)

test('surfaces of meshes cut each other, and lie apart, as an independent tree of triangles finds', () => {
  const bvh = new MeshBVH(geometryOf(torus))
  const other = geometryOf(ball)
  let [cut, apart] = [0, 0]
  fc.assert(
    fc.property(pose, (placed) => {
      const found = encounter(cells(ball, placed), cells(torus, AT_REST), straightMotion(AT_REST, ZERO), {
        tolerance: 1e-6,
        reach: 10,
        resolution: 1e-4,
      })
      const matrix = matrixOf(placed)
      const meets = bvh.intersectsGeometry(other, matrix)
      const nearest = { point: new Vector3(), distance: 0, faceIndex: 0 }
      const distance = meets ? 0 : (bvh.closestPointToGeometry(other, matrix, nearest)?.distance ?? 0)
      if (meets) cut++
      else apart++
      // The oracle keeps single precision.
      if (meets || distance > 1e-4) expect(found.verdict).toBe(meets ? 'struck' : 'clear')
      if (!meets) expect(Math.abs(found.gap - distance)).toBeLessThan(3e-4)
    }),
    { numRuns: 60 },
  )
  expect(Math.min(cut, apart)).toBeGreaterThan(10)
})

test('a mesh of a box behaves as the box does along a sweep', () => {
  const corners: Vec3[] = [0, 1].flatMap((x) =>
    [0, 1].flatMap((y) => [0, 1].map((z): Vec3 => [x - 0.5, y - 0.5, z - 0.5])),
  )
  const faces = [
    [0, 1, 3, 2],
    [4, 6, 7, 5],
    [0, 4, 5, 1],
    [2, 3, 7, 6],
    [0, 2, 6, 4],
    [1, 5, 7, 3],
  ]
  const triangles = faces.flatMap(([a, b, c, d]) => [
    [a, b, c],
    [a, c, d],
  ]) as unknown as Mesh['triangles']
  const mesh = cells({ vertices: corners, triangles }, AT_REST)
  const half: Vec3 = [0.5, 0.5, 0.5]
  const box = [cellOf({ kind: 'box', centre: ZERO, half, turn: rotationAbout('x', 0) }, AT_REST) as Cell]
  const bar = [
    cellOf({ kind: 'box', centre: [0, 0, 3], half: [0.2, 0.2, 0.2], turn: rotationAbout('x', 0) }, AT_REST) as Cell,
  ]
  const limits = { tolerance: 0.001, reach: 3, resolution: 0.001 }
  fc.assert(
    fc.property(real, real, real, (x, y, z) => {
      const motion = straightMotion(AT_REST, [2 * x, 2 * y, 4 * z])
      const [a, b] = [encounter(box, bar, motion, limits), encounter(mesh, bar, motion, limits)]
      expect(b.verdict).toBe(a.verdict)
      if (a.verdict === 'clear') expect(b.gap).toBeCloseTo(a.gap, 2)
    }),
    { numRuns: 80 },
  )
})
