import type { Pose } from '../numeric/vector.ts'
import { crossingJoints, type JointSides } from './joint.ts'
import { crossingServices, type ServiceEnds } from './service.ts'
import type { PlacedStep } from './standing.ts'

/** What is let go before a step: joints and services between what moves and what stays. */
export interface Release {
  /** Joints across the cut that are opened just before the step. */
  joints: readonly JointSides[]
  /** Joints across the cut whose fasteners are hidden still, with what hides them. */
  hidden: readonly { joint: JointSides; hiders: readonly string[] }[]
  /** Services parted just before the step. */
  parted: readonly ServiceEnds[]
  /** Services across the cut that are long enough to follow. */
  following: readonly ServiceEnds[]
}

/**
 * What each step has to let go, following the order: a joint or service is let go once, by the first step whose cut it
 * crosses.
 */
export function releases(
  steps: readonly PlacedStep[],
  joints: readonly JointSides[],
  services: readonly ServiceEnds[],
): readonly Release[] {
  const open = new Set<string>()
  const parted = new Set<string>()
  return steps.map((step) => {
    const release = releaseOf(step, joints, services, open, parted)
    for (const { id } of release.joints) open.add(id)
    for (const { id } of release.parted) parted.add(id)
    return release
  })
}

function releaseOf(
  { moving, staying }: PlacedStep,
  joints: readonly JointSides[],
  services: readonly ServiceEnds[],
  open: ReadonlySet<string>,
  parted: ReadonlySet<string>,
): Release {
  const movingIds = new Set(moving.keys())
  const crossing = crossingJoints(joints, movingIds, new Set(staying.keys()), open)
  const hidden = crossing
    .map((joint) => ({ joint, hiders: joint.hiddenBy.filter((id) => hides(id, joint, moving, staying)) }))
    .filter(({ hiders }) => hiders.length > 0)
  const cut = crossingServices(services, movingIds, parted)
  return {
    joints: crossing.filter((joint) => !hidden.some((h) => h.joint === joint)),
    hidden,
    parted: cut.filter(({ service }) => !service.follows),
    following: cut.filter(({ service }) => service.follows),
  }
}

/**
 * A part hides a fastener while it stands in the same place as the joint. Moved aside by an earlier step, to another pose
 * than the joint's own parts, it hides it no more.
 */
function hides(
  hider: string,
  { sides }: JointSides,
  moving: ReadonlyMap<string, Pose>,
  staying: ReadonlyMap<string, Pose>,
): boolean {
  const pose = moving.get(hider) ?? staying.get(hider)
  return pose !== undefined && sides.flat().some((id) => (moving.get(id) ?? staying.get(id)) === pose)
}
