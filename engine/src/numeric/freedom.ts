import { add, cross, dot, norm, scale, subtract, unit, type Vec3, ZERO } from './vector.ts'

/** Directions in which a body may begin to move: { d : d · n ≥ 0 for every contact normal n pointing into it }. */
export interface Freedom {
  /** 3: a solid cone; 2: in a plane; 1: along a line or a ray; 0: held. */
  dimension: 0 | 1 | 2 | 3
  /** Solid angle of the cone, sr; 0 below three dimensions. */
  solidAngle: number
  /** Unit vectors that make up the cone: every free direction is a sum of these with weights of zero or more. */
  rays: readonly Vec3[]
}

const SLACK = 1e-9

/**
 * Local freedom from contact normals. The rays come from cross products of pairs of normals, so that a slot, a bore or a
 * blind hole is found exactly, which no sample of directions would do.
 *
 * Source: derived; a pointed cone is made up of its edges, each the meeting of two of its planes.
 */
export function freedomOf(normals: readonly Vec3[]): Freedom {
  const distinct = settled(normals.map(unit))
  const free = withoutRepeats(candidates(distinct)).filter((d) => distinct.every((n) => dot(n, d) >= -SLACK))
  const dimension = rankOf(free) as Freedom['dimension']
  return { dimension, solidAngle: dimension === 3 ? solidAngleOf(distinct, free) : 0, rays: free }
}

/** Normals nearer than this are one, rad: closer than any face is known, and their cross product would be noise. */
const SAME = 1e-6
const HAIR = 1e-12

/** Normals without those that say the same; of two that all but oppose each other the second is made to. */
function settled(normals: readonly Vec3[]): Vec3[] {
  const kept: Vec3[] = []
  for (const n of normals) {
    if (kept.some((k) => norm(subtract(k, n)) < SAME)) continue
    const against = kept.find((k) => norm(add(k, n)) < SAME)
    kept.push(against === undefined ? n : scale(against, -1))
  }
  return withoutRepeats(inOnePlane(kept))
}

/** Normals that all but lie in one plane are put into it: whether they leave its line free does not hang from noise. */
function inOnePlane(normals: readonly Vec3[]): readonly Vec3[] {
  const edge = widestEdge(normals)
  if (edge === undefined || normals.some((n) => Math.abs(dot(n, edge)) >= SAME)) return normals
  return normals.map((n) => (Math.abs(dot(n, edge)) < HAIR ? n : unit(subtract(n, scale(edge, dot(n, edge))))))
}

/** Unit vector perpendicular to the two normals that are farthest from parallel. */
function widestEdge(normals: readonly Vec3[]): Vec3 | undefined {
  const edges = normals.flatMap((a, i) => normals.slice(i + 1).map((b) => cross(a, b)))
  const widest = edges.reduce<Vec3>((most, e) => (norm(e) > norm(most) ? e : most), ZERO)
  return norm(widest) === 0 ? undefined : unit(widest)
}

/** Directions among which are all the rays, whatever the rank of the normals. */
function candidates(normals: readonly Vec3[]): Vec3[] {
  const rank = rankOf(normals)
  const both = (d: Vec3): Vec3[] => [d, scale(d, -1)]
  if (rank === 0) return AXES.flatMap(both)
  const first = normals[0] as Vec3
  if (rank === 1) return [first, ...acrossOf(first).flatMap(both)]
  const edges = crossProducts(normals)
  if (rank === 3) return edges.flatMap(both)
  const axis = edges[0] as Vec3
  return [...both(axis), ...normals, ...normals.flatMap((n) => both(cross(axis, n)))]
}

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

/** Two units perpendicular to a unit and to each other. */
function acrossOf(n: Vec3): [Vec3, Vec3] {
  const least = AXES.reduce((best, axis) => (Math.abs(dot(axis, n)) < Math.abs(dot(best, n)) ? axis : best))
  const u = unit(cross(n, least))
  return [u, cross(n, u)]
}

/** Unit cross products of all pairs that are not parallel. */
export const crossProducts = (normals: readonly Vec3[]): Vec3[] =>
  normals.flatMap((a, i) =>
    normals.slice(i + 1).flatMap((b) => {
      const c = cross(a, b)
      return norm(c) < SLACK ? [] : [unit(c)]
    }),
  )

function rankOf(vectors: readonly Vec3[]): number {
  const [first] = vectors
  if (first === undefined) return 0
  const edges = crossProducts(vectors)
  const [edge] = edges
  if (edge === undefined) return 1
  return vectors.some((v) => Math.abs(dot(v, edge)) > SLACK) ? 3 : 2
}

/** The same vectors, each once. */
export const withoutRepeats = (vectors: readonly Vec3[]): Vec3[] =>
  vectors.filter((v, i) => !vectors.slice(0, i).some((w) => norm(add(v, scale(w, -1))) < SLACK))

function solidAngleOf(normals: readonly Vec3[], rays: readonly Vec3[]): number {
  const rank = rankOf(normals)
  if (rank === 0) return 4 * Math.PI
  if (rank === 1) return 2 * Math.PI
  if (rank === 2) return 2 * wedgeAngle(normals, rays)
  return polygonAngle(rays)
}

/** Opening of a wedge of half-planes about the line that the normals leave free. */
function wedgeAngle(normals: readonly Vec3[], rays: readonly Vec3[]): number {
  const axis = crossProducts(normals)[0] as Vec3
  const across = rays.filter((d) => Math.abs(dot(d, axis)) < 0.5)
  const cosines = across.flatMap((a, i) => across.slice(i + 1).map((b) => dot(a, b)))
  return Math.acos(Math.max(-1, Math.min(1, ...cosines)))
}

/** Area of a convex polygon on the unit sphere, by triangles from its first corner (van Oosterom and Strackee; from memory). */
function polygonAngle(rays: readonly Vec3[]): number {
  const middle = unit(rays.reduce(add, ZERO))
  const [u, v] = acrossOf(middle)
  const turn = (d: Vec3): number => Math.atan2(dot(d, v), dot(d, u))
  const round = [...rays].sort((a, b) => turn(a) - turn(b))
  return round.reduce((sum, b, i) => sum + triangleAngle(middle, b, round[(i + 1) % round.length] as Vec3), 0)
}

function triangleAngle(a: Vec3, b: Vec3, c: Vec3): number {
  const det = dot(a, cross(b, c))
  return 2 * Math.atan2(Math.abs(det), 1 + dot(a, b) + dot(b, c) + dot(c, a))
}

/**
 * Normals into a journal from a bore that wraps it, or into a ring from a journal inside it when `inward` is false.
 *
 * @param middle unit vector from the axis to the middle of the wrap
 * @param across unit vector of growing angle, perpendicular to the axis and to `middle`
 * @param half half of the wrap, rad
 */
export function wrapNormals(middle: Vec3, across: Vec3, half: number, inward: boolean): Vec3[] {
  const sign = inward ? -1 : 1
  return [-1, -0.5, 0, 0.5, 1].map((share) => {
    const t = share * half
    return scale(add(scale(middle, Math.cos(t)), scale(across, Math.sin(t))), sign)
  })
}
