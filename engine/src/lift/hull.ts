import { type Body, type Placed, placedSupport, supportOf } from '../numeric/body.ts'
import { apply, compose, dot, norm, type Pose, place, transpose, unit, type Vec3 } from '../numeric/vector.ts'

/** The outside of a piece: every solid where it is, frame: machine. Cuts are left out, so it is never too small. */
export interface Hull {
  solids: readonly HullSolid[]
}

interface HullSolid extends Placed {
  /** Part instance it belongs to. */
  part: string
  /** A ball about it, to pass it over quickly. */
  centre: Vec3
  radius: number
}

/** A hull of placed bodies, each named by its part. */
export const hullOf = (bodies: readonly { part: string; body: Body; pose: Pose }[]): Hull => ({
  solids: bodies.map((b) => ({ ...b, ...ballAbout(b) })),
})

/** A ball that holds a body: from its extents along the axes of its own frame. */
function ballAbout(placed: Placed): { centre: Vec3; radius: number } {
  const { body, pose } = placed
  const reach = (axis: number, sign: number): number =>
    supportOf(body, [0, 1, 2].map((i) => (i === axis ? sign : 0)) as unknown as Vec3)
  const spans = [0, 1, 2].map((axis) => [-reach(axis, -1), reach(axis, 1)] as const)
  const centre = spans.map(([a, b]) => (a + b) / 2) as unknown as Vec3
  const radius = norm(spans.map(([a, b]) => (b - a) / 2) as unknown as Vec3)
  return { centre: place(pose, centre), radius }
}

/** A direction asked of a hull: how far it reaches that way, and which part reaches there. */
export interface Reach {
  reach: number
  part: string
}

/**
 * Greatest p · direction over a hull after a placement; exact for every solid.
 *
 * @param pose machine frame to site frame
 * @param direction unit vector, site frame
 */
export function reachOf(hull: Hull, pose: Pose, direction: Vec3): Reach {
  const local = apply(transpose(pose.turn), direction)
  let best: Reach = { reach: -Infinity, part: '' }
  for (const solid of hull.solids) {
    if (dot(solid.centre, local) + solid.radius <= best.reach) continue
    const reach = placedSupport(solid, local)
    if (reach > best.reach) best = { reach, part: solid.part }
  }
  return { reach: best.reach + dot(pose.shift, direction), part: best.part }
}

/** Lowest and highest site z of a hull after a placement, m. */
export const levelsOf = (hull: Hull, pose: Pose): { low: number; high: number } => ({
  low: -reachOf(hull, pose, [0, 0, -1]).reach,
  high: reachOf(hull, pose, [0, 0, 1]).reach,
})

/** The pose after turning a placed hull about a fixed point of the site, m. */
export const turnedAbout = (pose: Pose, turn: Pose['turn'], about: Vec3): Pose => {
  const back = apply(turn, about)
  return compose({ turn, shift: [about[0] - back[0], about[1] - back[1], about[2] - back[2]] }, pose)
}

/** Unit vector in plan at this angle from site x. */
export const planDirection = (angle: number): Vec3 => [Math.cos(angle), Math.sin(angle), 0]

/** Smallest rotation that brings one unit vector onto another. */
export function turnOnto(from: Vec3, onto: Vec3): Vec3 {
  const axis: Vec3 = [
    from[1] * onto[2] - from[2] * onto[1],
    from[2] * onto[0] - from[0] * onto[2],
    from[0] * onto[1] - from[1] * onto[0],
  ]
  const sine = norm(axis)
  if (sine === 0) return axis
  const angle = Math.atan2(sine, dot(from, onto))
  const direction = unit(axis)
  return [direction[0] * angle, direction[1] * angle, direction[2] * angle]
}
