import { type Corner, cornerAlong, type Separation } from './difference.ts'
import type { Hull } from './hull.ts'
import { add, cross, dot, norm, scale, subtract, unit, type Vec3 } from './vector.ts'

/** A face of the polytope inside A − B: corners, outward unit normal, distance of its plane from the origin. */
interface Face {
  corners: readonly [Corner, Corner, Corner]
  normal: Vec3
  distance: number
}

const STEPS = 60
const FLAT = 1e-12

/**
 * Depth of overlap of two convex bodies: the least translation that parts them. A polytope inside A − B grows towards its
 * nearest face (van den Bergen, 2001; from memory); the nearest face is a lower bound, the support plane behind it an upper.
 *
 * @param start corners of A − B around or touching the origin
 * @param tolerance the search ends as soon as the depth is sure to be above or below this
 * @param share above the tolerance the depth is found to within this share of itself; infinite: that it is above is enough
 */
export function penetrationOf(
  a: Hull,
  b: Hull,
  start: readonly Corner[],
  tolerance: number,
  share: number,
): Separation {
  const seed = tetrahedronFrom(a, b, start)
  if (seed === undefined) return touching(start[0] as Corner)
  let faces = seed
  let most = Number.POSITIVE_INFINITY
  let best: Face = nearestFace(faces)
  for (let step = 0; step < STEPS; step++) {
    const face = nearestFace(faces)
    if (share === Number.POSITIVE_INFINITY && face.distance > tolerance) return deeperThan(face)
    const corner = cornerAlong(a, b, face.normal)
    const reach = dot(corner.w, face.normal)
    if (reach < most) {
      most = reach
      best = face
    }
    const least = Math.max(0, face.distance)
    const decided = most <= tolerance || (least > tolerance && most - least <= share * most) || most - least < 1e-7
    if (decided) break
    const grown = grownBy(faces, corner)
    if (grown === undefined) break
    faces = grown
  }
  const least = Math.max(0, Math.min(nearestFace(faces).distance, most))
  return { gap: 0, depth: [least, Math.max(0, most)], normal: best.normal, at: pointOn(best) }
}

/** That the depth is above what was asked for is all that is known, and all that is wanted. */
const deeperThan = ({ corners, normal, distance }: Face): Separation => ({
  gap: 0,
  depth: [distance, Number.POSITIVE_INFINITY],
  normal,
  at: corners[0].a,
})

const touching = (corner: Corner): Separation => ({ gap: 0, depth: [0, 0], normal: [0, 0, 0], at: corner.a })

function nearestFace(faces: readonly Face[]): Face {
  let best = faces[0] as Face
  for (const face of faces) if (face.distance < best.distance) best = face
  return best
}

function pointOn({ corners, normal, distance }: Face): Vec3 {
  const target = scale(normal, distance)
  const [p, q, r] = corners
  const n = cross(subtract(q.w, p.w), subtract(r.w, p.w))
  const n2 = dot(n, n) || 1
  const weights = [shareOf(q, r, target, n) / n2, shareOf(r, p, target, n) / n2, shareOf(p, q, target, n) / n2].map(
    (share) => Math.min(1, Math.max(0, share)),
  )
  const total = weights.reduce((s, w) => s + w, 0) || 1
  return corners.reduce<Vec3>(
    (sum, c, i) => add(sum, scale(add(c.a, c.b), (weights[i] as number) / total / 2)),
    [0, 0, 0],
  )
}

const shareOf = (from: Corner, to: Corner, target: Vec3, n: Vec3): number =>
  dot(cross(subtract(from.w, target), subtract(to.w, target)), n)

/** Faces of a tetrahedron of corners; undefined when A − B has no thickness here, so that the bodies only touch. */
function tetrahedronFrom(a: Hull, b: Hull, start: readonly Corner[]): Face[] | undefined {
  const corners: Corner[] = []
  for (const candidate of [...start]) if (independent(corners, candidate)) corners.push(candidate)
  for (const direction of PROBES) {
    if (corners.length === 4) break
    for (const sign of [1, -1]) {
      const candidate = cornerAlong(a, b, scale(probe(corners, direction), sign))
      if (corners.length < 4 && independent(corners, candidate)) corners.push(candidate)
    }
  }
  if (corners.length < 4) return undefined
  return closedAround(corners as [Corner, Corner, Corner, Corner])
}

const PROBES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [0.57, 0.59, 0.571],
]

/** A direction in which one more corner would add a dimension. */
function probe(corners: readonly Corner[], fallback: Vec3): Vec3 {
  const [p, q, r] = corners
  if (p === undefined || q === undefined) return fallback
  const line = subtract(q.w, p.w)
  if (r === undefined) {
    const off = cross(line, fallback)
    return norm(off) < FLAT ? fallback : off
  }
  return cross(line, subtract(r.w, p.w))
}

function independent(corners: readonly Corner[], { w }: Corner): boolean {
  const [p, q, r] = corners
  if (p === undefined) return true
  const out = subtract(w, p.w)
  const size = norm(out)
  if (size < 1e-9) return false
  if (q === undefined) return true
  const area = cross(subtract(q.w, p.w), out)
  if (norm(area) < 1e-9 * size) return false
  if (r === undefined) return true
  const normal = unit(cross(subtract(q.w, p.w), subtract(r.w, p.w)))
  return Math.abs(dot(normal, out)) > 1e-9
}

function closedAround([p, q, r, s]: [Corner, Corner, Corner, Corner]): Face[] {
  const centre = scale(add(add(p.w, q.w), add(r.w, s.w)), 0.25)
  return [faceOf(p, q, r, centre), faceOf(p, q, s, centre), faceOf(p, r, s, centre), faceOf(q, r, s, centre)]
}

/** A face turned so that its normal points away from `inside`. */
function faceOf(p: Corner, q: Corner, r: Corner, inside: Vec3): Face {
  const normal = unit(cross(subtract(q.w, p.w), subtract(r.w, p.w)))
  const outward = dot(normal, subtract(p.w, inside)) >= 0
  return outward
    ? { corners: [p, q, r], normal, distance: dot(normal, p.w) }
    : { corners: [p, r, q], normal: scale(normal, -1), distance: -dot(normal, p.w) }
}

/** The polytope grown by one corner: faces that see it go, their rim is joined to it. Undefined when it sees none. */
function grownBy(faces: readonly Face[], corner: Corner): Face[] | undefined {
  const kept: Face[] = []
  const rim = new Map<Corner, Corner[]>()
  let seen = 0
  for (const face of faces) {
    if (dot(face.normal, corner.w) - face.distance <= 1e-11) kept.push(face)
    else {
      seen++
      const [p, q, r] = face.corners
      toggleEdge(rim, p, q)
      toggleEdge(rim, q, r)
      toggleEdge(rim, r, p)
    }
  }
  if (seen === 0 || kept.length === 0) return undefined
  for (const [from, tos] of rim) {
    for (const to of tos) {
      const normal = unit(cross(subtract(to.w, from.w), subtract(corner.w, from.w)))
      if (norm(normal) > 0) kept.push({ corners: [from, to, corner], normal, distance: dot(normal, from.w) })
    }
  }
  return kept
}

/** An edge met from both sides is inside and goes; one met once is the rim. */
function toggleEdge(rim: Map<Corner, Corner[]>, from: Corner, to: Corner): void {
  const back = rim.get(to)
  const i = back?.indexOf(from) ?? -1
  if (back !== undefined && i >= 0) back.splice(i, 1)
  else rim.set(from, [...(rim.get(from) ?? []), to])
}
