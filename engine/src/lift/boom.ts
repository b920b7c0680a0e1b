import { add, cross, dot, norm, type Pose, scale, subtract, unit, type Vec3 } from '../numeric/vector.ts'
import { widestGap } from '../numeric/widest.ts'
import { boomAngle } from './boom.formulas.ts'
import type { BodiesAt, HangingBody } from './hanging.ts'
import { type HookOver, posesOver } from './hookCourse.ts'
import { isShift } from './path.ts'
import type { Pick } from './pick.ts'
import type { TimedMotion } from './stages.ts'

/** The boom of a crane in a lift: a straight box from its pin, in the upright plane through the hook; m. */
export interface Boom {
  /** Slewing centre, site frame. */
  centre: readonly [x: number, y: number]
  length: number
  /** Its pin ahead of the slewing centre, and at which site z. */
  ahead: number
  level: number
  depth: number
  width: number
}

/** A moment of a lift's way. */
export interface Moment {
  /** Of the stages, and the share of it that is over. */
  stage: number
  share: number
  pose: Pose
  /** Where the hook stands, and how far that is from the slewing centre. */
  hook: Vec3
  radius: number
}

/** Nearest that something on the hook comes to the boom. */
export interface BoomNearest extends Moment {
  /** m; below zero it strikes. */
  gap: number
  body: HangingBody
  /** From the slewing centre along the radius, to the left of it, and site z. */
  at: Vec3
  /** Direction of the gap about the boom: from square under it, to the left, rad. */
  direction: number
  /** Where the gap begins on the body, and the way from there to the boom; site frame. */
  from: Vec3
  along: Vec3
}

/** A boom as it stands with its hook over a place: its pin, its head, and directions outward, to the left, along it and square under it. */
export interface BoomStanding {
  pin: Vec3
  head: Vec3
  outward: Vec3
  left: Vec3
  along: Vec3
  under: Vec3
}

/** A radius changes by no more than this from one moment to the next, m. */
const LUFF = 0.5

/** Moments of a way so close that a boom is not passed over between two: 5° of a slew, half a metre of the radius, a twelfth of a turn. */
export function momentsOf(
  pick: Pick,
  stages: readonly TimedMotion[],
  centre: Boom['centre'],
  hookOver: HookOver,
): Moment[] {
  return stages.flatMap(({ motion }, stage) => {
    if (motion.poses === undefined) return []
    const poses = posesOver(pick, motion)
    const all = isShift(...motion.poses) ? luffed(poses, centre, hookOver) : poses
    return all.map((pose, i) => {
      const hook = hookOver(pose)
      const { radius } = polarOf(hook, centre)
      return { stage, share: i / Math.max(1, all.length - 1), pose, hook, radius }
    })
  })
}

/** Of another machine's slew, or of a straight way, a boom's own slew changes by no more than this from one moment to the next. */
const SLEW = (5 * Math.PI) / 180
const LAST_BITS = 1e-6

function luffed(poses: readonly Pose[], centre: Boom['centre'], hookOver: HookOver): Pose[] {
  const between = poses.slice(1).flatMap((to, i) => {
    const from = poses[i] as Pose
    const [a, b] = [polarOf(hookOver(from), centre), polarOf(hookOver(to), centre)]
    const slew = Math.abs(Math.atan2(Math.sin(b.angle - a.angle), Math.cos(b.angle - a.angle)))
    const parts = Math.max(Math.abs(b.radius - a.radius) / LUFF, slew / SLEW)
    const steps = Math.max(1, Math.ceil(parts - LAST_BITS))
    const by = subtract(to.shift, from.shift)
    return Array.from({ length: steps }, (_, k) => ({
      turn: from.turn,
      shift: add(from.shift, scale(by, (k + 1) / steps)),
    }))
  })
  return [...poses.slice(0, 1), ...between]
}

function polarOf([x, y]: Vec3, centre: Boom['centre']): { angle: number; radius: number } {
  const [dx, dy] = [x - centre[0], y - centre[1]]
  return { angle: Math.atan2(dy, dx), radius: Math.hypot(dx, dy) }
}

/** Moments at whose radius the boom cannot stand. */
export const outOfReach = (boom: Boom, moments: readonly Moment[]): Moment | undefined =>
  moments.find(({ radius }) => radius <= boom.ahead || radius - boom.ahead >= boom.length)

/**
 * Nearest to the boom of each thing on the hook, over the moments of a way: for every convex body the largest gap over the
 * directions square to the boom, which is their distance while the boom is taken to go on at both ends. What would hang over the
 * boom, hoisted past its head, strikes it.
 */
export function nearestToBoom(boom: Boom, moments: readonly Moment[], bodiesAt: BodiesAt): BoomNearest[] {
  const least = new Map<string, BoomNearest>()
  for (const moment of moments) {
    const frame = frameAt(boom, moment)
    const bodies = bodiesAt(moment)
      .map((body) => ({ body, bound: leastOff(frame, body) }))
      .sort((a, b) => a.bound - b.bound)
    for (const { body, bound } of bodies) {
      const known = least.get(body.what)
      if (known !== undefined && bound >= known.gap) continue
      const found = gapOf(frame, boom, body, known?.gap)
      if (found.gap < (known?.gap ?? Infinity)) least.set(body.what, { ...moment, ...found, body })
    }
  }
  return [...least.values()].sort((a, b) => a.gap - b.gap)
}

/** The line of a boom in one moment: its pin and its head over the hook, site frame, m. */
export function lineOf(boom: Boom, { hook: [x, y] }: Moment): readonly [pin: Vec3, head: Vec3] {
  const { pin, head } = boomStanding(boom, [x, y])
  return [pin, head]
}

/** A boom that stands, the centre it slews about, and from its line to its farthest corner, m. */
interface Frame extends BoomStanding {
  centre: Vec3
  corner: number
}

function frameAt(boom: Boom, { hook: [x, y] }: Moment): Frame {
  const corner = Math.hypot(boom.depth, boom.width) / 2
  return { ...boomStanding(boom, [x, y]), centre: [...boom.centre, 0], corner }
}

/** How a boom stands with its hook plumb over a place of the site plan, m; one that does not reach it lies level towards it. */
export function boomStanding(
  { centre, ahead, level, length }: Omit<Boom, 'depth' | 'width'>,
  [x, y]: readonly [x: number, y: number],
): BoomStanding {
  const outward = unit([x - centre[0], y - centre[1], 0])
  const r = Math.hypot(x - centre[0], y - centre[1])
  const theta = r - ahead >= length ? 0 : boomAngle.value({ r, a: ahead, L: length })
  const up: Vec3 = [0, 0, 1]
  const pin = add(add([...centre, 0], scale(outward, ahead)), scale(up, level))
  const along = add(scale(outward, Math.cos(theta)), scale(up, Math.sin(theta)))
  return {
    pin,
    head: add(pin, scale(along, length)),
    outward,
    left: cross(up, outward),
    along,
    under: add(scale(outward, Math.sin(theta)), scale(up, -Math.cos(theta))),
  }
}

/** No body under the boom is nearer than the ball about it; one that lies over it may strike however far over it is. */
function leastOff({ pin, along, under, corner }: Frame, { centre, radius }: HangingBody): number {
  const way = subtract(centre, pin)
  return dot(way, under) < 0 ? -Infinity : norm(cross(way, along)) - radius - corner
}

/** Beside the boom, under it, and beside it on the right: what hangs from it is in one of these, never over it. */
const NOT_OVER = [Math.PI / 2, 0, -Math.PI / 2]

function gapOf(
  frame: Frame,
  { depth, width }: Boom,
  body: HangingBody,
  beyond = Infinity,
): Omit<BoomNearest, 'body' | keyof Moment> {
  const { pin, under, left } = frame
  const off = (phi: number): Vec3 => {
    const [c, s] = [Math.cos(phi), Math.sin(phi)]
    return [c * under[0] + s * left[0], c * under[1] + s * left[1], c * under[2] + s * left[2]]
  }
  const gapAlong = (phi: number): number => {
    const d = off(phi)
    const half = (depth * Math.abs(Math.cos(phi)) + width * Math.abs(Math.sin(phi))) / 2
    return -body.support([-d[0], -d[1], -d[2]]) - dot(pin, d) - half
  }
  const way = subtract(body.centre, pin)
  const widest = widestGap(gapAlong, Math.atan2(dot(way, left), dot(way, under)), beyond)
  const { angle: direction, gap } =
    Math.cos(widest.angle) < -LAST_BITS
      ? NOT_OVER.map((angle) => ({ angle, gap: gapAlong(angle) })).reduce((a, b) => (b.gap > a.gap ? b : a))
      : widest
  const d = scale(off(direction), -1)
  const near = body.facing(d)
  // where a body faces a direction is found from its slopes: moved on to the face itself
  const from = add(near, scale(d, body.support(d) - dot(near, d)))
  const point = subtract(from, frame.centre)
  return {
    gap,
    at: [dot(point, frame.outward), dot(point, frame.left), point[2]],
    direction,
    from,
    along: d,
  }
}
