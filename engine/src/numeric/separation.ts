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
    if (gap > reach || length - gap <= 1e-7 * length + 1e-9 || holds(simplex, next.w)) break
    const near = nearestOnSimplex([...simplex, next])
    if (near === undefined) return penetrationOf(a, b, [...simplex, next], tolerance, share)
    const closer = norm(near.v) < length
    simplex = near.simplex
    v = near.v
    if (!closer) break
  }
  return apart(simplex, v, Math.min(gap, norm(v)))
}

function holds(simplex: readonly Corner[], p: Vec3): boolean {
  for (let i = 0; i < simplex.length; i++) {
    const { w } = simplex[i] as Corner
    if (w[0] === p[0] && w[1] === p[1] && w[2] === p[2]) return true
  }
  return false
}

function apart(simplex: Corner[], v: Vec3, gap: number): Separation {
  const weights = weightsOf(simplex, v)
  let pa = ZERO
  let pb = ZERO
  for (let i = 0; i < simplex.length; i++) {
    const c = simplex[i] as Corner
    const weight = weights[i] as number
    pa = add(pa, scale(c.a, weight))
    pb = add(pb, scale(c.b, weight))
  }
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
      return nearestOnTetrahedron(
        corners[0] as Corner,
        corners[1] as Corner,
        corners[2] as Corner,
        corners[3] as Corner,
      )
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
  const pq = subtract(q.w, p.w)
  const pr = subtract(r.w, p.w)
  const d1 = -dot(pq, p.w)
  const d2 = -dot(pr, p.w)
  if (d1 <= 0 && d2 <= 0) return { v: p.w, simplex: [p] }
  const d3 = -dot(pq, q.w)
  const d4 = -dot(pr, q.w)
  if (d3 >= 0 && d4 <= d3) return { v: q.w, simplex: [q] }
  const d5 = -dot(pq, r.w)
  const d6 = -dot(pr, r.w)
  if (d6 >= 0 && d5 <= d6) return { v: r.w, simplex: [r] }
  const vr = d1 * d4 - d3 * d2
  const vq = d5 * d2 - d1 * d6
  const vp = d3 * d6 - d5 * d4
  if (vr <= 0 && d1 >= 0 && d3 <= 0) return nearestOnSegment(p, q)
  if (vq <= 0 && d2 >= 0 && d6 <= 0) return nearestOnSegment(p, r)
  if (vp <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return nearestOnSegment(q, r)
  const n = cross(pq, pr)
  const n2 = dot(n, n)
  if (n2 === 0) return nearestOnSegment(p, q)
  return { v: scale(n, dot(n, p.w) / n2), simplex: [p, q, r] }
}

function nearestOnTetrahedron(a: Corner, b: Corner, c: Corner, d: Corner): Near | undefined {
  let best = beyondFace(a, b, c, d)
  best = nearer(best, beyondFace(a, c, d, b))
  best = nearer(best, beyondFace(a, d, b, c))
  return nearer(best, beyondFace(b, d, c, a))
}

/** The nearest point of a face, where the origin lies on the other side of it than the apex. */
function beyondFace(p: Corner, q: Corner, r: Corner, apex: Corner): Near | undefined {
  const n = cross(subtract(q.w, p.w), subtract(r.w, p.w))
  const side = -dot(n, p.w)
  const own = dot(n, subtract(apex.w, p.w))
  return own !== 0 && side * own > 0 ? undefined : nearestOnTriangle(p, q, r)
}

const nearer = (best: Near | undefined, next: Near | undefined): Near | undefined =>
  next !== undefined && (best === undefined || norm(next.v) < norm(best.v)) ? next : best

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
  return [shareOf(q, r, v, n) / n2, shareOf(r, p, v, n) / n2, shareOf(p, q, v, n) / n2]
}

const shareOf = (from: Vec3, to: Vec3, v: Vec3, n: Vec3): number => dot(cross(subtract(from, v), subtract(to, v)), n)
