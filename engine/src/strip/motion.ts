import { coordinates, type Move } from '../model/index.ts'
import { AT_REST, apply, compose, type Pose, rotationAbout, subtract, type Vec3 } from '../numeric/vector.ts'

/** What one move does to a point of the site: p ↦ turn · p + shift. */
export function poseOfMove(move: Move): Pose {
  if ('by' in move) return { turn: AT_REST.turn, shift: coordinates(move.by) }
  const turn = rotationAbout(move.axis, move.turn.value as number)
  const about = coordinates(move.about)
  return { turn, shift: subtract(about, apply(turn, about)) }
}

/** Poses along a path: the one it starts from, then the one after each move. */
export function posesAlong(start: Pose, moves: readonly Move[]): readonly Pose[] {
  const poses: Pose[] = [start]
  for (const move of moves) poses.push(compose(poseOfMove(move), poses[poses.length - 1] as Pose))
  return poses
}

/** Displacement of a straight move, site frame; undefined for a turn. */
export const straight = (move: Move): Vec3 | undefined => ('by' in move ? coordinates(move.by) : undefined)
