import type { Body, Frustum, RingSector } from '../../numeric/body.ts'
import { holdsPoint, wrapped } from '../../numeric/body.ts'
import {
  add,
  apply,
  distance,
  dot,
  inverse,
  norm,
  place,
  scale,
  subtract,
  transpose,
  unit,
  type Vec3,
} from '../../numeric/vector.ts'
import { cellsOf } from '../outline/cells.ts'
import type { Standing } from '../outline/picture.ts'

/** The point of bodies that lies nearest to a point, and how far that is; for showing where a gap is. */
export function nearestOn(standing: readonly Standing[], p: Vec3): { at: Vec3; away: number } | undefined {
  let best: { at: Vec3; away: number } | undefined
  for (const { body, pose } of standing) {
    const at = place(pose, nearestOnBody(body, place(inverse(pose), p)))
    const away = distance(at, p)
    if (best === undefined || away < best.away) best = { at, away }
  }
  return best
}

/** Where two sets of bodies come nearest: a point of each, and the distance between them. */
export interface Between {
  from: Vec3
  to: Vec3
  away: number
}

const ROUNDS = 24

/**
 * Nearest points of two sets of bodies, by going back and forth between each pair from a place to begin with. Exact for
 * convex bodies in the limit; for sectors of rings the place to begin with decides which side is found.
 */
export function nearestBetween(a: readonly Standing[], b: readonly Standing[], start: Vec3): Between | undefined {
  let best: Between | undefined
  for (const one of a)
    for (const other of b) {
      const found = backAndForth([one], [other], start)
      if (best === undefined || found.away < best.away) best = found
    }
  return best
}

function backAndForth(a: readonly Standing[], b: readonly Standing[], start: Vec3): Between {
  let [from, to] = [start, start]
  for (let round = 0; round < ROUNDS; round++) {
    const next = nearestOn(a, to)?.at ?? from
    const back = nearestOn(b, next)?.at ?? to
    const settled = distance(next, from) + distance(back, to) < SETTLED
    ;[from, to] = [next, back]
    if (settled) break
  }
  return { from, to, away: distance(from, to) }
}

const SETTLED = 1e-6

function nearestOnBody(body: Body, p: Vec3): Vec3 {
  switch (body.kind) {
    case 'ring sector':
      return nearestOnRing(body, p)
    case 'frustum':
      return nearestOnFrustum(body, p)
    case 'ball': {
      const out = subtract(p, body.centre)
      return norm(out) <= body.radius ? p : add(body.centre, scale(unit(out), body.radius))
    }
    case 'box': {
      const local = apply(transpose(body.turn), subtract(p, body.centre))
      const inside = local.map((x, i) => clamped(x, -(body.half[i] as number), body.half[i] as number))
      return add(body.centre, apply(body.turn, [inside[0] as number, inside[1] as number, inside[2] as number]))
    }
    case 'revolution':
    case 'prism':
    case 'cap':
      return nearestOnFacets(body, p)
    case 'mesh':
      return body.mesh.vertices
        .map((v) => add(body.at, scale(v, body.scale)))
        .reduce((best, v) => (distance(v, p) < distance(best, p) ? v : best))
    default:
      return body satisfies never
  }
}

/** How far facets may lie from what they stand for, m: these points are for showing a gap, not for its size. */
const FACET = 0.005

/** The point itself when it lies inside; otherwise the nearest corner of the facets. */
function nearestOnFacets(body: Body, p: Vec3): Vec3 {
  if (holdsPoint(body, p)) return p
  const corners = cellsOf(body, FACET).flat()
  return corners.reduce((best, v) => (distance(v, p) < distance(best, p) ? v : best))
}

const clamped = (x: number, least: number, most: number): number => Math.min(most, Math.max(least, x))

function nearestOnRing({ inner, outer, rear, front, start, sweep }: RingSector, [x, y, z]: Vec3): Vec3 {
  const along = clamped(x, rear, front)
  const offset = wrapped(Math.atan2(z, y) - start)
  if (offset <= sweep) {
    const angle = start + offset
    const r = clamped(Math.hypot(y, z), inner, outer)
    return [along, r * Math.cos(angle), r * Math.sin(angle)]
  }
  const edges = [start, start + sweep].map((angle): Vec3 => {
    const r = clamped(y * Math.cos(angle) + z * Math.sin(angle), inner, outer)
    return [along, r * Math.cos(angle), r * Math.sin(angle)]
  })
  const [a, b] = edges as [Vec3, Vec3]
  return distance(a, [x, y, z]) <= distance(b, [x, y, z]) ? a : b
}

function nearestOnFrustum({ from, to, radii }: Frustum, p: Vec3): Vec3 {
  const axis = unit(subtract(to, from))
  const length = distance(from, to)
  const out = subtract(p, from)
  const along = dot(out, axis)
  const aside = subtract(out, scale(axis, along))
  const t = clamped(along, 0, length)
  const radius = radii[0] + ((radii[1] - radii[0]) * t) / length
  const r = Math.min(norm(aside), radius)
  return add(from, add(scale(axis, t), scale(unit(aside), r)))
}
