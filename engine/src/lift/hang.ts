import { type Descent, descend, type Landscape, stationaryNear } from '../numeric/descent.ts'
import { eigenOf } from '../numeric/symmetric.ts'
import {
  add,
  angleBetween,
  apply,
  cross,
  dot,
  IDENTITY,
  multiply,
  norm,
  type Pose,
  place,
  rotationBy,
  scale,
  subtract,
  unit,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { type Energy, energyAt, pullsOf, upOf } from './hangEnergy.ts'
import { restNear } from './restNear.ts'

/** A leg that pulls and never pushes. */
export interface ElasticLeg {
  /** Lower end: a point of the piece, body frame; of a leg above the spreader, a point of the spreader in its frame. m */
  to: Vec3
  /** Upper end on the spreader, its frame, m; absent, the hook. */
  from?: Vec3
  /** Unstressed length, m. */
  length: number
  /** Axial stiffness EA, N. */
  stiffness: number
}

/** A rigid spreader: pinned to the hook at the origin of its frame, or hung from it by legs of its own. */
export interface HungSpreader {
  /** N */
  weight: number
  /** Centre of gravity, its own frame, m. */
  cog: Vec3
  /** Legs between hook and spreader; none where it is pinned to the hook. */
  top: readonly ElasticLeg[]
}

/** A rigid piece under one hook. Body frame: right-handed, z up when the piece hangs as it is meant to. */
export interface HungLoad {
  legs: readonly ElasticLeg[]
  /** Weight of the piece with what is bolted to it, N. */
  weight: number
  /** Centre of gravity, body frame, m. */
  cog: Vec3
  spreader?: HungSpreader
}

/** Where the hook and the spreader are, seen from the piece. */
export interface HangPose {
  hook: Vec3
  /** Spreader's frame to body frame. */
  spreader: Pose
}

/** A piece in a pose, with what anyone needs to check it. */
export interface Hanging {
  pose: HangPose
  /** Unit vector up, body frame. */
  up: Vec3
  /** N, in the order of the legs; zero where a leg is slack. */
  tensions: readonly number[]
  /** Of the legs above the spreader, N. */
  topTensions: readonly number[]
  /** Of each leg from the vertical, rad. */
  angles: readonly number[]
  topAngles: readonly number[]
  /** Between the body's z axis and the vertical, rad; and its parts atan2(n_x, n_z), atan2(n_y, n_z). */
  tilt: number
  tiltX: number
  tiltY: number
  /** Spreader's z axis from the vertical, rad. */
  spreaderTilt: number
  /** Forces (N) and moments (N m) on the piece and on the spreader that do not close, recomputed from the tensions. */
  residual: { force: number; moment: number; spreaderForce: number; spreaderMoment: number }
  /** Newton's steps to it. */
  steps?: number
}

/** How a piece hangs. */
export interface Hang extends Hanging {
  /** Smallest eigenvalue of the energy's second derivative, N/m (turns scaled by `reach`); stable above zero. */
  stiffness: number
  eigenvalues: readonly number[]
  /** Distance that a turn of the spreader is scaled by, m. */
  reach: number
  settled: boolean
  steps: number
}

const AT_REST = 1e-9
const LONGEST_STEP = 0.3
const MOST_STEPS = 200

/**
 * Equilibrium of a rigid piece on tension-only elastic legs under one hook, by the lowest energy near the pose that is meant:
 * everything turns until its weight is plumb under the hook, which leaves the hook's place seen from the piece as the
 * unknown, and with a spreader the spreader's pose as well.
 *
 * Source: derived; energy Σ ½k(stretch)² − Σ W·h. Limits: linear legs without sag, frictionless points, rigid bodies.
 *
 * @param start where to begin; absent, a hook above the points that fits the lengths
 */
export function hang(load: HungLoad, start: HangPose = startOf(load)): Hang {
  return hangFrom(load, descend(landscapeOf(load), start, limitsOf(load)))
}

/** The same from a pose that is near, without the pose's stiffness: for the many corners of tolerances. */
export function hangingNear(load: HungLoad, near: HangPose): Hanging {
  const { at, steps } = descend(landscapeOf(load), near, limitsOf(load))
  return { ...hangingAt(load, at), steps }
}

/** The same from how it hangs at another corner of the tolerances, which is near; where that leads nowhere, by descent. */
export function hangingFrom(load: HungLoad, near: Hanging): Hanging {
  const [reach, limits] = [reachOf(load), limitsOf(load)]
  const rest = restNear(load, near, { ...limits, reach, moved: (at, step) => movedBy(load, at, step, reach) })
  const hanging = rest && { ...hangingAt(load, rest.at), steps: rest.steps }
  return hanging !== undefined && isClosed(hanging, limits.atRest, reach) ? hanging : hangingNear(load, near.pose)
}

/** Rest is told from the slope by rounding of its own. */
const ROUNDING = 10

const isClosed = ({ residual: { force, spreaderForce, spreaderMoment } }: Hanging, atRest: number, reach: number) =>
  Math.max(force, spreaderForce, spreaderMoment / reach) <= ROUNDING * atRest

/** Farther than this from where it hung, a piece that was pushed has not come back, rad. */
const BACK = 1e-3

/** Whether a piece pushed out this far along and across, either way, swings back to where it hung. */
export const swingsBack = (load: HungLoad, now: Hanging, out: number): boolean =>
  [
    [out, 0],
    [-out, 0],
    [0, out],
    [0, -out],
  ].every(([x, y]) => {
    // the spreader goes with the hook: it is the piece that is pushed
    const by: Vec3 = [x as number, y as number, 0]
    const { hook, spreader } = now.pose
    const after = hangingNear(load, {
      hook: add(hook, by),
      spreader: { turn: spreader.turn, shift: add(spreader.shift, by) },
    })
    return angleBetween(after.up, now.up) < BACK
  })

const HIGHEST = 8
const HALVINGS = 14

/**
 * How much higher the centre of gravity may lie before the pose that is meant is not stable any more, m; negative where it is
 * already too high. Looked for within 8 m either way, beyond which the sign alone is meant.
 */
export function heightToSpare(load: HungLoad): number {
  const isStable = (by: number): boolean =>
    (intendedHang({ ...load, cog: add(load.cog, [0, 0, by]) })?.stiffness ?? -1) > 0
  let [low, high] = [-HIGHEST, HIGHEST]
  if (!isStable(low)) return low
  if (isStable(high)) return high
  for (let round = 0; round < HALVINGS; round++) {
    const middle = (low + high) / 2
    if (isStable(middle)) low = middle
    else high = middle
  }
  return low
}

/** Beyond this a pose is not the one that was meant, rad. */
export const NEAR_LEVEL = (10 * Math.PI) / 180

/**
 * The pose near level where forces close, whether it is stable or not; undefined when there is none near level.
 *
 * @param most tilt up to which a pose counts as the one that was meant, rad; 10° unless said otherwise
 */
export function intendedHang(load: HungLoad, most: number = NEAR_LEVEL): Hang | undefined {
  const found = stationaryNear(landscapeOf(load), startOf(load), limitsOf(load))
  if (found === undefined) return undefined
  const result = hangFrom(load, found)
  return result.tilt < most ? result : undefined
}

/** Smallest eigenvalue of the second derivative in the pose fitted to the lengths, N/m. */
export const levelStiffness = (load: HungLoad): number =>
  eigenOf(landscapeOf(load).at(startOf(load)).hessian).values[0] as number

const limitsOf = (load: HungLoad) => ({
  atRest: AT_REST * load.weight,
  longest: LONGEST_STEP,
  mostSteps: MOST_STEPS,
})

/** How far out the spreader's ends are: its turns are measured by the way they move these. */
const reachOf = ({ legs }: HungLoad): number => Math.max(...legs.map((leg) => (leg.from ? norm(leg.from) : 0)), 1e-3)

/** Energy of the hang over the pose. Steps: hook shift (m), spreader turn × reach (m), spreader shift (m). */
export function landscapeOf(load: HungLoad): Landscape<HangPose> {
  const reach = reachOf(load)
  return {
    at: (pose, spare) => energyAt(load, pose, reach, { spare: spare as Energy | undefined }),
    moved: (pose, step) => movedBy(load, pose, step, reach),
  }
}

function movedBy(load: HungLoad, at: HangPose, step: readonly number[], reach: number): HangPose {
  const hook = add(at.hook, threeOf(step, 0))
  if (load.spreader === undefined) return { hook, spreader: at.spreader }
  const turn = multiply(rotationBy(scale(threeOf(step, 3), 1 / reach)), at.spreader.turn)
  const shift = load.spreader.top.length === 0 ? hook : add(at.spreader.shift, threeOf(step, 6))
  return { hook, spreader: { turn, shift } }
}

const threeOf = (step: readonly number[], from: number): Vec3 => [
  step[from] as number,
  step[from + 1] as number,
  step[from + 2] as number,
]

/** A leg as long as an even share of a weight stretches it. */
const stretched = <L extends ElasticLeg>(legs: readonly L[], weight: number): L[] =>
  legs.map((leg) => ({ ...leg, length: leg.length * (1 + weight / legs.length / leg.stiffness) }))

/** A hook above the points, fitted to the stretched lengths from top to bottom. */
function startOf(load: HungLoad): HangPose {
  const { spreader } = load
  const legs = stretched(load.legs, load.weight)
  if (spreader === undefined) {
    const hook = fitted(
      legs.map((leg) => ({ to: leg.to, length: leg.length })),
      load.cog,
    )
    return { hook, spreader: { turn: IDENTITY, shift: hook } }
  }
  const shift = fitted(
    legs.map((leg) => ({ to: subtract(leg.to, leg.from ?? ZERO), length: leg.length })),
    load.cog,
  )
  const hook = spreader.top.length === 0 ? ZERO : fitted(stretched(spreader.top, load.weight), spreader.cog)
  return { hook: add(shift, hook), spreader: { turn: IDENTITY, shift } }
}

const FITTING_ROUNDS = 40

/** A point at about these distances from the points below it, above all of them. */
function fitted(below: readonly { to: Vec3; length: number }[], over: Vec3): Vec3 {
  const highest = Math.max(...below.map(({ to }) => to[2]))
  let at: Vec3 = [over[0], over[1], highest + Math.max(...below.map(({ length }) => length))]
  for (let round = 0; round < FITTING_ROUNDS; round++) {
    let pull: Vec3 = ZERO
    for (const { to, length } of below) {
      const span = subtract(at, to)
      const now = norm(span)
      pull = add(pull, scale(span, (length - now) / now / below.length))
    }
    at = [at[0] + pull[0], at[1] + pull[1], Math.max(at[2] + pull[2], highest + 1e-2)]
  }
  return at
}

function hangFrom(load: HungLoad, found: Descent<HangPose>): Hang {
  const eigen = eigenOf(landscapeOf(load).at(found.at).hessian)
  return {
    ...hangingAt(load, found.at),
    stiffness: eigen.values.filter((_, k) => !isSpin(load, found.at, eigen.vectors[k] as number[]))[0] as number,
    eigenvalues: eigen.values,
    reach: reachOf(load),
    settled: found.settled,
    steps: found.steps,
  }
}

/** What a load does in this pose. */
export function hangingAt(load: HungLoad, pose: HangPose): Hanging {
  const up = upOf(load, pose)
  const pulls = pullsOf(load, pose)
  const { legs, top } = pulls
  return {
    pose,
    up,
    tensions: legs.map((l) => l.tension),
    topTensions: top.map((l) => l.tension),
    angles: legs.map(({ direction }) => angleBetween(direction, up)),
    topAngles: top.map(({ direction }) => angleBetween(direction, up)),
    tilt: Math.atan2(Math.hypot(up[0], up[1]), up[2]),
    tiltX: Math.atan2(up[0], up[2]),
    tiltY: Math.atan2(up[1], up[2]),
    spreaderTilt: load.spreader === undefined ? 0 : angleBetween(apply(pose.spreader.turn, [0, 0, 1]), up),
    residual: residualOf(load, pose, up, pulls),
  }
}

/** A straight spreader pinned in its own line may spin about that line; nothing depends on it. */
function isSpin(load: HungLoad, at: HangPose, vector: readonly number[]): boolean {
  if (load.spreader === undefined || load.spreader.top.length > 0) return false
  const ends = load.legs.flatMap((leg) => (leg.from === undefined || norm(leg.from) === 0 ? [] : [leg.from]))
  if (ends.length === 0) return true
  const line = unit(ends[0] as Vec3)
  if ([...ends, load.spreader.cog].some((end) => norm(cross(line, end)) > 1e-9)) return false
  const [, , , x, y, z] = vector
  return Math.abs(dot([x as number, y as number, z as number], apply(at.spreader.turn, line))) > 0.999
}

/** Forces and moments that do not close, from the tensions and the geometry alone. */
function residualOf(
  load: HungLoad,
  pose: HangPose,
  up: Vec3,
  { legs, top }: ReturnType<typeof pullsOf>,
): Hanging['residual'] {
  let [force, moment]: [Vec3, Vec3] = [scale(up, -load.weight), ZERO]
  for (const [i, { tension, direction }] of legs.entries()) {
    const pull = scale(direction, tension)
    force = add(force, pull)
    moment = add(moment, cross(subtract((load.legs[i] as ElasticLeg).to, load.cog), pull))
  }
  if (load.spreader === undefined)
    return { force: norm(force), moment: norm(moment), spreaderForce: 0, spreaderMoment: 0 }
  const s = load.spreader
  let onSpreader: Vec3 = scale(up, -s.weight)
  let turning: Vec3 = cross(armOf(pose, s.cog), onSpreader)
  for (const [i, { tension, direction }] of legs.entries()) {
    const from = load.legs[i]?.from
    if (from === undefined) continue
    onSpreader = subtract(onSpreader, scale(direction, tension))
    turning = subtract(turning, cross(armOf(pose, from), scale(direction, tension)))
  }
  for (const { tension, direction } of top) onSpreader = add(onSpreader, scale(direction, tension))
  // the pull of the legs above passes through the hook, and so does the pin's: neither has a moment about it
  return {
    force: norm(force),
    moment: norm(moment),
    spreaderForce: s.top.length === 0 ? 0 : norm(onSpreader),
    spreaderMoment: norm(turning),
  }
}

/** A point of the spreader from the hook, body frame, m. */
const armOf = ({ spreader, hook }: HangPose, point: Vec3): Vec3 => subtract(place(spreader, point), hook)
