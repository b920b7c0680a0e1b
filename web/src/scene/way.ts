import { apply, type Mat3, type Pose, rotationBy, subtract, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'

/** One movement in the site frame: along a line, or about an axis. */
export type Leg = { by: Vec3 } | { turn: Vec3; about: Vec3 }

/** A way through the site: poses before the first leg and after each, from the pose as found. */
export interface Way {
  poses: readonly Pose[]
  legs: readonly Leg[]
  /** Share of the whole way done after each leg. */
  until: readonly number[]
}

/** A turn counts as long as the arc at this distance, m: so that turning takes its time beside travelling. */
const ARM = 6

const lengthOf = (leg: Leg): number => ('by' in leg ? Math.hypot(...leg.by) : ARM * Math.hypot(...leg.turn))

/** What a leg does to a pose when this share of it is done. */
export function posePartly({ turn, shift }: Pose, leg: Leg, share: number): Pose {
  if ('by' in leg) {
    const [x, y, z] = leg.by
    return { turn, shift: [shift[0] + x * share, shift[1] + y * share, shift[2] + z * share] }
  }
  const [a, b, c] = leg.turn
  const part = rotationBy([a * share, b * share, c * share])
  const off = apply(part, subtract(shift, leg.about))
  return {
    turn: product(part, turn),
    shift: [leg.about[0] + off[0], leg.about[1] + off[1], leg.about[2] + off[2]],
  }
}

const product = (a: Mat3, b: Mat3): Mat3 => {
  const cell = (i: 0 | 1 | 2, j: 0 | 1 | 2): number => a[i][0] * b[0][j] + a[i][1] * b[1][j] + a[i][2] * b[2][j]
  const rowOf = (i: 0 | 1 | 2): Vec3 => [cell(i, 0), cell(i, 1), cell(i, 2)]
  return [rowOf(0), rowOf(1), rowOf(2)]
}

/** The way that legs make from a pose; legs that move nothing are left out. */
export function wayOf(start: Pose, given: readonly Leg[]): Way {
  const legs = given.filter((leg) => lengthOf(leg) > 1e-6)
  const total = legs.reduce((sum, leg) => sum + lengthOf(leg), 0)
  const poses = [start]
  const until: number[] = []
  let done = 0
  for (const leg of legs) {
    poses.push(posePartly(poses.at(-1) as Pose, leg, 1))
    done += lengthOf(leg)
    until.push(done / total)
  }
  return { poses, legs, until }
}

/** The leg that is under way at a share of the whole, and how much of it is done. */
export function legAt({ until }: Way, share: number): { leg: number; done: number } {
  const leg = Math.max(
    0,
    Math.min(
      until.length - 1,
      until.findIndex((u) => share <= u + 1e-12),
    ),
  )
  const before = until[leg - 1] ?? 0
  const width = (until[leg] ?? 1) - before
  return { leg, done: width <= 0 ? 1 : Math.min(1, Math.max(0, (share - before) / width)) }
}

/** Where the way stands at a share of the whole: exact at 0 and 1. */
export function poseAlong(way: Way, share: number): Pose {
  const { poses, legs } = way
  if (legs.length === 0 || share <= 0) return poses[0] as Pose
  if (share >= 1) return poses.at(-1) as Pose
  const { leg, done } = legAt(way, share)
  return posePartly(poses[leg] as Pose, legs[leg] as Leg, done)
}

/** The rotation from one attitude to another as axis times angle, rad, by the shorter way. */
export function turnBetween(from: Mat3, to: Mat3): Vec3 {
  const t = product(to, [
    [from[0][0], from[1][0], from[2][0]],
    [from[0][1], from[1][1], from[2][1]],
    [from[0][2], from[1][2], from[2][2]],
  ])
  const twice: Vec3 = [t[2][1] - t[1][2], t[0][2] - t[2][0], t[1][0] - t[0][1]]
  const sine = Math.hypot(...twice) / 2
  const angle = Math.atan2(sine, (t[0][0] + t[1][1] + t[2][2] - 1) / 2)
  if (angle < 1e-9) return [0, 0, 0]
  if (sine > 1e-6)
    return [(twice[0] * angle) / (2 * sine), (twice[1] * angle) / (2 * sine), (twice[2] * angle) / (2 * sine)]
  return halfTurn(t)
}

/** Half a turn has its axis in the columns of R + 1. */
function halfTurn(t: Mat3): Vec3 {
  const columns = ([0, 1, 2] as const).map(
    (j): Vec3 => [t[0][j] + Number(j === 0), t[1][j] + Number(j === 1), t[2][j] + Number(j === 2)],
  )
  const longest = columns.reduce((best, c) => (squared(c) > squared(best) ? c : best))
  const length = Math.hypot(...longest)
  return [(longest[0] / length) * Math.PI, (longest[1] / length) * Math.PI, (longest[2] / length) * Math.PI]
}

/** The same legs backwards. */
export const reversed = (legs: readonly Leg[]): Leg[] =>
  [...legs].reverse().map((leg) => {
    const [x, y, z] = 'by' in leg ? leg.by : leg.turn
    return 'by' in leg ? { by: [-x, -y, -z] } : { turn: [-x, -y, -z], about: leg.about }
  })

const squared = ([x, y, z]: Vec3): number => x * x + y * y + z * z
