import { add, IDENTITY, type Pose, scale, type Vec3, ZERO } from '../numeric/vector.ts'
import { settle, tiltsOf } from './settle.ts'

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
  const found = settle({
    bodies: [{ weight: load.weight, cog: load.cog, start: startOf(load) }],
    lines: load.lines.map(({ anchor, to, length, stiffness }) => ({
      lower: { body: 0, at: to },
      upper: { at: anchor },
      length,
      stiffness,
    })),
  })
  const [pose, residual] = [found.poses[0] as Pose, found.residuals[0] as OnLines['residual']]
  const { tilt, tiltX, tiltY } = tiltsOf(pose)
  const { tensions, leans, stiffness, settled } = found
  return { pose, tensions, leans, tilt, tiltX, tiltY, stiffness, residual, settled }
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
