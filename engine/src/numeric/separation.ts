import { type Corner, cornerAlong, type Separation } from './difference.ts'
import type { Hull } from './hull.ts'
import { penetrationOf } from './penetration.ts'
import { add, cross, dot, norm, scale, subtract, type Vec3, ZERO } from './vector.ts'

const APART: readonly [number, number] = [0, 0]
const STEPS = 80
const TOUCHING = 1e-9
const FINE = 0.02

/**
 * Distance or depth of overlap of two convex bodies, by descent over simplices of their difference (Gilbert, Johnson and
 * Keerthi, 1988; from memory), then by a growing polytope where they overlap.
 *
 * @param reach distances above this need not be exact: the search ends as soon as the gap is sure to be greater
 * @param tolerance depth of overlap that decides: the search ends as soon as the depth is sure to be above or below it
 * @param share above the tolerance the depth is found to within this share of itself; infinite: that it is above is enough
 */
export function separation(a: Hull, b: Hull, reach: number, tolerance: number, share = FINE): Separation {
  const round = a.round + b.round
  if (round === 0) return coreSeparation(a, b, reach, tolerance, share)
  const core = coreSeparation(unrounded(a), unrounded(b), Math.max(0, reach + round), tolerance - round, share)
  if (core.gap > 0) {
    const gap = core.gap - round
    return gap > 0 ? { ...core, gap } : { ...core, gap: 0, depth: [-gap, -gap] }
  }
  return { ...core, depth: [core.depth[0] + round, core.depth[1] + round] }
}

/** A round is taken off before and its radius accounted for after: balls and fillets are then exact. */
const unrounded = (hull: Hull): Hull => (hull.round === 0 ? hull : { ...hull, round: 0 })

function coreSeparation(a: Hull, b: Hull, reach: number, tolerance: number, share: number): Separation {
  let simplex: Corner[] = [cornerAlong(a, b, [1, 0, 0])]
  let v = (simplex[0] as Corner).w
  let gap = 0
  for (let step = 0; step < STEPS; step++) {
    const length = Math.sqrt(dot(v, v))
    if (length < TOUCHING) return penetrationOf(a, b, simplex, tolerance, share)
    const next = cornerAlong(a, b, [-v[0], -v[1], -v[2]])
    gap = Math.max(gap, dot(v, next.w) / length)
    if (gap > reach || length - gap <= 1e-7 * length + 1e-9 || simplex.some((c) => isSame(c.w, next.w))) break
    const near = nearestOnSimplex([...simplex, next])
    if (near === undefined) return penetrationOf(a, b, [...simplex, next], tolerance, share)
    const closer = norm(near.v) < length
    simplex = near.simplex
    v = near.v
    if (!closer) break
  }
  return apart(simplex, v, Math.min(gap, norm(v)))
}

const isSame = (p: Vec3, q: Vec3): boolean => p[0] === q[0] && p[1] === q[1] && p[2] === q[2]

function apart(simplex: Corner[], v: Vec3, gap: number): Separation {
  const weights = weightsOf(simplex, v)
  const mix = (pick: (c: Corner) => Vec3): Vec3 =>
    simplex.reduce<Vec3>((sum, c, i) => add(sum, scale(pick(c), weights[i] as number)), ZERO)
  const [pa, pb] = [mix((c) => c.a), mix((c) => c.b)]
  const length = norm(v)
  return {
    gap: Math.max(0, gap),
    depth: APART,
    normal: scale(v, length === 0 ? 0 : -1 / length),
    at: scale(add(pa, pb), 0.5),
  }
}

interface Near {
  v: Vec3
  simplex: Corner[]
}

/** The point of a simplex nearest the origin, with the corners it lies between; undefined when the origin is inside. */
export function nearestOnSimplex(corners: Corner[]): Near | undefined {
  switch (corners.length) {
    case 1:
      return { v: (corners[0] as Corner).w, simplex: corners }
    case 2:
      return nearestOnSegment(corners[0] as Corner, corners[1] as Corner)
    case 3:
      return nearestOnTriangle(corners[0] as Corner, corners[1] as Corner, corners[2] as Corner)
    default:
      return nearestOnTetrahedron(corners as [Corner, Corner, Corner, Corner])
  }
}

function nearestOnSegment(p: Corner, q: Corner): Near {
  const line = subtract(q.w, p.w)
  const length2 = dot(line, line)
  const t = length2 === 0 ? 0 : -dot(p.w, line) / length2
  if (t <= 0) return { v: p.w, simplex: [p] }
  if (t >= 1) return { v: q.w, simplex: [q] }
  return { v: add(p.w, scale(line, t)), simplex: [p, q] }
}

/** By the regions of Voronoi, as in Ericson, Real-Time Collision Detection, 5.1.5 (from memory). */
function nearestOnTriangle(p: Corner, q: Corner, r: Corner): Near {
  const [pq, pr] = [subtract(q.w, p.w), subtract(r.w, p.w)]
  const [d1, d2] = [-dot(pq, p.w), -dot(pr, p.w)]
  if (d1 <= 0 && d2 <= 0) return { v: p.w, simplex: [p] }
  const [d3, d4] = [-dot(pq, q.w), -dot(pr, q.w)]
  if (d3 >= 0 && d4 <= d3) return { v: q.w, simplex: [q] }
  const [d5, d6] = [-dot(pq, r.w), -dot(pr, r.w)]
  if (d6 >= 0 && d5 <= d6) return { v: r.w, simplex: [r] }
  const [vr, vq, vp] = [d1 * d4 - d3 * d2, d5 * d2 - d1 * d6, d3 * d6 - d5 * d4]
  if (vr <= 0 && d1 >= 0 && d3 <= 0) return nearestOnSegment(p, q)
  if (vq <= 0 && d2 >= 0 && d6 <= 0) return nearestOnSegment(p, r)
  if (vp <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return nearestOnSegment(q, r)
  const n = cross(pq, pr)
  const n2 = dot(n, n)
  if (n2 === 0) return nearestOnSegment(p, q)
  return { v: scale(n, dot(n, p.w) / n2), simplex: [p, q, r] }
}

function nearestOnTetrahedron([a, b, c, d]: [Corner, Corner, Corner, Corner]): Near | undefined {
  const faces: [Corner, Corner, Corner, Corner][] = [
    [a, b, c, d],
    [a, c, d, b],
    [a, d, b, c],
    [b, d, c, a],
  ]
  let best: Near | undefined
  for (const [p, q, r, apex] of faces) {
    const n = cross(subtract(q.w, p.w), subtract(r.w, p.w))
    const [side, own] = [-dot(n, p.w), dot(n, subtract(apex.w, p.w))]
    if (own !== 0 && side * own > 0) continue
    const near = nearestOnTriangle(p, q, r)
    if (best === undefined || norm(near.v) < norm(best.v)) best = near
  }
  return best
}

/** Weights of the corners that give `v`. */
function weightsOf(simplex: Corner[], v: Vec3): number[] {
  const [p, q, r] = simplex.map((c) => c.w) as [Vec3, Vec3?, Vec3?]
  if (q === undefined) return [1]
  if (r === undefined) {
    const line = subtract(q, p)
    const t = dot(subtract(v, p), line) / (dot(line, line) || 1)
    return [1 - t, t]
  }
  const n = cross(subtract(q, p), subtract(r, p))
  const n2 = dot(n, n) || 1
  const share = (from: Vec3, to: Vec3): number => dot(cross(subtract(from, v), subtract(to, v)), n) / n2
  return [share(q, r), share(r, p), share(p, q)]
}
