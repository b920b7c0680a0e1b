import { placedSupport } from '../numeric/body.ts'
import { add, applyBack, dot, norm, type Pose, place, scale, subtract, unit, type Vec3 } from '../numeric/vector.ts'
import { hungPose, leansOf, slewedBy } from './clearance.ts'
import { facing, type Hull } from './hull.ts'
import type { Pick } from './pick.ts'
import { endsInMachine } from './riggingHull.ts'
import type { Suspension } from './suspension.ts'

/** Something convex that hangs from a hook in one moment: a solid of the piece, its rigging, the block. Site frame, m. */
export interface HangingBody {
  what: 'piece' | 'rigging' | 'block'
  /** The part of the piece; the other two are themselves. */
  part: string
  /** As found, or as it hangs. */
  as: string
  /** Of a ball about it. */
  centre: Vec3
  radius: number
  /** Greatest p · direction over it. */
  support(direction: Vec3): number
  /** Where it faces a direction. */
  facing(direction: Vec3): Vec3
}

/** Sizes of what is between hook and piece, m; unknown where a figure is missing. */
export interface HangingSizes {
  /** Half of the thickest spreader. */
  spreader: number | undefined
  block: { width: number; height: number } | undefined
}

/** What hangs from the main hook with the piece at a pose: as found, as it hangs by plan with its rigging and block, and at the worst tilt. */
export function hangingBodies(
  pick: Pick,
  hull: Hull,
  suspension: Suspension,
  { spreader, block }: HangingSizes,
): (pose: Pose) => HangingBody[] {
  const { hookMachine } = suspension
  const rigging = hookMachine === undefined ? [] : [hookMachine, ...endsInMachine(suspension).flat()]
  return (pose) => {
    const [planned, ...tilted] = leansAt(pick, suspension, pose)
    const found = pieceBodies(hull, pose, 'as found')
    if (planned === undefined) return found
    const placed = rigging.map((p) => place(planned.pose, p))
    const hook = placed[0] as Vec3 | undefined
    return [
      ...found,
      ...[planned, ...tilted].flatMap((lean) => pieceBodies(hull, lean.pose, lean.as)),
      ...(hook === undefined || spreader === undefined ? [] : [pointsBody('rigging', placed, spreader, planned.as)]),
      ...(hook === undefined || block === undefined
        ? []
        : [pointsBody('block', [hook, add(hook, [0, 0, block.height])], block.width / 2, planned.as)]),
    ]
  }
}

/** Poses of the piece as it hangs; none where its moves have tipped it out of the attitude that its rigging holds. */
function leansAt(pick: Pick, suspension: Suspension, pose: Pose): { as: string; pose: Pose }[] {
  if (slewedBy(pick, pose) === undefined) return []
  return leansOf(suspension).map(([as, up]) => ({ as, pose: hungPose(pick, pose, up) }))
}

const pieceBodies = (hull: Hull, pose: Pose, as: string): HangingBody[] =>
  hull.solids.map((solid, index) => ({
    what: 'piece',
    part: solid.part,
    as,
    centre: place(pose, solid.centre),
    radius: solid.radius,
    support: (d) => placedSupport(solid, applyBack(pose.turn, d)) + dot(pose.shift, d),
    facing: (d) => facing(hull, pose, index, d),
  }))

/** The hull of some points, each a ball. */
function pointsBody(what: 'rigging' | 'block', points: readonly Vec3[], thick: number, as: string): HangingBody {
  const centre = scale(points.reduce(add), 1 / points.length)
  const along = (d: Vec3): Vec3 => points.reduce((best, p) => (dot(p, d) > dot(best, d) ? p : best))
  return {
    what,
    part: what,
    as,
    centre,
    radius: thick + Math.max(...points.map((p) => norm(subtract(p, centre)))),
    support: (d) => dot(along(d), d) + thick,
    facing: (d) => add(along(d), scale(unit(d), thick)),
  }
}
