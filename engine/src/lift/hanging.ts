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
  rotationAbout,
  scale,
  subtract,
  unit,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { hungPose, leansOf, slewedBy } from './clearance.ts'
import type { HookOver } from './hookCourse.ts'
import { facing, type Hull, turnedAbout } from './hull.ts'
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

/** A piece that hangs, and the slewing centre of the crane whose boom it may lean towards. */
export interface HangingPiece {
  hull: Hull
  suspension: Suspension
  centre: readonly [x: number, y: number]
}

/** What hangs in a moment: the piece at its pose, and where the hook under the boom stands, site frame. */
export type BodiesAt = (moment: { pose: Pose; hook: Vec3 }) => HangingBody[]

/**
 * What hangs from the main hook: the piece as found, as it hangs by plan with its rigging and block, at the worst tilt, and
 * with as much tilt to the boom and from it.
 */
export function hangingBodies(pick: Pick, piece: HangingPiece, { spreader, block }: HangingSizes): BodiesAt {
  const { hull, suspension } = piece
  const { hookMachine } = suspension
  const rigging = hookMachine === undefined ? [] : [hookMachine, ...endsInMachine(suspension).flat()]
  return ({ pose }) => {
    const [planned, ...tilted] = leansAt(pick, piece, pose)
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
 * What hangs from one of two hooks, or from a hook that turns the piece: the piece as its moves have it, and as it leans at rest or
 * rolls in a turn; the rigging of the hook with its points where they are in that pose; its block. The first hook is that under the boom.
 */
export function sharedBodies(
  pick: Pick,
  piece: HangingPiece,
  hooks: readonly { hooked: Hooked; hookOver: HookOver; sizes: HangingSizes }[],
): BodiesAt {
  const { hull } = piece
  const rigs = hooks.map(({ hooked, hookOver, sizes }) => ({ sizes, hookOver, over: riggingOver(pick, hooked) }))
  return ({ pose, hook: under }) => {
    const hung = rigs.map(({ sizes, hookOver, over }, i) => ({
      sizes,
      points: over(pose, i === 0 ? under : hookOver(pose)),
    }))
    const leans =
      pick.lift.kind === 'turn'
        ? rollsAt(
            pick,
            pose,
            hung.map(({ points }) => points[0] as Vec3),
          )
        : leansAt(pick, piece, pose)
    return [
      ...pieceBodies(hull, pose, 'as found'),
      ...leans.flatMap((lean) => pieceBodies(hull, lean.pose, lean.as)),
      ...hung.flatMap(({ sizes: { spreader = 0, block }, points }) => {
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
 * A hook, the ends of its spreaders and the points it holds, with the piece at a pose: the hook where it stands in plan, as high as the shortest way up from one of them lets it.
 */
function riggingOver(pick: Pick, hooked: Hooked): (pose: Pose, hook: Vec3) => Vec3[] {
  const nodes = Object.entries(hooked.rigging?.nodes ?? {}).map(
    ([id, { offset }]) => [id, coordinates(offset)] as const,
  )
  const legs = (hooked.rigging?.legs ?? []).flatMap((_, i) => {
    const { lower, length, node } = legOf(pick, hooked, i)
    return lower === undefined ? [] : [{ at: lower.at, length: length.value ?? 0, node }]
  })
  return (pose, [x, y, z]) => {
    const slewed = slewedBy(pick, pose) ?? IDENTITY
    const ends = new Map(nodes.map(([id, offset]) => [id, apply(slewed, offset)]))
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

interface Lean {
  as: string
  pose: Pose
}

/** Poses of the piece as it hangs; none where its moves have tipped it out of the attitude that its rigging holds. */
function leansAt(pick: Pick, { suspension, centre }: HangingPiece, pose: Pose): Lean[] {
  const slewed = slewedBy(pick, pose)
  if (slewed === undefined) return []
  const cog = place(pose, pick.set.cogMachine)
  const towards = unit([centre[0] - cog[0], centre[1] - cog[1], 0])
  const side = applyBack(slewed, towards)
  const ways: [string, Vec3 | undefined][] = [
    ['with its side to the boom up', leaningTo(suspension, side)],
    ['with its top towards the boom', leaningTo(suspension, scale(side, -1))],
  ]
  return [
    ...leansOf(suspension).map(([as, plumb]) => ({ as, pose: hungPose(pick, pose, plumb) })),
    ...ways.flatMap(([as, up]) => (up === undefined ? [] : [{ as, pose: hungPose(pick, pose, up) }])),
  ]
}

/**
 * What hangs plumb where a piece leans most, so that its side in a direction is highest: of a shared piece its corner that does,
 * of one on one hook its worst tilt straight that way, for of its corners only the worst is known. Body frame.
 */
function leaningTo({ leaning, worstTilt }: Suspension, towards: Vec3): Vec3 | undefined {
  if (leaning !== undefined)
    return leaning.reduce<Vec3 | undefined>(
      (most, up) => (most === undefined || dot(up, towards) > dot(most, towards) ? up : most),
      undefined,
    )
  const tilt = worstTilt.value
  return tilt === undefined ? undefined : add(scale(towards, Math.sin(tilt)), [0, 0, Math.cos(tilt)])
}

/**
 * Poses of a piece that two hooks turn with its centre of gravity beside their plane by its box, either way: all of it, rigging taut,
 * turned about the line of the hooks until the weight is under that. None where a hook stands no higher than the centre of gravity.
 */
function rollsAt(pick: Pick, pose: Pose, hooks: readonly Vec3[]): Lean[] {
  const shift = pick.settings.cogShift?.value ?? 0
  const height = Math.min(...hooks.map((hook) => hook[2])) - place(pose, pick.set.cogMachine)[2]
  const [first] = hooks
  if (pick.tail === undefined || first === undefined || height <= 0) return []
  const about: Vec3 = [first[0], first[1], place(pose, pick.set.cogMachine)[2] + height]
  return [-1, 1].map((side) => ({
    as: 'rolled under its hooks',
    pose: turnedAbout(pose, rotationAbout('x', side * Math.atan(shift / height)), about),
  }))
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
