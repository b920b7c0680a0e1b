import { type Body, type Placed, placedSupport } from '../numeric/body.ts'
import {
  add,
  apply,
  applyBack,
  compose,
  dot,
  type Mat3,
  norm,
  type Pose,
  scale,
  subtract,
  unit,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'

/** The outside of a piece: every solid where it is, frame: machine. Cuts are left out, so it is never too small. */
export interface Hull {
  solids: readonly HullSolid[]
}

interface HullSolid extends Placed {
  /** Part instance it belongs to. */
  part: string
  /** A box about it along the machine's axes, to pass it over quickly, and the ball about that. */
  low: Vec3
  high: Vec3
  centre: Vec3
  radius: number
}

/** A hull of placed bodies, each named by its part. */
export const hullOf = (bodies: readonly { part: string; body: Body; pose: Pose }[]): Hull => ({
  solids: bodies.map((b) => ({ ...b, ...boxAbout(b) })),
})

function boxAbout(placed: Placed): Pick<HullSolid, 'low' | 'high' | 'centre' | 'radius'> {
  const along = (axis: number, sign: number): number =>
    sign * placedSupport(placed, [0, 1, 2].map((i) => (i === axis ? sign : 0)) as unknown as Vec3)
  const [low, high] = [-1, 1].map((sign) => [along(0, sign), along(1, sign), along(2, sign)]) as unknown as [Vec3, Vec3]
  const centre = scale(add(low, high), 0.5)
  return { low, high, centre, radius: norm(subtract(high, centre)) }
}

/** A direction asked of a hull: how far it reaches that way, and by which solid and part. */
export interface Reach {
  reach: number
  part: string
  solid: number
}

/**
 * Greatest p · direction over a hull after a placement; exact for every solid.
 *
 * @param pose machine frame to site frame
 * @param direction unit vector, site frame
 * @param guess solid that reached farthest in a direction near this one: looked at first, so that others are passed over
 */
export function reachOf(hull: Hull, pose: Pose, direction: Vec3, guess = 0): Reach {
  const local = applyBack(pose.turn, direction)
  let solid = Math.min(guess, hull.solids.length - 1)
  let reach = placedSupport(hull.solids[solid] as HullSolid, local)
  for (let i = 0; i < hull.solids.length; i++) {
    const other = hull.solids[i] as HullSolid
    if (i === solid || boxReach(other, local) <= reach) continue
    const tried = placedSupport(other, local)
    if (tried > reach) [solid, reach] = [i, tried]
  }
  return { reach: reach + dot(pose.shift, direction), part: (hull.solids[solid] as HullSolid).part, solid }
}

/** No point of a solid reaches farther than its box. */
const boxReach = ({ low, high }: HullSolid, d: Vec3): number =>
  (d[0] > 0 ? high[0] : low[0]) * d[0] + (d[1] > 0 ? high[1] : low[1]) * d[1] + (d[2] > 0 ? high[2] : low[2]) * d[2]

interface Turned {
  turn: Mat3
  reach: readonly number[]
}

const turnedReaches = new WeakMap<Hull, Map<readonly Vec3[], Turned[]>>()

const isSameTurn = (a: Mat3, b: Mat3): boolean => a === b || a.every((row, i) => row.every((x, j) => x === b[i]?.[j]))

/** Turns of a hull whose reaches are kept: more than a lift has, and few enough that a long day fills nothing. */
const MOST_TURNS = 64

/**
 * How far a turned hull reaches in some directions, before it is shifted, m. It is kept with the hull: what a piece sweeps is
 * asked for by many checks and lifts, and hangs from no mass.
 *
 * @param directions unit vectors, site frame; a list that is made once, for it is told apart by identity
 */
export function turnedReach(hull: Hull, turn: Mat3, directions: readonly Vec3[]): readonly number[] {
  const ofHull = turnedReaches.get(hull) ?? new Map<readonly Vec3[], Turned[]>()
  turnedReaches.set(hull, ofHull)
  const known = ofHull.get(directions) ?? []
  ofHull.set(directions, known)
  const kept = known.find((one) => isSameTurn(one.turn, turn))
  if (kept !== undefined) return kept.reach
  const reach = directions.map((d) => reachOf(hull, { turn, shift: ZERO }, d).reach)
  if (known.length >= MOST_TURNS) known.length = 0
  known.push({ turn, reach })
  return reach
}

const DOWN_AND_UP: readonly Vec3[] = [
  [0, 0, -1],
  [0, 0, 1],
]

/** Lowest and highest site z of a hull after a placement, m. */
export function levelsOf(hull: Hull, { turn, shift }: Pose): { low: number; high: number } {
  const [down, up] = turnedReach(hull, turn, DOWN_AND_UP) as [number, number]
  return { low: shift[2] - down, high: up + shift[2] }
}

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

const TILT = 1e-5

/** Where a solid faces a direction: the middle of its face there, from how its support changes with the direction. */
export function facing(hull: Hull, pose: Pose, solid: number, d: Vec3): Vec3 {
  const own = hull.solids[solid] as Hull['solids'][number]
  const placed = { body: own.body, pose: compose(pose, own.pose) }
  const along = (axis: number): number => {
    const [more, less] = [1, -1].map((sign) => d.map((x, i) => (i === axis ? x + sign * TILT : x)) as unknown as Vec3)
    return (placedSupport(placed, more as Vec3) - placedSupport(placed, less as Vec3)) / (2 * TILT)
  }
  return [along(0), along(1), along(2)]
}
