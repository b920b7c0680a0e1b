import { poseOfMachine } from '../model/index.ts'
import { compose, type Mat3, multiply, type Pose, place, rotationAbout, type Vec3 } from '../numeric/vector.ts'
import type { Pick } from './pick.ts'

/** Machine frame to site frame as found; undefined without a machine. */
export const foundPose = ({ machine }: Pick): Pose | undefined =>
  machine === undefined ? undefined : poseOfMachine(machine)

/**
 * Poses of the piece before the first of its moves and after each, machine frame to site frame. A lift that brings a piece
 * back goes through the same poses the other way. Empty where no step of the order is carried out by the lift.
 */
export function posesAlong(pick: Pick): Pose[] {
  const found = foundPose(pick)
  return found === undefined ? [] : pick.track.map((pose) => compose(pose, found))
}

/**
 * Axes of the piece as it is meant to hang: as its moves begin, or the attitude about site y from as driven. In a turn, as
 * it hangs from the main hook alone: the pose in which its own x axis lies most nearly level.
 */
export function bodyTurn(pick: Pick): Mat3 {
  const turn = bodyTurns.get(pick) ?? attitudeOf(pick)
  bodyTurns.set(pick, turn)
  return turn
}

/** Asked for at every pose of a way, and following from all of them. */
const bodyTurns = new WeakMap<Pick, Mat3>()

function attitudeOf(pick: Pick): Mat3 {
  const poses = posesAlong(pick)
  const upright = pick.lift.turn === undefined ? poses[0] : [...poses].sort((a, b) => steepness(a) - steepness(b))[0]
  if (upright !== undefined) return upright.turn
  const { lift } = pick
  const lies = foundPose(pick)?.turn ?? rotationAbout('x', 0)
  return multiply(rotationAbout('y', lift.turn === undefined ? (lift.attitude?.value ?? 0) : 0), lies)
}

const steepness = (pose: Pose): number => Math.abs(pose.turn[2][0])

/** Places of the centre of gravity along the path, site frame, m. */
export const hookPlaces = (pick: Pick): { label: string; at: Vec3 }[] =>
  posesAlong(pick).map((pose, i) => ({
    label: i === 0 ? 'before the first move' : `after move ${i}`,
    at: place(pose, pick.set.cogMachine),
  }))

const SAME = 1e-12

/** Whether a move only shifts: its sweep is then the hull of its two ends. */
export const isShift = (from: Pose, to: Pose): boolean =>
  from.turn.every((row, i) => row.every((x, j) => Math.abs(x - (to.turn[i]?.[j] as number)) < SAME))
