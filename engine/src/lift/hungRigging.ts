import { apply, type Mat3, type Pose, place, type Vec3 } from '../numeric/vector.ts'
import { leaned, leansOf, slewedFrom } from './clearance.ts'
import { bodyTurn } from './path.ts'
import type { Pick } from './pick.ts'
import { endsInMachine, halfOfSpreader, spreaderBars } from './riggingHull.ts'
import type { Suspension } from './suspension.ts'

/** Hook, legs and spreaders over a piece, m: of the machine frame in a lift's plan, of the site frame in a moment. */
export interface Rigged {
  hook: Vec3
  legs: readonly (readonly [lower: Vec3, upper: Vec3])[]
  spreaders: readonly (readonly [from: Vec3, to: Vec3])[]
}

/** How a piece hangs by plan, from which its rigging follows at any pose of it. */
export interface HungRigging extends Rigged {
  /** Half of the largest side of its spreaders, m. */
  half: number
  /** Centre of gravity, machine frame, over which the hook stands. */
  cog: Vec3
  /** Direction that hangs plumb, in the attitude that the rigging holds. */
  up: Vec3
  attitude: Mat3
}

/** What the rigging of a lift follows from; undefined where the hang is not known. */
export function hungRigging(pick: Pick, suspension: Suspension): HungRigging | undefined {
  const [planned] = leansOf(suspension)
  const { hookMachine } = suspension
  if (planned === undefined || hookMachine === undefined) return undefined
  return {
    hook: hookMachine,
    legs: endsInMachine(suspension),
    spreaders: spreaderBars(suspension),
    half: halfOfSpreader(pick),
    cog: pick.set.cogMachine,
    up: planned[1],
    attitude: bodyTurn(pick),
  }
}

/**
 * The rigging as it hangs with the piece at a pose.
 *
 * @param pose machine frame to site frame
 * @returns site frame, m; undefined once the piece is tipped out of the attitude that the rigging holds
 */
export function riggedAt({ hook, legs, spreaders, cog, up, attitude }: HungRigging, pose: Pose): Rigged | undefined {
  const slewed = slewedFrom(attitude, pose)
  if (slewed === undefined) return undefined
  const hung = leaned(pose, apply(slewed, up), cog)
  const both = ([a, b]: readonly [Vec3, Vec3]): [Vec3, Vec3] => [place(hung, a), place(hung, b)]
  return { hook: place(hung, hook), legs: legs.map(both), spreaders: spreaders.map(both) }
}
