import type { System } from '../model/index.ts'
import { type Point2, polygonOf } from '../numeric/plan.ts'
import { dot, type Pose, type Vec3 } from '../numeric/vector.ts'
import { pointerOf } from '../working/pointer.ts'
import { type Hull, planDirection, turnedReach } from './hull.ts'
import type { Motion } from './motions.ts'
import type { Hooked, Pick } from './pick.ts'

const ARC = Math.PI / 36

/** Slewing centre of a crane at its standing, site frame; undefined for other machines, and where it has several and the lift names none. */
export function slewingCentre(pick: Pick, { system }: Hooked = pick.main): Point2 | undefined {
  if (!isCrane(system)) return undefined
  return placeOf(system, standingOf(pick, system))
}

/** Which of its standings a machine of a lift has: of one machine with two hooks that of the lift. */
export function standingOf({ main, lift }: Pick, system: System): number | undefined {
  return standingIn(system, system === main.system ? lift.standing : lift.tail?.standing)
}

/** Where the file should say where a machine of a lift stands. */
export function standingAt({ at, main, lift }: Pick, { system, systemAt }: Hooked): string {
  const isMain = system === main.system
  const said = isMain ? lift.standing : lift.tail?.standing
  if (said !== undefined) return systemAt + pointerOf('standings', said)
  return system.standings.length === 0 ? `${systemAt}/standings` : `${at}${isMain ? '' : '/tail'}/standing`
}

/** A crane that slews on its tracks or floats, not a tower, gantry or hoist. */
export const isCrane = ({ kind }: System): boolean => kind === 'crawler crane' || kind === 'mobile crane'

/** Which of its standings a crane has: as the lift says, or its only one; undefined where it has several and nobody says. */
export const standingIn = ({ standings }: System, said: number | undefined): number | undefined =>
  said ?? (standings.length === 1 ? 0 : undefined)

/** One of the places where a machine can stand, site plan; undefined where it is not said which. */
export function placeOf({ standings }: System, standing: number | undefined): Point2 | undefined {
  const at = standings[standing ?? -1]
  return at?.[0].value === undefined || at[1].value === undefined ? undefined : [at[0].value, at[1].value]
}

/**
 * Poses of a piece along a movement, so near each other that their hull holds all of it: both ends of a straight one, every 5°
 * of a slew, the radius changing evenly on the way.
 */
export function posesOn(pick: Pick, { name, poses, from, to }: Motion): Pose[] {
  if (poses === undefined) return []
  const centre = slewingCentre(pick)
  if (name !== 'travel' || centre === undefined || from === undefined || to === undefined) return [...poses]
  const [a, b] = [polar(from, centre), polar(to, centre)]
  const angle = Math.atan2(Math.sin(b.angle - a.angle), Math.cos(b.angle - a.angle))
  const steps = Math.max(1, Math.ceil(Math.abs(angle) / ARC))
  return Array.from({ length: steps + 1 }, (_, k) => {
    const share = k / steps
    const [direction, radius] = [a.angle + share * angle, a.radius + share * (b.radius - a.radius)]
    const at: Point2 = [centre[0] + radius * Math.cos(direction), centre[1] + radius * Math.sin(direction)]
    const { turn, shift } = poses[0]
    return { turn, shift: [shift[0] + at[0] - from[0], shift[1] + at[1] - from[1], shift[2]] }
  })
}

function polar([x, y]: Vec3, centre: Point2): { angle: number; radius: number } {
  return { angle: Math.atan2(y - centre[1], x - centre[0]), radius: Math.hypot(x - centre[0], y - centre[1]) }
}

/** How far a hull reaches in each of some directions at every pose of a way, m: `[poses × directions]`; see `turnedReach`. */
export const shadowsOf = (hull: Hull, poses: readonly Pose[], directions: readonly Vec3[]): number[][] =>
  poses.map(({ turn, shift }) => {
    const reach = turnedReach(hull, turn, directions)
    return directions.map((d, k) => (reach[k] as number) + dot(shift, d))
  })

const SIDES = 24
const AROUND = fan(SIDES)

/** Directions in plan, evenly turned from site x. */
export function fan(count: number): Vec3[] {
  return Array.from({ length: count }, (_, k) => planDirection((2 * Math.PI * k) / count))
}

/** Convex outline in plan about a hull over poses, `margin` wider all round; it touches on every one of its sides. */
export const outlineAbout = (hull: Hull, poses: readonly Pose[], margin: number): Point2[] =>
  outlineOf(shadowsOf(hull, poses, AROUND), margin)

/** Outlines of a hull at each pose, in their order. */
export const outlinesAt = (hull: Hull, poses: readonly Pose[]): Point2[][] =>
  shadowsOf(hull, poses, AROUND).map((shadow) => outlineOf([shadow], 0))

const outlineOf = (shadows: readonly (readonly number[])[], margin: number): Point2[] =>
  polygonOf(AROUND.map((_, k) => margin + Math.max(...shadows.map((shadow) => shadow[k] as number))))
