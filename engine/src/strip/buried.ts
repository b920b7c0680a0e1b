import { holdsPoint } from '../numeric/body.ts'
import { cellOf } from '../numeric/cell.ts'
import { encounter } from '../numeric/encounter.ts'
import { type Extent, supportPoint } from '../numeric/hull.ts'
import { straightMotion } from '../numeric/motion.ts'
import { AT_REST, add, cross, inverse, place, scale, subtract, unit, type Vec3, ZERO } from '../numeric/vector.ts'
import type { PartCells } from './shape.ts'

/** A place that lies inside two solids, and how deep the two surely overlap there, m. */
export interface Buried {
  depth: number
  at: Vec3
}

type Solid = PartCells['solids'][number]
type PartMesh = PartCells['meshes'][number]

/** A place in a solid with the radius of a ball about it that the solid surely holds. */
interface Inside {
  at: Vec3
  room: number
}

/** Looking whether a mesh holds a point takes all of its triangles; so many are gone through for one pair. */
const MOST_TRIANGLES = 2_000_000
const MOST_POINTS = 64

/**
 * How deep one solid lies within another where their surfaces do not cross. A mesh has no thickness, so that what is wholly
 * inside one, or a mesh pushed into another along faces in one plane, shows by places alone: those a little behind the faces
 * of a mesh, the middle of a drawn solid.
 *
 * @returns the deepest place found; undefined when none is deeper than the tolerance, or when neither solid is a mesh
 */
export function buriedDepth(a: [PartCells, Solid], b: [PartCells, Solid], tolerance: number): Buried | undefined {
  const [meshA, meshB] = [meshOf(...a), meshOf(...b)]
  if (meshA === undefined && meshB === undefined) return undefined
  const found = [
    ...(meshB === undefined ? [] : within(placesIn(a[1], meshA, b[1], tolerance), meshB, b[1])),
    ...(meshA === undefined ? [] : within(placesIn(b[1], meshB, a[1], tolerance), meshA, a[1])),
  ]
  const deepest = found.reduce<Buried>(
    (most, { at, room }) => (2 * room > most.depth ? { at, depth: 2 * room } : most),
    {
      at: ZERO,
      depth: tolerance,
    },
  )
  return deepest.depth > tolerance ? deepest : undefined
}

const meshOf = ({ meshes }: PartCells, { index }: Solid): PartMesh | undefined => meshes.find((m) => m.index === index)

/** Places that a mesh holds as well, with what room both leave. */
function within(places: readonly Inside[], mesh: PartMesh, { cell }: Solid): Inside[] {
  const back = inverse(mesh.pose)
  const most = Math.floor(MOST_TRIANGLES / mesh.body.mesh.triangles.length)
  return places
    .slice(0, most)
    .filter(({ at }) => holdsPoint(mesh.body, place(back, at)))
    .map(({ at, room }) => ({ at, room: Math.min(room, roomAt(at, cell)) }))
}

function placesIn({ cell }: Solid, mesh: PartMesh | undefined, other: Solid, tolerance: number): Inside[] {
  if (mesh !== undefined) return behindFaces(mesh, cell, commonBox(cell.extent, other.cell.extent), tolerance)
  const { core } = cell
  return core === undefined
    ? [{ at: supportPoint(cell.outer, [1, 0, 0]), room: tolerance }]
    : [{ at: core.centre, room: core.radius }]
}

/** Places behind the faces of a mesh, within a box: shallow ones, and as deep as half the least side of the box. */
function behindFaces(mesh: PartMesh, cell: Solid['cell'], box: Extent, tolerance: number): Inside[] {
  const half = Math.min(box[3] - box[0], box[4] - box[1], box[5] - box[2]) / 2
  if (half <= tolerance) return []
  const isWithin = (p: Vec3): boolean => p.every((x, i) => x > (box[i] as number) && x < (box[i + 3] as number))
  const { triangles } = mesh.body.mesh
  const places: Vec3[] = []
  for (let i = 0; i < triangles.length && places.length < MOST_POINTS; i++)
    places.push(...[2 * tolerance, half].map((by) => behindFace(mesh, i, by)).filter(isWithin))
  const back = inverse(mesh.pose)
  const most = Math.floor(MOST_TRIANGLES / triangles.length)
  return places
    .slice(0, most)
    .filter((p) => holdsPoint(mesh.body, place(back, p)))
    .map((at) => ({ at, room: roomAt(at, cell) }))
}

const commonBox = (e: Extent, f: Extent): Extent => [
  Math.max(e[0], f[0]),
  Math.max(e[1], f[1]),
  Math.max(e[2], f[2]),
  Math.min(e[3], f[3]),
  Math.min(e[4], f[4]),
  Math.min(e[5], f[5]),
]

function behindFace({ body, pose }: PartMesh, face: number, by: number): Vec3 {
  const [p, q, r] = (body.mesh.triangles[face] as readonly number[]).map((i) =>
    place(pose, add(scale(body.mesh.vertices[i] as Vec3, body.scale), body.at)),
  ) as [Vec3, Vec3, Vec3]
  const outward = unit(cross(subtract(q, p), subtract(r, p)))
  return add(scale(add(add(p, q), r), 1 / 3), scale(outward, -by))
}

const STILL = straightMotion(AT_REST, ZERO)
const POINT = 1e-6
/** More room than this is not measured, m. */
const WIDE = 1

/** Distance from a place to the surface of a mesh. */
function roomAt(at: Vec3, cell: Solid['cell']): number {
  const point = cellOf({ kind: 'ball', centre: at, radius: POINT }, AT_REST)
  return point === undefined
    ? 0
    : encounter([point], [cell], STILL, { tolerance: 0, reach: WIDE, resolution: POINT }).gap
}
