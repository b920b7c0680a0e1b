import { type Descent, descend, type Landscape, stationaryNear } from '../numeric/descent.ts'
import {
  add,
  apply,
  cross,
  multiply,
  norm,
  type Pose,
  place,
  rotationBy,
  scale,
  subtract,
  unit,
  type Vec3,
} from '../numeric/vector.ts'
import { tensionOf } from './hangEnergy.ts'
import { energyOf } from './settleEnergy.ts'
import { stiffnesses } from './settleStiffness.ts'
import { endAt, offsetsOf, pivotOf, reachesOf, type Suspended, type SuspendedBody } from './suspended.ts'

/** How everything hangs. */
export interface Settled {
  poses: readonly Pose[]
  tensions: readonly number[]
  /** Of each line from the vertical, rad. */
  leans: readonly number[]
  /** Smallest eigenvalue of the second derivative with free turning about the vertical left out, N/m; stable above zero. */
  stiffness: number
  eigenvalues: readonly number[]
  /** Forces (N) and moments about its centre of gravity (N m) on each body that do not close, from the tensions alone. */
  residuals: readonly { force: number; moment: number }[]
  settled: boolean
  steps: number
}

const AT_REST = 1e-9
const LONGEST_STEP = 0.3
const MOST_STEPS = 300

/**
 * Equilibrium of rigid bodies on tension-only elastic lines, by the lowest energy near the start: six unknowns a body, three
 * where it is pinned to a hook; turns are taken one after the other, never as three angles.
 *
 * Source: derived; energy Σ ½k(stretch)² + Σ W z. Limits: linear lines without sag, frictionless points, rigid bodies.
 *
 * @param from poses to begin from; absent, those of the bodies
 */
export function settle(load: Suspended, from?: readonly Pose[]): Settled {
  const start = from ?? load.bodies.map((body) => pinned(body, body.start))
  return settledFrom(load, descend(landscapeOf(load), start, limitsOf(load)))
}

/** The pose near the start where forces close, stable or not; undefined where there is none. */
export function intendedSettle(load: Suspended): Settled | undefined {
  // lines that are slack have no stiffness: plain steps begin where everything, kept level, has come down into its lines
  const found = stationaryNear(landscapeOf(load), hungLevel(load), limitsOf(load))
  return found === undefined ? undefined : settledFrom(load, found)
}

/** The same without its eigenvalues: for the many corners of tolerances. */
export function settleNear(load: Suspended, near: readonly Pose[]): Omit<Settled, 'stiffness' | 'eigenvalues'> {
  return statedAt(load, descend(landscapeOf(load), near, limitsOf(load)))
}

/** Every body let down plumb, and kept from turning, until its lines carry it. */
function hungLevel(load: Suspended): readonly Pose[] {
  const { shift } = offsetsOf(load.bodies)
  const down = shift.flatMap((from) => (from === undefined ? [] : [from + 2]))
  const land = landscapeOf(load)
  const n = offsetsOf(load.bodies).n
  const start = load.bodies.map((body) => pinned(body, body.start))
  if (down.length === 0) return start
  const level: Landscape<readonly Pose[]> = {
    at: (poses) => {
      const { value, gradient, hessian } = land.at(poses)
      return {
        value,
        gradient: down.map((i) => gradient[i] as number),
        hessian: down.map((i) => down.map((j) => hessian[i]?.[j] as number)),
      }
    },
    moved: (poses, step) => {
      const full = new Array<number>(n).fill(0)
      for (const [k, i] of down.entries()) full[i] = step[k] as number
      return land.moved(poses, full)
    },
  }
  return descend(level, start, limitsOf(load)).at
}

const limitsOf = ({ bodies }: Suspended) => ({
  atRest: AT_REST * bodies.reduce((sum, b) => sum + b.weight, 0),
  longest: LONGEST_STEP,
  mostSteps: MOST_STEPS,
})

const pinned = ({ pin }: SuspendedBody, pose: Pose): Pose =>
  pin === undefined ? pose : { turn: pose.turn, shift: subtract(pin.anchor, apply(pose.turn, pin.at)) }

function landscapeOf(all: Suspended): Landscape<readonly Pose[]> {
  const reaches = reachesOf(all)
  const offsets = offsetsOf(all.bodies)
  return {
    at: (poses) => energyOf(all, poses, { reaches, offsets, steadied: true }),
    moved: (poses, step) => all.bodies.map((body, b) => movedBy(body, poses[b] as Pose, step, b, reaches, offsets)),
  }
}

function movedBy(
  body: SuspendedBody,
  pose: Pose,
  step: readonly number[],
  b: number,
  reaches: readonly number[],
  { shift, turn }: ReturnType<typeof offsetsOf>,
): Pose {
  const part = (from: number): Vec3 => [step[from] as number, step[from + 1] as number, step[from + 2] as number]
  const turned = multiply(rotationBy(scale(part(turn[b] as number), 1 / (reaches[b] as number))), pose.turn)
  const from = shift[b]
  const pivot = pivotOf(body)
  const at = from === undefined ? (body.pin as { anchor: Vec3 }).anchor : add(place(pose, pivot), part(from))
  return { turn: turned, shift: subtract(at, apply(turned, pivot)) }
}

function statedAt(all: Suspended, found: Descent<readonly Pose[]>) {
  const poses = found.at
  const spans = all.lines.map((line) => subtract(endAt(poses, line.upper), endAt(poses, line.lower)))
  const tensions = all.lines.map((line, i) => tensionOf(line, norm(spans[i] as Vec3)))
  return {
    poses,
    tensions,
    leans: spans.map((span) => Math.acos(Math.min(1, Math.max(-1, span[2] / norm(span))))),
    residuals: all.bodies.map((_, b) => residualOf(all, poses, b, spans, tensions)),
    settled: found.settled,
    steps: found.steps,
  }
}

function settledFrom(all: Suspended, found: Descent<readonly Pose[]>): Settled {
  const eigenvalues = stiffnesses(all, found.at)
  return { ...statedAt(all, found), eigenvalues, stiffness: eigenvalues[0] as number }
}

/** Forces and moments on one body that do not close; of a pinned one the moments about its pin. */
function residualOf(
  all: Suspended,
  poses: readonly Pose[],
  b: number,
  spans: readonly Vec3[],
  tensions: readonly number[],
): { force: number; moment: number } {
  const body = all.bodies[b] as SuspendedBody
  const pose = poses[b] as Pose
  const about = body.pin?.anchor ?? place(pose, body.cog)
  let [force, moment]: [Vec3, Vec3] = [
    [0, 0, -body.weight],
    cross(subtract(place(pose, body.cog), about), [0, 0, -body.weight]),
  ]
  for (const [i, line] of all.lines.entries()) {
    const pull = scale(unit(spans[i] as Vec3), tensions[i] as number)
    if (line.lower.body === b) {
      force = add(force, pull)
      moment = add(moment, cross(subtract(endAt(poses, line.lower), about), pull))
    }
    if (line.upper.body === b) {
      force = subtract(force, pull)
      moment = subtract(moment, cross(subtract(endAt(poses, line.upper), about), pull))
    }
  }
  return { force: body.pin === undefined ? norm(force) : 0, moment: norm(moment) }
}

/** Body z axis of a pose from the vertical, and its parts, rad. */
export function tiltsOf({ turn }: Pose): { up: Vec3; tilt: number; tiltX: number; tiltY: number } {
  const up: Vec3 = [turn[2][0], turn[2][1], turn[2][2]]
  return {
    up,
    tilt: Math.atan2(Math.hypot(up[0], up[1]), up[2]),
    tiltX: Math.atan2(up[0], up[2]),
    tiltY: Math.atan2(up[1], up[2]),
  }
}
