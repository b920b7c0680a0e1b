import type { MeshBody } from './body.ts'
import type { Cell } from './cell.ts'
import { cornersOf } from './cell-box.ts'
import { type Extent, extentOf, hullOf } from './hull.ts'
import { add, cross, IDENTITY, type Pose, place, scale, subtract, unit, type Vec3 } from './vector.ts'

/** A mesh where it stands: corners, and the bounds of each triangle, least then greatest x, y, z. */
interface Surface {
  vertices: readonly Vec3[]
  triangles: MeshBody['mesh']['triangles']
  bounds: Float64Array
}

/** A mesh of more triangles is not looked into: its box stands in for it, and what comes near to that is open. */
export const MOST_SWEPT = 500_000

/**
 * The surface of a mesh as a tree of its triangles, halved at the middle of the longest side, each half made when it is
 * first asked for: a scan of a million triangles costs what comes near to it. A triangle has no thickness: depths against a
 * mesh are those of its surface, and what lies wholly inside is for the caller to look at.
 */
export function meshCell({ mesh, scale: k, at }: MeshBody, pose: Pose): Cell | undefined {
  const { triangles } = mesh
  if (triangles.length === 0) return undefined
  const vertices = mesh.vertices.map((v) => place(pose, add(scale(v, k), at)))
  if (triangles.length > MOST_SWEPT) return undecided(extentOf(hullOf(vertices)))
  const surface = { vertices, triangles, bounds: boundsOf(vertices, triangles) }
  return branch(
    surface,
    Int32Array.from(triangles, (_, i) => i),
  )
}

function undecided(extent: Extent): Cell {
  const [centre, half] = middleOf(extent)
  const outer = hullOf(cornersOf(centre, half, IDENTITY))
  return { outer, inner: undefined, loose: 2 * Math.hypot(...half), extent, normals: [], split: () => [] }
}

function boundsOf(vertices: readonly Vec3[], triangles: Surface['triangles']): Float64Array {
  const bounds = new Float64Array(6 * triangles.length)
  for (const [t, [a, b, c]] of triangles.entries()) {
    const [p, q, r] = [vertices[a], vertices[b], vertices[c]] as [Vec3, Vec3, Vec3]
    for (let i = 0; i < 3; i++) {
      const [x, y, z] = [p[i], q[i], r[i]] as [number, number, number]
      bounds[6 * t + i] = Math.min(x, y, z)
      bounds[6 * t + i + 3] = Math.max(x, y, z)
    }
  }
  return bounds
}

function triangleCell({ vertices, triangles }: Surface, t: number): Cell {
  const [p, q, r] = (triangles[t] as readonly number[]).map((i) => vertices[i]) as [Vec3, Vec3, Vec3]
  const hull = hullOf([p, q, r])
  const normal = unit(cross(subtract(q, p), subtract(r, p)))
  return { outer: hull, inner: hull, loose: 0, extent: extentOf(hull), normals: [normal], split: () => [] }
}

function branch(surface: Surface, faces: Int32Array): Cell {
  if (faces.length === 1) return triangleCell(surface, faces[0] as number)
  const extent = extentAlong(surface, faces)
  const [centre, half] = middleOf(extent)
  let children: readonly Cell[] | undefined
  return {
    outer: hullOf(cornersOf(centre, half, IDENTITY)),
    inner: undefined,
    loose: 2 * Math.hypot(...half),
    extent,
    normals: [],
    split: () => {
      children ??= halvesOf(surface, faces, half.indexOf(Math.max(...half))).map((part) => branch(surface, part))
      return children
    },
  }
}

function extentAlong({ bounds }: Surface, faces: Int32Array): Extent {
  const extent: [number, number, number, number, number, number] = [
    ...([1, 1, 1].map(() => Number.POSITIVE_INFINITY) as [number, number, number]),
    ...([1, 1, 1].map(() => Number.NEGATIVE_INFINITY) as [number, number, number]),
  ]
  for (const t of faces) {
    for (let i = 0; i < 3; i++) {
      extent[i] = Math.min(extent[i] as number, bounds[6 * t + i] as number)
      extent[i + 3] = Math.max(extent[i + 3] as number, bounds[6 * t + i + 3] as number)
    }
  }
  return extent
}

function middleOf(e: Extent): [Vec3, Vec3] {
  const at = (sign: number): Vec3 => [(e[3] + sign * e[0]) / 2, (e[4] + sign * e[1]) / 2, (e[5] + sign * e[2]) / 2]
  return [at(1), at(-1)]
}

function halvesOf({ bounds }: Surface, faces: Int32Array, axis: number): Int32Array[] {
  const middle = (t: number): number => (bounds[6 * t + axis] as number) + (bounds[6 * t + axis + 3] as number)
  const sorted = faces.slice().sort((a, b) => middle(a) - middle(b))
  const half = sorted.length >> 1
  return [sorted.slice(0, half), sorted.slice(half)]
}
