import type { MeshBody } from './body.ts'
import type { Cell } from './cell.ts'
import { cornersOf } from './cell-box.ts'
import { type Extent, extentAround, extentOf, hullOf } from './hull.ts'
import { add, cross, IDENTITY, type Pose, place, scale, subtract, unit, type Vec3 } from './vector.ts'

/**
 * The surface of a mesh as a tree of its triangles, halved at the middle of the longest side. A triangle has no thickness:
 * depths against a mesh are those of its surface, and what lies wholly inside is for the caller to look at.
 */
export function meshCell({ mesh, scale: k, at }: MeshBody, pose: Pose): Cell | undefined {
  const vertices = mesh.vertices.map((v) => place(pose, add(scale(v, k), at)))
  const faces = mesh.triangles.map(([a, b, c]) =>
    triangleCell([vertices[a], vertices[b], vertices[c]] as [Vec3, Vec3, Vec3]),
  )
  return faces.length === 0 ? undefined : branch(faces)
}

function triangleCell(corners: readonly [Vec3, Vec3, Vec3]): Cell {
  const hull = hullOf(corners)
  const normal = unit(cross(subtract(corners[1], corners[0]), subtract(corners[2], corners[0])))
  return { outer: hull, inner: hull, loose: 0, extent: extentOf(hull), normals: [normal], split: () => [] }
}

function branch(faces: readonly Cell[]): Cell {
  if (faces.length === 1) return faces[0] as Cell
  const extent = extentAround(faces.map((f) => f.extent))
  const [centre, half] = middleOf(extent)
  let children: readonly Cell[] | undefined
  return {
    outer: hullOf(cornersOf(centre, half, IDENTITY)),
    inner: undefined,
    loose: 2 * Math.hypot(...half),
    extent,
    normals: [],
    split: () => {
      children ??= halvesOf(faces, half.indexOf(Math.max(...half))).map(branch)
      return children
    },
  }
}

function middleOf(e: Extent): [Vec3, Vec3] {
  const at = (sign: number): Vec3 => [(e[3] + sign * e[0]) / 2, (e[4] + sign * e[1]) / 2, (e[5] + sign * e[2]) / 2]
  return [at(1), at(-1)]
}

function halvesOf(faces: readonly Cell[], axis: number): (readonly Cell[])[] {
  const middle = (f: Cell): number => (f.extent[axis] as number) + (f.extent[axis + 3] as number)
  const sorted = [...faces].sort((a, b) => middle(a) - middle(b))
  const half = Math.floor(sorted.length / 2)
  return [sorted.slice(0, half), sorted.slice(half)]
}
