import { apply, norm, type Pose, subtract, transpose, type Vec3 } from '../numeric/vector.ts'
import type { Corner, Tolerances } from './envelope.ts'
import { envelopeOver } from './envelope.ts'
import { type Hang, type Hanging, type HungLoad, NEAR_LEVEL } from './hang.ts'
import { lengthened, levelSettings } from './levelled.ts'
import { fromHook, type Levels } from './levels.ts'
import type { RigLeg } from './rig.ts'
import { intendedSettle, type Settled, settle, settleNear, tiltsOf } from './settle.ts'
import { endAt, type Suspended, type SuspendedBody } from './suspended.ts'

/** Order of the legs of an arrangement in results: those of the piece, then those above a spreader. */
export interface Order {
  below: readonly number[]
  above: readonly number[]
}

/** Lines by what they hold. */
export function orderOf(legs: readonly RigLeg[]): Order {
  const places = legs.map((_, i) => i)
  return {
    below: places.filter((i) => !(legs[i] as RigLeg).above),
    above: places.filter((i) => (legs[i] as RigLeg).above),
  }
}

/** Everything as it hangs, seen from the piece: what height, drawings and clearances go by. */
export function seenFromPiece(
  levels: Levels,
  order: Order,
  found: Omit<Settled, 'stiffness' | 'eigenvalues'>,
): Hanging {
  const piece = found.poses[0] as Pose
  const { up, tilt, tiltX, tiltY } = tiltsOf(piece)
  const hook = apply(transpose(piece.turn), subtract(levels.hooks[0] as Vec3, piece.shift))
  const of = (values: readonly number[], at: readonly number[]): number[] => at.map((i) => values[i] as number)
  const others = found.residuals.slice(1)
  const first = found.poses[1]
  return {
    pose: { hook, spreader: { turn: piece.turn, shift: hook } },
    up,
    tensions: of(found.tensions, order.below),
    topTensions: of(found.tensions, order.above),
    angles: of(found.leans, order.below),
    topAngles: of(found.leans, order.above),
    tilt,
    tiltX,
    tiltY,
    spreaderTilt: first === undefined ? 0 : Math.acos(Math.min(1, first.turn[2][2])),
    residual: {
      force: (found.residuals[0] as { force: number }).force,
      moment: (found.residuals[0] as { moment: number }).moment,
      spreaderForce: Math.max(0, ...others.map((r) => r.force)),
      spreaderMoment: Math.max(0, ...others.map((r) => r.moment)),
    },
    steps: found.steps,
  }
}

/** With its stiffness, for the planned pose. */
export const hangOf = (levels: Levels, order: Order, found: Settled): Hang => ({
  ...seenFromPiece(levels, order, found),
  stiffness: found.stiffness,
  eigenvalues: found.eigenvalues,
  reach: Math.max(...levels.suspended.lines.map((line) => norm(line.lower.at))),
  settled: found.settled,
  steps: found.steps,
})

/** Ends of every leg in the order of results, from the main hook, site axes, m. */
export function endsOf(levels: Levels, order: Order, poses: readonly Pose[]): readonly (readonly [Vec3, Vec3])[] {
  const hook = levels.hooks[0] as Vec3
  return [...order.below, ...order.above].map((i) => {
    const line = levels.suspended.lines[i] as Suspended['lines'][number]
    return [fromHook(hook, endAt(poses, line.lower)), fromHook(hook, endAt(poses, line.upper))] as const
  })
}

/** The piece and its legs, as the checks that ask only for these read them. */
export function loadOfPiece({ suspended }: Levels, order: Order): HungLoad {
  const piece = suspended.bodies[0] as SuspendedBody
  return {
    legs: order.below.map((i) => {
      const { lower, length, stiffness } = suspended.lines[i] as Suspended['lines'][number]
      return { to: lower.at, length, stiffness }
    }),
    weight: piece.weight,
    cog: piece.cog,
  }
}

/** Level links set on the lines that have one. */
export function withLinks(
  levels: Levels,
  order: Order,
  links: readonly { line: number; stroke: number }[],
  enough: number,
): { levels: Levels; found: Settled; settings: readonly number[] } {
  const set = (settings: readonly number[]): Levels => ({
    ...levels,
    suspended: {
      ...levels.suspended,
      lines: levels.suspended.lines.map((line, i) =>
        lengthened(line, settings[links.findIndex((l) => l.line === i)] ?? 0),
      ),
    },
  })
  const { settings, hang } = levelSettings<Hang & { found: Settled }>(
    links.map((l) => l.stroke),
    (at, near) => {
      const changed = set(at)
      const found = settle(changed.suspended, near?.found.poses)
      return { ...hangOf(changed, order, found), found }
    },
    enough,
  )
  return { levels: set(settings), found: hang.found, settings }
}

/** Worst over the corners of the tolerances, in whatever levels. */
export const envelopeOfLevels = (levels: Levels, order: Order, tolerances: Tolerances, planned: Settled) =>
  envelopeOver<Hanging & { poses: readonly Pose[] }>(
    {
      legs: order.below.length,
      tops: order.above.length,
      solve: (corner, near) => {
        const changed = atCorner(levels, order, tolerances, corner)
        const found = settleNear(changed.suspended, near.poses)
        return { ...seenFromPiece(changed, order, found), poses: found.poses }
      },
    },
    tolerances,
    { ...seenFromPiece(levels, order, planned), poses: planned.poses },
  )

function atCorner(
  levels: Levels,
  order: Order,
  tolerances: Tolerances,
  { weight, cog, lengths, stiffness }: Corner,
): Levels {
  const { bodies, lines } = levels.suspended
  const share = new Map(
    [...order.below, ...order.above].map((line, k) => [line, (lengths[k] ?? 0) * (tolerances.lengths[k] ?? 0)]),
  )
  const [piece, ...others] = bodies as readonly [SuspendedBody, ...SuspendedBody[]]
  const moved: Vec3 = [
    piece.cog[0] + cog[0] * tolerances.cog[0],
    piece.cog[1] + cog[1] * tolerances.cog[1],
    piece.cog[2] + cog[2] * tolerances.cog[2],
  ]
  return {
    ...levels,
    suspended: {
      bodies: [{ ...piece, weight: tolerances.weight[weight > 0 ? 1 : 0], cog: moved }, ...others],
      lines: lines.map((line, i) => ({
        ...line,
        length: line.length * (1 + (share.get(i) ?? 0)),
        stiffness: line.stiffness * stiffness,
      })),
    },
  }
}

/** A piece that comes to rest farther than this from level has turned over on the way, rad. */
const TURNED_OVER = Math.PI / 4

/** Stiffness at the pose that is meant: of the pose reached when near level, else of the one near level where forces close. */
export function stiffnessOfLevels({ suspended }: Levels, found: Settled): number {
  const tiltOf = (s: Settled): number => tiltsOf(s.poses[0] as Pose).tilt
  if (tiltOf(found) < NEAR_LEVEL) return found.stiffness
  const meant = intendedSettle(suspended)
  if (meant !== undefined && tiltOf(meant) < NEAR_LEVEL) return meant.stiffness
  // it turned over on the way: it was not held
  return tiltOf(found) < TURNED_OVER ? found.stiffness : -Math.abs(found.stiffness)
}
