import { type Mat3, multiply, type Pose, place, rotationAbout, scale, transpose, type Vec3 } from '../numeric/vector.ts'
import { substeps } from './clearance.ts'
import type { Motion } from './motions.ts'
import { bodyTurn, isShift } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { posesOn } from './swept.ts'
import { heldAt } from './turning.ts'
import { type OpenTurn, pointsOf, type TurnPlane } from './turningOf.ts'

/** Where a hook stands with the piece at a pose: site frame, m; its height is that of what it stands over. */
export type HookOver = (pose: Pose) => Vec3

/**
 * Where a hook stands over a piece. One hook: plumb over the centre of gravity. Two at rest, and one that turns a piece about a
 * pivot: over the middle of their own points. Two that turn it: beside that by as much as their lines lean.
 */
export function hookOver(pick: Pick, hooked: Hooked, turning?: TurnPlane | OpenTurn): HookOver {
  const middle = middleOfPoints(pick, hooked)
  const isAlone = pick.tail === undefined && pick.lift.turn === undefined
  if (isAlone || middle === undefined) return (pose) => place(pose, pick.set.cogMachine)
  const aside = turning === undefined || 'open' in turning ? () => 0 : asideOf(pick, hooked, turning)
  return (pose) => {
    const [x, y, z] = place(pose, middle)
    return [x + aside(pose), y, z]
  }
}

function middleOfPoints(pick: Pick, hooked: Hooked): Vec3 | undefined {
  const points = pointsOf(pick, hooked)
  if (points.length === 0) return undefined
  const sum = points.reduce<Vec3>((s, { at }) => [s[0] + at[0], s[1] + at[1], s[2] + at[2]], [0, 0, 0])
  return scale(sum, 1 / points.length)
}

/** How far the head of a hook's line stands from over its points along site x, m; nothing where no pair of pulls holds the piece. */
function asideOf(pick: Pick, hooked: Hooked, { geometry }: TurnPlane): (pose: Pose) => number {
  const side = hooked === pick.tail ? 'tail' : 'main'
  return (pose) => {
    const angle = angleOf(pick, pose)
    const line = angle === undefined ? undefined : heldAt(geometry, angle)?.lines[side]
    return line === undefined ? 0 : line.up[0] * line.length
  }
}

/** Farther from site y than this a piece is not turned in the plane of its hooks. */
const IN_PLANE = 1e-6

/** Angle about site y by which a piece is turned from as it hangs upright, rad; undefined where it is turned another way too. */
export function angleOf(pick: Pick, pose: Pose): number | undefined {
  const turn = multiply(pose.turn, transpose(bodyTurn(pick)))
  return Math.abs(turn[1][1] - 1) > IN_PLANE ? undefined : Math.atan2(turn[0][2], turn[0][0])
}

const PARTS = 12

/**
 * Poses of a piece over a movement, near enough to each other that a hook is not missed between two; of a turn that no move
 * makes, with the centre of gravity over the middle of its bay at the level of that.
 */
export function posesOver(pick: Pick, motion: Motion): Pose[] {
  const { poses, from } = motion
  if (poses !== undefined) return isShift(...poses) ? posesOn(pick, motion) : substeps(pick, ...poses)
  const { turn } = pick.lift
  if (turn === undefined || from === undefined) return []
  const upright = bodyTurn(pick)
  const [first, last] = [turn.from.value as number, turn.to.value as number]
  return Array.from({ length: PARTS + 1 }, (_, k) =>
    withCogAt(pick, multiply(rotationAbout('y', first + ((last - first) * k) / PARTS), upright), from),
  )
}

function withCogAt(pick: Pick, turn: Mat3, [x, y, z]: Vec3): Pose {
  const at = place({ turn, shift: [0, 0, 0] }, pick.set.cogMachine)
  return { turn, shift: [x - at[0], y - at[1], z - at[2]] }
}
