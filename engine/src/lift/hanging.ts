import { coordinates } from '../model/index.ts'
import { placedSupport } from '../numeric/body.ts'
import {
  add,
  apply,
  applyBack,
  dot,
  IDENTITY,
  norm,
  type Pose,
  place,
  scale,
  subtract,
  unit,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { hungPose, leansOf, slewedBy } from './clearance.ts'
import type { HookOver } from './hookCourse.ts'
import { facing, type Hull } from './hull.ts'
import type { Hooked, Pick } from './pick.ts'
import { legOf } from './rig.ts'
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

/**
 * What hangs from one of two hooks, or from a hook that turns the piece: the piece as found and, at rest, as it hangs by plan; the
 * rigging of the hook with its points where they are in that pose; its block.
 */
export function sharedBodies(
  pick: Pick,
  hull: Hull,
  suspension: Suspension,
  hooks: readonly { hooked: Hooked; hookOver: HookOver; sizes: HangingSizes }[],
): (pose: Pose) => HangingBody[] {
  const rigs = hooks.map(({ hooked, hookOver, sizes }) => ({ sizes, pointsAt: riggingOver(pick, hooked, hookOver) }))
  return (pose) => {
    const [planned] = pick.lift.kind === 'turn' ? [] : leansAt(pick, suspension, pose)
    return [
      ...pieceBodies(hull, pose, 'as found'),
      ...(planned === undefined ? [] : pieceBodies(hull, planned.pose, planned.as)),
      ...rigs.flatMap(({ sizes: { spreader = 0, block }, pointsAt }) => {
        const points = pointsAt(pose)
        const hook = points[0] as Vec3
        return [
          pointsBody('rigging', points, spreader, 'as found'),
          ...(block === undefined
            ? []
            : [pointsBody('block', [hook, add(hook, [0, 0, block.height])], block.width / 2, 'as found')]),
        ]
      }),
    ]
  }
}

/**
 * A hook, the ends of its spreaders and the points it holds, with the piece at a pose: the hook plumb over the middle of its points,
 * as high as the shortest way up from one of them lets it.
 */
function riggingOver(pick: Pick, hooked: Hooked, hookOver: HookOver): (pose: Pose) => Vec3[] {
  const nodes = Object.entries(hooked.rigging?.nodes ?? {}).map(
    ([id, { offset }]) => [id, coordinates(offset)] as const,
  )
  const legs = (hooked.rigging?.legs ?? []).flatMap((_, i) => {
    const { lower, length, node } = legOf(pick, hooked, i)
    return lower === undefined ? [] : [{ at: lower.at, length: length.value ?? 0, node }]
  })
  return (pose) => {
    const slewed = slewedBy(pick, pose) ?? IDENTITY
    const ends = new Map(nodes.map(([id, offset]) => [id, apply(slewed, offset)]))
    const [x, y, z] = hookOver(pose)
    const points = legs.map(({ at }) => place(pose, at))
    const rises = legs.map(({ length, node }, i) => {
      const [px, py, pz] = points[i] as Vec3
      const end = ends.get(node ?? '') ?? ZERO
      return pz + Math.sqrt(Math.max(0, length ** 2 - (px - x - end[0]) ** 2 - (py - y - end[1]) ** 2)) - end[2]
    })
    const hook: Vec3 = [x, y, rises.length === 0 ? z : Math.min(...rises)]
    return [hook, ...[...ends.values()].map((end) => add(hook, end)), ...points]
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
