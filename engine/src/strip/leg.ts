import { coordinates, type Move } from '../model/index.ts'
import { type Motion, straightMotion, turningMotion } from '../numeric/motion.ts'
import { apply, compose, inverse, type Pose, place, scale, transpose, type Vec3 } from '../numeric/vector.ts'

/** One leg of a path: a move, and the pose of the piece before it, from the one as found, site frame. */
export interface Leg {
  move: Move
  start: Pose
}

/** The legs of a step. */
export const legsOf = (moves: readonly Move[], poses: readonly Pose[]): readonly Leg[] =>
  moves.map((move, i) => ({ move, start: poses[i] as Pose }))

/**
 * A leg as seen from a part that stands in another pose, in the machine frame of that part: a fit stays exact however the
 * two have been moved together before.
 *
 * @param part of the leg, from 0 to `upTo`; 1 is the whole leg
 */
export function motionSeenFrom(standing: Pose, machine: Pose, { move, start }: Leg, upTo = 1): Motion {
  const frame = compose(standing, machine)
  const relative = start === standing ? REST : compose(inverse(frame), compose(start, machine))
  if ('by' in move) return straightMotion(relative, scale(apply(transpose(frame.turn), coordinates(move.by)), upTo))
  return turningMotion({
    pose: relative,
    axis: apply(transpose(frame.turn), AXES[move.axis]),
    about: place(inverse(frame), coordinates(move.about)),
    from: 0,
    to: upTo * (move.turn.value as number),
  })
}

/** Where the piece stands before a leg, seen from a part that stands in another pose. */
export const stillSeenFrom = (standing: Pose, machine: Pose, { start }: Leg): Motion => {
  const frame = compose(standing, machine)
  return straightMotion(start === standing ? REST : compose(inverse(frame), compose(start, machine)), [0, 0, 0])
}

const REST: Pose = {
  turn: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  shift: [0, 0, 0],
}

const AXES: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }

/** Length of a straight leg, or the angle of a turn. */
export const lengthOfLeg = ({ move }: Leg): number =>
  'by' in move ? Math.hypot(...coordinates(move.by)) : Math.abs(move.turn.value as number)

/** Unit direction of a straight leg, site frame; undefined for a turn and for a leg of no length. */
export function directionOf(leg: Leg): Vec3 | undefined {
  if (!('by' in leg.move)) return undefined
  const length = lengthOfLeg(leg)
  return length === 0 ? undefined : scale(coordinates(leg.move.by), 1 / length)
}
