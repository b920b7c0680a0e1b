import type { Shaft } from '../model/index.ts'
import { placedSupport } from '../numeric/body.ts'
import { goldenSection } from '../numeric/golden.ts'
import {
  apply,
  applyBack,
  dot,
  type Mat3,
  multiply,
  type Pose,
  place,
  rotationBy,
  transpose,
  type Vec3,
} from '../numeric/vector.ts'
import { widestGap } from '../numeric/widest.ts'
import type { Memory } from '../working/memory.ts'
import { type Hull, levelsOf, planDirection, reachOf, turnedAbout, turnedReach, turnOnto } from './hull.ts'
import { bodyTurn, isShift, posesAlong } from './path.ts'
import type { Pick } from './pick.ts'
import type { Suspension } from './suspension.ts'

/** Least gap of a piece to one thing along its way through the shaft. */
export interface Gap {
  /** m; below zero it strikes. */
  gap: number
  /** `wall`, or the id of the obstruction. */
  to: string
  /** Where, site frame, m: on the wall or on the obstruction. */
  at: Vec3
  /** Part that comes nearest. */
  part: string
  /** As found, or as it hangs. */
  as: string
  /** Solid of the hull that comes nearest, and the way in plan in which it does: an angle from site x, rad. */
  solid: number
  angle: number
}

/** A stretch of the way that lies in the shaft. */
interface Stretch {
  poses: readonly Pose[]
  low: number
  high: number
}

/**
 * Least gap to the wall and to each thing fixed in the shaft, the hull swept along its moves: as found, as it hangs by
 * plan, and as it hangs at the worst tilt. Solids are taken with their hollows filled, so a gap is never too large.
 */
export function gapsInShaft(pick: Pick, hull: Hull, shaft: Shaft, suspension: Suspension, memory: Memory): Gap[] {
  const poses = posesAlong(pick)
  const way = [hull, shaft, pick.machine?.pose, [...pick.gone].join(), ...pick.track]
  const { cogMachine } = pick.set
  // as found, a way hangs from the masses only where it turns, for it turns about the centre of gravity
  const turns = poses.slice(1).some((to, i) => !isShift(poses[i] as Pose, to))
  const found = memory.once(`lift-way/${pick.id}`, [...way, ...(turns ? cogMachine : [])], () =>
    gapsOnWay(pick, hull, shaft, poses, 'as found'),
  )
  const hung = memory.once(`lift-way-hung/${pick.id}`, [...way, ...cogMachine, suspension], () =>
    gapsHung(pick, hull, shaft, suspension),
  )
  return leastOfEach([...found, ...hung])
}

/** The same of what hangs over the piece, which is there only as it hangs. */
export function riggingGaps(pick: Pick, hull: Hull, shaft: Shaft, suspension: Suspension, memory: Memory): Gap[] {
  const way = [
    hull,
    shaft,
    pick.machine?.pose,
    [...pick.gone].join(),
    ...pick.track,
    ...pick.set.cogMachine,
    suspension,
  ]
  return memory.once(`lift-way-rigging/${pick.id}`, way, () => leastOfEach(gapsHung(pick, hull, shaft, suspension)))
}

const gapsHung = (pick: Pick, hull: Hull, shaft: Shaft, suspension: Suspension): Gap[] =>
  leansOf(suspension).flatMap(([as, up]) =>
    gapsOnWay(
      pick,
      hull,
      shaft,
      posesAlong(pick).map((pose) => hungPose(pick, pose, up)),
      as,
    ),
  )

function gapsOnWay(pick: Pick, hull: Hull, shaft: Shaft, poses: readonly Pose[], as: string): Gap[] {
  return stretchesOf(pick, hull, shaft, poses).flatMap((stretch) => gapsAlong(stretch, pick, hull, shaft, as))
}

/** What hangs plumb by plan and at the worst tilt, body frame, with words for each; none where the hang is not known. */
export function leansOf({ hang, envelope, leaning = [] }: Suspension): [string, Vec3][] {
  if (hang === undefined) return []
  const planned: [string, Vec3] = ['as it hangs', hang.up]
  const worst = envelope?.tilted.up ?? [...leaning].sort((a, b) => a[2] - b[2])[0]
  return worst === undefined ? [planned] : [planned, ['as it hangs at the worst tilt', worst]]
}

/** A piece whose z axis has left the vertical by more than this has been tipped by its moves. */
const UPRIGHT = 1e-6

/** How far the moves have turned the piece from the attitude that its rigging holds; undefined where they have tipped it. */
export const slewedBy = (pick: Pick, pose: Pose): Mat3 | undefined => slewedFrom(bodyTurn(pick), pose)

/** The same from an attitude. */
export function slewedFrom(attitude: Mat3, pose: Pose): Mat3 | undefined {
  const turned = multiply(pose.turn, transpose(attitude))
  return Math.abs(turned[2][2] - 1) > UPRIGHT ? undefined : turned
}

/**
 * The pose once the piece hangs free: turned about its centre of gravity, which stays under the hook. Its lean goes about the vertical
 * with it; once its moves have tipped it, the lean stays along the axes in which it was taken up.
 *
 * @param up direction that hangs plumb, body frame
 */
export function hungPose(pick: Pick, pose: Pose, up: Vec3): Pose {
  const slewed = slewedBy(pick, pose)
  return leaned(pose, slewed === undefined ? up : apply(slewed, up), pick.set.cogMachine)
}

/** A pose turned about a point of the machine so that a direction of the site comes to stand plumb. */
export const leaned = (pose: Pose, up: Vec3, about: Vec3): Pose =>
  turnedAbout(pose, rotationBy(turnOnto(up, [0, 0, 1])), place(pose, about))

function leastOfEach(gaps: readonly Gap[]): Gap[] {
  const least = new Map<string, Gap>()
  for (const gap of gaps) if (gap.gap < (least.get(gap.to)?.gap ?? Infinity)) least.set(gap.to, gap)
  return [...least.values()].sort((a, b) => a.gap - b.gap)
}

const SUBSTEPS = 12

/** Moves that begin, or end, below the top of the shaft. */
function stretchesOf(pick: Pick, hull: Hull, shaft: Shaft, poses: readonly Pose[]): Stretch[] {
  const levels = poses.map((pose) => levelsOf(hull, pose))
  const top = shaft.collar.value as number
  return poses.slice(1).flatMap((to, i) => {
    const from = poses[i] as Pose
    const [a, b] = [levels[i], levels[i + 1]] as [{ low: number; high: number }, { low: number; high: number }]
    if (a.low > top && b.low > top) return []
    const between = isShift(from, to) ? [from, to] : substeps(pick, from, to)
    return [{ poses: between, low: Math.min(a.low, b.low), high: Math.max(a.high, b.high) }]
  })
}

/** A turn in steps, about the centre of gravity's way: its hull is taken at each. */
export function substeps(pick: Pick, from: Pose, to: Pose): Pose[] {
  const spin = rotationVector(multiply(to.turn, transpose(from.turn)))
  const [a, b] = [place(from, pick.set.cogMachine), place(to, pick.set.cogMachine)]
  return Array.from({ length: SUBSTEPS + 1 }, (_, k) => {
    const share = k / SUBSTEPS
    const turned = turnedAbout(from, rotationBy([spin[0] * share, spin[1] * share, spin[2] * share]), a)
    return {
      turn: turned.turn,
      shift: turned.shift.map((s, i) => s + share * ((b[i] as number) - (a[i] as number))) as unknown as Vec3,
    }
  })
}

/** Axis × angle of a rotation. */
function rotationVector(m: Pose['turn']): Vec3 {
  const cosine = (m[0][0] + m[1][1] + m[2][2] - 1) / 2
  const angle = Math.acos(Math.min(1, Math.max(-1, cosine)))
  const k = angle < 1e-9 ? 0.5 : angle / (2 * Math.sin(angle))
  return [k * (m[2][1] - m[1][2]), k * (m[0][2] - m[2][0]), k * (m[1][0] - m[0][1])]
}

function gapsAlong(whole: Stretch, pick: Pick, hull: Hull, shaft: Shaft, as: string): Gap[] {
  const stretch = { ...whole, poses: unlikeInPlan(whole.poses) }
  const fixed = Object.entries(shaft.obstructions).filter(([id, o]) => !pick.gone.has(id) && spansMeet(o.z, stretch))
  const ways = fixed.length === 0 ? [] : waysOf(hull, stretch.poses)
  return [
    ...stretch.poses.map((pose) => ({ ...wallGap(hull, pose, shaft), as })),
    ...fixed.map(([id, o]) => ({ ...fixedGap(hull, stretch.poses, o, ways), to: id, as })),
  ]
}

/** Poses without those that differ from one before only in height. */
const unlikeInPlan = (poses: readonly Pose[]): Pose[] =>
  poses.filter(
    (pose, i) => !poses.slice(0, i).some((other) => isShift(pose, other) && shiftInPlan(pose, other) < 1e-12),
  )

export const shiftInPlan = (a: Pose, b: Pose): number => Math.hypot(a.shift[0] - b.shift[0], a.shift[1] - b.shift[1])

function spansMeet([from, to]: Obstruction['z'], { low, high }: Stretch): boolean {
  const [a, b] = [from.value as number, to.value as number]
  return Math.min(a, b) <= high && Math.max(a, b) >= low
}

const DIRECTIONS = 72
const REFINEMENTS = 30
const STEP = (2 * Math.PI) / DIRECTIONS
const AROUND = Array.from({ length: DIRECTIONS }, (_, k) => planDirection(k * STEP))

/** Clear radius less the largest distance of the hull from the axis of the shaft: the support in every plan direction. */
export function wallGap(hull: Hull, pose: Pose, shaft: Shaft): Omit<Gap, 'as'> {
  const radius = (shaft.clearDiameter.value as number) / 2
  const fan = turnedReach(hull, pose.turn, AROUND)
  let best = 0
  let most = Number.NEGATIVE_INFINITY
  for (let k = 0; k < DIRECTIONS; k++) {
    const reach = (fan[k] as number) + dot(pose.shift, AROUND[k] as Vec3)
    if (reach > most) [best, most] = [k, reach]
  }
  let last = 0
  const reach = (angle: number): number => {
    const found = reachOf(hull, pose, planDirection(angle), last)
    last = found.solid
    return found.reach
  }
  const angle = peakAbout(reach, best * STEP, STEP)
  const { reach: farthest, part, solid } = reachOf(hull, pose, planDirection(angle))
  const at: Vec3 = [radius * Math.cos(angle), radius * Math.sin(angle), reachLevel(hull, pose)]
  return { gap: radius - farthest, to: 'wall', at, part, solid, angle }
}

const reachLevel = (hull: Hull, pose: Pose): number => {
  const { low, high } = levelsOf(hull, pose)
  return (low + high) / 2
}

/** Angle of the largest value of a function of a direction about the best of a fan, by golden section. */
const peakAbout = (of: (angle: number) => number, best: number, step: number): number =>
  goldenSection(of, (value) => value, { from: best - step, to: best + step, sections: REFINEMENTS }).at

type Obstruction = Shaft['obstructions'][string]

/** Where the centre of each solid goes. */
const waysOf = (hull: Hull, poses: readonly Pose[]): Vec3[][] =>
  hull.solids.map(({ centre }) => poses.map((pose) => place(pose, centre)))

/**
 * Gap in plan between the swept hull and a fixed thing, solid by solid, the nearest by its ball first; those that are farther off are
 * passed over.
 *
 * @param ways where the centre of each solid goes, as all fixed things beside one stretch have it
 */
export function fixedGap(
  hull: Hull,
  poses: readonly Pose[],
  o: Obstruction,
  ways: readonly (readonly Vec3[])[] = waysOf(hull, poses),
): Omit<Gap, 'as' | 'to'> {
  const outline = outlineOf(o)
  let least: Omit<Gap, 'as' | 'to'> = { gap: Infinity, at: outline.centre, part: '', solid: 0, angle: 0 }
  const bounds = hull.solids.map(
    ({ radius }, i) => distanceToWay(outline.centre, ways[i] as readonly Vec3[]) - outline.radius - radius,
  )
  for (let next = leastAt(bounds); (bounds[next] as number) < least.gap; next = leastAt(bounds)) {
    const solid = hull.solids[next] as Hull['solids'][number]
    const { gap, angle } = solidGap(solid, poses, outline, (ways[next] as readonly Vec3[])[0] as Vec3, least.gap)
    if (gap < least.gap) least = { gap, at: outline.toward(angle), part: solid.part, solid: next, angle }
    bounds[next] = Infinity
  }
  return least
}

/** Place of the least of some numbers, the first of like ones. */
function leastAt(numbers: readonly number[]): number {
  let at = 0
  for (let i = 1; i < numbers.length; i++) if ((numbers[i] as number) < (numbers[at] as number)) at = i
  return at
}

/** Distance in plan of a point from a way of straight stretches. */
function distanceToWay(p: Vec3, way: readonly Vec3[]): number {
  let least = Infinity
  for (let i = 0; i < way.length; i++) {
    const [a, b] = [way[Math.max(0, i - 1)] as Vec3, way[i] as Vec3]
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
    const square = dx * dx + dy * dy
    const along = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square))
    const [x, y] = [p[0] - a[0] - along * dx, p[1] - a[1] - along * dy]
    least = Math.min(least, Math.sqrt(x * x + y * y))
  }
  return least
}

interface Outline {
  centre: Vec3
  /** Of a circle about it. */
  radius: number
  /** Least of p · direction over it. */
  least(direction: Vec3): number
  toward(angle: number): Vec3
}

function outlineOf({ x, y, z, round }: Obstruction): Outline {
  const [x0, x1, y0, y1] = [x[0], x[1], y[0], y[1]].map((v) => v.value as number) as [number, number, number, number]
  const half: readonly [number, number] = [Math.abs(x1 - x0) / 2, Math.abs(y1 - y0) / 2]
  const level = ((z[0].value as number) + (z[1].value as number)) / 2
  const centre: Vec3 = [(x0 + x1) / 2, (y0 + y1) / 2, level]
  const reach = (d: Vec3): number =>
    round ? Math.max(half[0], half[1]) : Math.abs(d[0]) * half[0] + Math.abs(d[1]) * half[1]
  return {
    centre,
    radius: round ? Math.max(half[0], half[1]) : Math.hypot(half[0], half[1]),
    least: (d) => centre[0] * d[0] + centre[1] * d[1] - reach(d),
    toward: (angle) => {
      const d = planDirection(angle)
      const k = reach(d)
      return [centre[0] - d[0] * k, centre[1] - d[1] * k, level]
    },
  }
}

/**
 * Distance of convex outlines in plan: the largest gap over all directions; below zero the least way out. The gap in any one
 * direction is a lower bound: once it reaches `beyond` the solid is not the nearest, and that bound is given back.
 */
function solidGap(
  solid: Hull['solids'][number],
  poses: readonly Pose[],
  outline: Outline,
  from: Vec3,
  beyond: number,
): { gap: number; angle: number } {
  const gapAlong = (angle: number): number => {
    const d = planDirection(angle)
    let reach = -Infinity
    for (let i = 0; i < poses.length; i++) {
      const { turn, shift } = poses[i] as Pose
      reach = Math.max(reach, placedSupport(solid, applyBack(turn, d)) + dot(shift, d))
    }
    return outline.least(d) - reach
  }
  const ahead = Math.atan2(outline.centre[1] - from[1], outline.centre[0] - from[0])
  return widestGap(gapAlong, ahead, beyond)
}
