import type { Mesh } from './mesh.ts'
import { type Polygon, polygonHolds } from './polygon.ts'
import { add, applyBack, dot, type Mat3, norm, type Pose, scale, subtract, type Vec3 } from './vector.ts'

/** A sector of a ring about the x axis; angles about +x from +y, radians; `sweep` in (0, 2π]. */
export interface RingSector {
  kind: 'ring sector'
  inner: number
  outer: number
  rear: number
  front: number
  start: number
  sweep: number
}

/** A frustum of a cone between two centres; a cylinder where the radii agree. */
export interface Frustum {
  kind: 'frustum'
  from: Vec3
  to: Vec3
  radii: readonly [number, number]
}

export interface Ball {
  kind: 'ball'
  centre: Vec3
  radius: number
}

/** A box with edges of length 2·half along the columns of `turn`. */
export interface Box {
  kind: 'box'
  centre: Vec3
  half: Vec3
  turn: Mat3
}

/** A profile turned about an axis: corners (along the axis from the origin, distance from it), going round to the left. */
export interface Revolution {
  kind: 'revolution'
  origin: Vec3
  /** Unit vector. */
  axis: Vec3
  profile: Polygon
}

/** A polygon in the plane of the first two columns of `turn`, drawn out along the third; corners go round to the left. */
export interface Prism {
  kind: 'prism'
  origin: Vec3
  turn: Mat3
  outline: Polygon
  depth: number
}

/** What a plane cuts off a ball: the plane stands square to the axis, the dome on its far side. */
export interface Cap {
  kind: 'cap'
  /** Of the ball. */
  centre: Vec3
  /** Unit vector to the top of the dome. */
  axis: Vec3
  /** Of the ball. */
  radius: number
  height: number
}

/** A closed mesh: vertex · scale + at. */
export interface MeshBody {
  kind: 'mesh'
  mesh: Mesh
  scale: number
  at: Vec3
}

export type Body = RingSector | Frustum | Ball | Box | Revolution | Prism | Cap | MeshBody

/** Least and greatest coordinates. */
export interface Bounds {
  min: Vec3
  max: Vec3
}

const TURN = 2 * Math.PI

/**
 * Support function: the greatest p · direction over the body. Exact for every shape, so bounds are tight in any pose: turn
 * the direction back instead of the body.
 *
 * @param direction any vector; the result scales with its length
 */
export function supportOf(body: Body, direction: Vec3): number {
  switch (body.kind) {
    case 'ring sector':
      return ringSupport(body, direction)
    case 'frustum':
      return frustumSupport(body, direction)
    case 'ball':
      return dot(body.centre, direction) + body.radius * norm(direction)
    case 'box': {
      const local = applyBack(body.turn, direction)
      const { half } = body
      const across = half[0] * Math.abs(local[0]) + half[1] * Math.abs(local[1]) + half[2] * Math.abs(local[2])
      return dot(body.centre, direction) + across
    }
    case 'revolution':
      return revolutionSupport(body, direction)
    case 'prism':
      return prismSupport(body, direction)
    case 'cap':
      return capSupport(body, direction)
    case 'mesh':
      return body.scale * meshSupport(body.mesh, direction) + dot(body.at, direction)
    default:
      return body satisfies never
  }
}

function ringSupport({ inner, outer, rear, front, start, sweep }: RingSector, direction: Vec3): number {
  const [x, y, z] = [direction[0], direction[1], direction[2]]
  const along = Math.max(x * rear, x * front)
  const cross = Math.sqrt(y * y + z * z)
  if (cross === 0) return along
  const offset = wrapped(Math.atan2(z, y) - start)
  if (offset <= sweep) return along + outer * cross
  const best = Math.max(Math.cos(offset), Math.cos(offset - sweep))
  return along + cross * best * (best > 0 ? outer : inner)
}

/** An angle brought into [0, 2π). */
export const wrapped = (angle: number): number => ((angle % TURN) + TURN) % TURN

/** The farther of both discs; number by number, for nothing is asked more often of a piece. */
function frustumSupport({ from, to, radii }: Frustum, direction: Vec3): number {
  const [x, y, z] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]]
  const along = (direction[0] * x + direction[1] * y + direction[2] * z) / Math.sqrt(x * x + y * y + z * z)
  const across = acrossOf(direction, along)
  return Math.max(dot(from, direction) + radii[0] * across, dot(to, direction) + radii[1] * across)
}

/** Length of what of a direction lies across an axis. */
const acrossOf = (direction: Vec3, along: number): number =>
  Math.sqrt(Math.max(0, dot(direction, direction) - along * along))

function revolutionSupport({ origin, axis, profile }: Revolution, direction: Vec3): number {
  const along = dot(direction, axis)
  const across = acrossOf(direction, along)
  return dot(origin, direction) + farthest(profile, along, across)
}

/** Greatest reach of a polygon's corners in a direction of its plane. */
function farthest(polygon: Polygon, dx: number, dy: number): number {
  let most = Number.NEGATIVE_INFINITY
  for (let i = 0; i < polygon.length; i++) {
    const corner = polygon[i] as Polygon[number]
    most = Math.max(most, corner[0] * dx + corner[1] * dy)
  }
  return most
}

function prismSupport({ origin, turn, outline, depth }: Prism, direction: Vec3): number {
  const local = applyBack(turn, direction)
  return dot(origin, direction) + farthest(outline, local[0], local[1]) + Math.max(0, depth * local[2])
}

function capSupport({ centre, axis, radius, height }: Cap, direction: Vec3): number {
  const along = dot(direction, axis)
  const base = radius - height
  if (along * radius >= base * norm(direction)) return dot(centre, direction) + radius * norm(direction)
  const rim = Math.sqrt(Math.max(0, radius * radius - base * base))
  return dot(centre, direction) + base * along + rim * acrossOf(direction, along)
}

function meshSupport({ vertices }: Mesh, direction: Vec3): number {
  let most = -Infinity
  for (const v of vertices) most = Math.max(most, dot(v, direction))
  return most
}

/** Tight bounds of bodies after a rigid placement. At least one body. */
export function boundsOf(bodies: readonly Body[], { turn, shift }: Pose): Bounds {
  const reach = (axis: number, sign: 1 | -1): number => {
    const direction = scale(turn[axis] as Vec3, sign)
    return Math.max(...bodies.map((b) => supportOf(b, direction))) + sign * (shift[axis] as number)
  }
  return {
    min: [-reach(0, -1), -reach(1, -1), -reach(2, -1)],
    max: [reach(0, 1), reach(1, 1), reach(2, 1)],
  }
}

/** Bounds that hold all of these. At least one. */
export function boundsTogether(bounds: readonly Bounds[]): Bounds {
  const over = (pick: (...values: number[]) => number, side: 'min' | 'max'): Vec3 => [
    pick(...bounds.map((b) => b[side][0])),
    pick(...bounds.map((b) => b[side][1])),
    pick(...bounds.map((b) => b[side][2])),
  ]
  return { min: over(Math.min, 'min'), max: over(Math.max, 'max') }
}

/** Whether a point lies in a body or on its surface. For a mesh by the winding number, so closed meshes only. */
export function holdsPoint(body: Body, p: Vec3): boolean {
  switch (body.kind) {
    case 'ring sector': {
      const r = Math.hypot(p[1], p[2])
      if (p[0] < body.rear || p[0] > body.front || r < body.inner || r > body.outer) return false
      return wrapped(Math.atan2(p[2], p[1]) - body.start) <= body.sweep
    }
    case 'frustum': {
      const line = subtract(body.to, body.from)
      const t = dot(subtract(p, body.from), line) / dot(line, line)
      if (t < 0 || t > 1) return false
      const off = norm(subtract(p, add(body.from, scale(line, t))))
      return off <= body.radii[0] + t * (body.radii[1] - body.radii[0])
    }
    case 'ball':
      return norm(subtract(p, body.centre)) <= body.radius
    case 'box': {
      const local = applyBack(body.turn, subtract(p, body.centre))
      return local.every((x, i) => Math.abs(x) <= (body.half[i] as number))
    }
    case 'revolution': {
      const out = subtract(p, body.origin)
      const along = dot(out, body.axis)
      return polygonHolds(body.profile, [along, acrossOf(out, along)])
    }
    case 'prism': {
      const [a, b, c] = applyBack(body.turn, subtract(p, body.origin))
      return c >= 0 && c <= body.depth && polygonHolds(body.outline, [a, b])
    }
    case 'cap': {
      const out = subtract(p, body.centre)
      return norm(out) <= body.radius && dot(out, body.axis) >= body.radius - body.height
    }
    case 'mesh':
      return meshHolds(body, p)
    default:
      return body satisfies never
  }
}

/** Solid angle of the surface seen from the point, by the formula of van Oosterom and Strackee (from memory). */
function meshHolds({ mesh, scale: k, at }: MeshBody, p: Vec3): boolean {
  const q = scale(subtract(p, at), 1 / k)
  let halfAngle = 0
  for (const [ia, ib, ic] of mesh.triangles) {
    const [a, b, c] = [ia, ib, ic].map((i) => subtract(mesh.vertices[i] as Vec3, q)) as [Vec3, Vec3, Vec3]
    const [la, lb, lc] = [norm(a), norm(b), norm(c)]
    const det =
      a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    halfAngle += Math.atan2(det, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb)
  }
  return halfAngle > Math.PI
}

/** The body after a rigid placement; a ring sector keeps its axis and only turns about it, so it is given as placed. */
export interface Placed {
  body: Body
  pose: Pose
}

/** Greatest p · direction over a placed body. */
export const placedSupport = ({ body, pose }: Placed, direction: Vec3): number =>
  supportOf(body, applyBack(pose.turn, direction)) + dot(pose.shift, direction)

/** Whether a placed body holds a point. */
export const placedHolds = ({ body, pose }: Placed, p: Vec3): boolean =>
  holdsPoint(body, applyBack(pose.turn, subtract(p, pose.shift)))
