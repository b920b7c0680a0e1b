import { add, apply, cross, dot, norm, type Pose, place, scale, unit, type Vec3, ZERO } from './vector.ts'

/** An arc of a circle: centre + radius (cos t · u + sin t · v), |t| ≤ half; u and v are perpendicular units. */
export interface Arc {
  centre: Vec3
  u: Vec3
  v: Vec3
  radius: number
  half: number
  cos: number
  sin: number
}

/** A part of a sphere about an axis: the points of the sphere within an angle of it. Its rim is an arc of the hull. */
export interface SphereCap {
  centre: Vec3
  /** Unit vector. */
  axis: Vec3
  radius: number
  /** Cosine of the angle from the axis to the rim. */
  cos: number
}

/**
 * The convex hull of points and arcs, grown by `round`, moved by `shift` and swept along `sweep`. Curved faces are exact:
 * a cylinder is two arcs, not a polygon.
 */
export interface Hull {
  points: readonly Vec3[]
  arcs: readonly Arc[]
  caps?: readonly SphereCap[]
  round: number
  shift: Vec3
  sweep: Vec3
}

/** Hull of points, arcs and balls of one radius about the points. */
export const hullOf = (points: readonly Vec3[], arcs: readonly Arc[] = [], round = 0): Hull => ({
  points,
  arcs,
  round,
  shift: ZERO,
  sweep: ZERO,
})

/** An arc about `u`, reaching `half` to either side. */
export const arcOf = (centre: Vec3, u: Vec3, v: Vec3, radius: number, half: number): Arc => ({
  centre,
  u,
  v,
  radius,
  half,
  cos: Math.cos(half),
  sin: Math.sin(half),
})

/** The same hull moved by `shift` and swept along `sweep`: the convex hull of where it starts and where it ends. */
export const movedHull = (hull: Hull, shift: Vec3, sweep: Vec3): Hull => ({
  points: hull.points,
  arcs: hull.arcs,
  ...(hull.caps === undefined ? {} : { caps: hull.caps }),
  round: hull.round,
  shift: add(hull.shift, shift),
  sweep: add(hull.sweep, sweep),
})

/** A point of the hull farthest along `d`. */
export function supportPoint(hull: Hull, d: Vec3): Vec3 {
  const dx = d[0]
  const dy = d[1]
  const dz = d[2]
  let most = Number.NEGATIVE_INFINITY
  let x = 0
  let y = 0
  let z = 0
  const { points, arcs } = hull
  for (let i = 0; i < points.length; i++) {
    const p = points[i] as Vec3
    const reach = p[0] * dx + p[1] * dy + p[2] * dz
    if (reach > most) {
      most = reach
      x = p[0]
      y = p[1]
      z = p[2]
    }
  }
  for (let i = 0; i < arcs.length; i++) {
    const a = arcs[i] as Arc
    const { centre: c, u, v } = a
    const along = u[0] * dx + u[1] * dy + u[2] * dz
    const across = v[0] * dx + v[1] * dy + v[2] * dz
    const length = Math.sqrt(along * along + across * across)
    const inside = along >= length * a.cos || a.half >= Math.PI
    const cu = a.radius * (length === 0 ? 1 : inside ? along / length : a.cos)
    const cv = a.radius * (length === 0 ? 0 : inside ? across / length : across < 0 ? -a.sin : a.sin)
    const reach = c[0] * dx + c[1] * dy + c[2] * dz + cu * along + cv * across
    if (reach > most) {
      most = reach
      x = c[0] + cu * u[0] + cv * v[0]
      y = c[1] + cu * u[1] + cv * v[1]
      z = c[2] + cu * u[2] + cv * v[2]
    }
  }
  if (hull.caps !== undefined) {
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz)
    for (const { centre: c, axis, radius, cos } of hull.caps) {
      if (length === 0 || axis[0] * dx + axis[1] * dy + axis[2] * dz < cos * length) continue
      const k = radius / length
      if (c[0] * dx + c[1] * dy + c[2] * dz + radius * length <= most) continue
      most = c[0] * dx + c[1] * dy + c[2] * dz + radius * length
      x = c[0] + k * dx
      y = c[1] + k * dy
      z = c[2] + k * dz
    }
  }
  const { shift, sweep } = hull
  const forward = sweep[0] * dx + sweep[1] * dy + sweep[2] * dz > 0
  const grow = hull.round === 0 ? 0 : hull.round / (Math.sqrt(dx * dx + dy * dy + dz * dz) || 1)
  return [
    x + shift[0] + (forward ? sweep[0] : 0) + grow * dx,
    y + shift[1] + (forward ? sweep[1] : 0) + grow * dy,
    z + shift[2] + (forward ? sweep[2] : 0) + grow * dz,
  ]
}

/** Greatest p · d over the hull. */
export const reachAlong = (hull: Hull, d: Vec3): number => dot(supportPoint(hull, d), d)

/** The hull after a rigid placement; sweep and shift are carried along. */
export function placedHull(hull: Hull, pose: Pose): Hull {
  const turned = (p: Vec3): Vec3 => apply(pose.turn, p)
  return {
    points: hull.points.map((p) => place(pose, p)),
    arcs: hull.arcs.map((a) => ({ ...a, centre: place(pose, a.centre), u: turned(a.u), v: turned(a.v) })),
    ...(hull.caps === undefined
      ? {}
      : { caps: hull.caps.map((c) => ({ ...c, centre: place(pose, c.centre), axis: turned(c.axis) })) }),
    round: hull.round,
    shift: turned(hull.shift),
    sweep: turned(hull.sweep),
  }
}

/** One hull around two that are not moved or swept. */
export function hullAround(a: Hull, b: Hull, round: number): Hull {
  const hull = hullOf([...a.points, ...b.points], [...a.arcs, ...b.arcs], round)
  const caps = [...(a.caps ?? []), ...(b.caps ?? [])]
  return caps.length === 0 ? hull : { ...hull, caps }
}

/** Axis-aligned bounds as least x, y, z and greatest x, y, z. */
export type Extent = readonly [number, number, number, number, number, number]

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
]

/** Exact axis-aligned bounds. */
export function extentOf(hull: Hull): Extent {
  const most = AXES.map((axis) => reachAlong(hull, axis))
  const least = AXES.map((axis) => -reachAlong(hull, scale(axis, -1)))
  return [...least, ...most] as unknown as Extent
}

/** Bounds moved by `shift` and stretched along `sweep`. */
export function movedExtent(e: Extent, shift: Vec3, sweep: Vec3): Extent {
  return [
    e[0] + shift[0] + Math.min(0, sweep[0]),
    e[1] + shift[1] + Math.min(0, sweep[1]),
    e[2] + shift[2] + Math.min(0, sweep[2]),
    e[3] + shift[0] + Math.max(0, sweep[0]),
    e[4] + shift[1] + Math.max(0, sweep[1]),
    e[5] + shift[2] + Math.max(0, sweep[2]),
  ]
}

/** Least distance between two bounds; zero where they meet. */
export function extentGap(a: Extent, b: Extent): number {
  let sum = 0
  for (let i = 0; i < 3; i++) {
    const apart = Math.max((a[i] as number) - (b[i + 3] as number), (b[i] as number) - (a[i + 3] as number), 0)
    sum += apart * apart
  }
  return Math.sqrt(sum)
}

/** Bounds around all of these; at least one. */
export function extentAround(extents: readonly Extent[]): Extent {
  const low = (i: number) => Math.min(...extents.map((e) => e[i] as number))
  const high = (i: number) => Math.max(...extents.map((e) => e[i] as number))
  return [low(0), low(1), low(2), high(3), high(4), high(5)]
}

/**
 * Greatest distance of the hull from a line; exact for points and for arcs in planes across the line, an upper bound for
 * arcs in other planes.
 *
 * @param axis unit direction of the line
 */
export function greatestRadius(hull: Hull, origin: Vec3, axis: Vec3): number {
  const ends = norm(hull.sweep) === 0 ? [hull.shift] : [hull.shift, add(hull.shift, hull.sweep)]
  let most = 0
  for (const end of ends) {
    for (const p of hull.points) most = Math.max(most, norm(acrossFrom(add(p, end), origin, axis)))
    for (const a of hull.arcs) most = Math.max(most, arcRadius(a, end, origin, axis))
    for (const { centre, radius } of hull.caps ?? [])
      most = Math.max(most, norm(acrossFrom(add(centre, end), origin, axis)) + radius)
  }
  return most + hull.round
}

/**
 * A point of a hull as far from a line as any, and the unit vector to it from the line. Where `greatestRadius` gives a bound,
 * for arcs in planes that lean, it is near by.
 */
export function widestPoint(hull: Hull, origin: Vec3, axis: Vec3): { at: Vec3; out: Vec3 } {
  const ends = norm(hull.sweep) === 0 ? [hull.shift] : [hull.shift, add(hull.shift, hull.sweep)]
  let [at, off] = [origin, ZERO]
  for (const point of ends.flatMap((end) => widePoints(hull, end, origin, axis))) {
    const own = acrossFrom(point, origin, axis)
    if (norm(own) >= norm(off)) [at, off] = [point, own]
  }
  const out = unit(off)
  return { at: add(at, scale(out, hull.round)), out }
}

/** Points among which is the widest, at one end of a sweep. */
function widePoints(hull: Hull, end: Vec3, origin: Vec3, axis: Vec3): Vec3[] {
  const outwards = (centre: Vec3, radius: number, otherwise: Vec3): Vec3 => {
    const off = acrossFrom(centre, origin, axis)
    return add(centre, scale(norm(off) < 1e-12 ? otherwise : unit(off), radius))
  }
  const side = unit(cross(axis, Math.abs(axis[0]) < 0.5 ? [1, 0, 0] : [0, 1, 0]))
  return [
    ...hull.points.map((p) => add(p, end)),
    ...hull.arcs.flatMap((a) => {
      const centre = add(a.centre, end)
      const off = acrossFrom(centre, origin, axis)
      if (a.half >= Math.PI || norm(off) < 1e-12 || dot(off, a.u) >= norm(off) * a.cos)
        return [outwards(centre, a.radius, a.u)]
      return [1, -1].map((sign) => add(centre, add(scale(a.u, a.radius * a.cos), scale(a.v, sign * a.radius * a.sin))))
    }),
    ...(hull.caps ?? []).map(({ centre, radius }) => outwards(add(centre, end), radius, side)),
  ]
}

function arcRadius(a: Arc, end: Vec3, origin: Vec3, axis: Vec3): number {
  const c = acrossFrom(add(a.centre, end), origin, axis)
  const off = norm(c)
  const inPlane = Math.abs(dot(a.u, axis)) < 1e-9 && Math.abs(dot(a.v, axis)) < 1e-9
  if (off < 1e-12 || a.half >= Math.PI || !inPlane) return off + a.radius
  const [along, across] = [dot(c, a.u), dot(c, a.v)]
  if (along >= off * a.cos) return off + a.radius
  const tip = add(c, add(scale(a.u, a.radius * a.cos), scale(a.v, a.radius * (across < 0 ? -a.sin : a.sin))))
  return norm(tip)
}

/** The part of p − origin that is perpendicular to the axis. */
function acrossFrom(p: Vec3, origin: Vec3, axis: Vec3): Vec3 {
  const d: Vec3 = [p[0] - origin[0], p[1] - origin[1], p[2] - origin[2]]
  const along = dot(d, axis)
  return [d[0] - along * axis[0], d[1] - along * axis[1], d[2] - along * axis[2]]
}
