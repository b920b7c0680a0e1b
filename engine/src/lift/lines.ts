import { descend, type Landscape } from '../numeric/descent.ts'
import { eigenOf } from '../numeric/symmetric.ts'
import {
  add,
  apply,
  cross,
  IDENTITY,
  multiply,
  norm,
  type Pose,
  place,
  rotationBy,
  scale,
  subtract,
  transpose,
  unit,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { addLeg, addSpan, type Energy, mirrored, noEnergy, tensionOf } from './hangEnergy.ts'

/** An elastic line from a fixed point to a point of the piece; it pulls and never pushes. */
export interface FixedLine {
  /** Site frame, m. */
  anchor: Vec3
  /** Body frame, m. */
  to: Vec3
  length: number
  /** EA, N. */
  stiffness: number
}

/** A rigid piece on lines from several fixed points: two hooks, strand jacks on a tower. */
export interface LinedLoad {
  lines: readonly FixedLine[]
  /** N */
  weight: number
  /** Body frame, m. */
  cog: Vec3
}

/** How it hangs. */
export interface OnLines {
  /** Body frame to site frame. */
  pose: Pose
  tensions: readonly number[]
  /** Each line from plumb, rad. */
  leans: readonly number[]
  /** Body z axis from the vertical, and its parts. */
  tilt: number
  tiltX: number
  tiltY: number
  /** Smallest eigenvalue of the second derivative, N/m (turns scaled by the reach of the points); stable above zero. */
  stiffness: number
  residual: { force: number; moment: number }
  settled: boolean
}

/**
 * Equilibrium of a rigid piece on tension-only elastic lines from fixed points, by the lowest energy near level.
 *
 * Source: derived; energy Σ ½k(stretch)² + W z over three shifts and three turns. Limits: as for one hook.
 */
export function hangFromLines(load: LinedLoad): OnLines {
  const limits = { atRest: 1e-8 * load.weight, longest: 0.3, mostSteps: 300 }
  const { at, settled } = descend(landscapeOf(load), startOf(load), limits)
  return hungFrom(load, at, settled)
}

const reachOf = ({ lines, cog }: LinedLoad): number =>
  Math.max(...lines.map((line) => norm(subtract(line.to, cog))), 1e-3)

/** Steps: shift (m), then turn about the site axes × reach (m). Turns are about the frame's origin. */
function landscapeOf(load: LinedLoad): Landscape<Pose> {
  const reach = reachOf(load)
  return {
    at: (pose) => energyAt(load, pose, reach),
    moved: ({ turn, shift }, [x, y, z, a, b, c]) => ({
      turn: multiply(rotationBy([(a as number) / reach, (b as number) / reach, (c as number) / reach]), turn),
      shift: add(shift, [x as number, y as number, z as number]),
    }),
  }
}

function energyAt(load: LinedLoad, pose: Pose, reach: number): Energy {
  const energy = noEnergy(6)
  const arm = apply(pose.turn, load.cog)
  energy.value += load.weight * (pose.shift[2] + arm[2])
  const down = { direction: [0, 0, 1] as Vec3, pull: load.weight, along: 0, across: 0 }
  addSpan(energy, { hook: 1, shift: 0, turn: 1, arm }, down, reach)
  for (const line of load.lines) {
    const ends = { hook: -1, shift: 0, turn: -1, arm: apply(pose.turn, line.to) }
    addLeg(energy, line, subtract(line.anchor, place(pose, line.to)), ends, reach)
  }
  return mirrored(energy)
}

/** Level, the centre of gravity under the middle of the anchors, as low as the lines let it. */
function startOf({ lines, cog }: LinedLoad): Pose {
  const middle = scale(
    lines.reduce<Vec3>((sum, line) => add(sum, line.anchor), ZERO),
    1 / lines.length,
  )
  const shift: Vec3 = [middle[0] - cog[0], middle[1] - cog[1], 0]
  const levels = lines.map((line) => {
    const across = Math.hypot(line.anchor[0] - line.to[0] - shift[0], line.anchor[1] - line.to[1] - shift[1])
    return line.anchor[2] - line.to[2] - Math.sqrt(Math.max(0, line.length ** 2 - across ** 2))
  })
  return { turn: IDENTITY, shift: [shift[0], shift[1], Math.min(...levels)] }
}

function hungFrom(load: LinedLoad, pose: Pose, settled: boolean): OnLines {
  const spans = load.lines.map((line) => subtract(line.anchor, place(pose, line.to)))
  const tensions = load.lines.map((line, i) => tensionOf(line, norm(spans[i] as Vec3)))
  const up = apply(transpose(pose.turn), [0, 0, 1])
  return {
    pose,
    tensions,
    leans: spans.map((span) => Math.acos(Math.min(1, Math.max(-1, span[2] / norm(span))))),
    tilt: Math.atan2(Math.hypot(up[0], up[1]), up[2]),
    tiltX: Math.atan2(up[0], up[2]),
    tiltY: Math.atan2(up[1], up[2]),
    stiffness: eigenOf(energyAt(load, pose, reachOf(load)).hessian).values[0] as number,
    residual: residualOf(load, pose, spans, tensions),
    settled,
  }
}

/** Forces and moments about the centre of gravity that do not close, from the tensions alone. */
function residualOf(
  load: LinedLoad,
  pose: Pose,
  spans: readonly Vec3[],
  tensions: readonly number[],
): OnLines['residual'] {
  let [force, moment]: [Vec3, Vec3] = [[0, 0, -load.weight], ZERO]
  for (const [i, span] of spans.entries()) {
    const pull = scale(unit(span), tensions[i] as number)
    force = add(force, pull)
    moment = add(moment, cross(apply(pose.turn, subtract((load.lines[i] as FixedLine).to, load.cog)), pull))
  }
  return { force: norm(force), moment: norm(moment) }
}
