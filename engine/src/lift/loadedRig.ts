import type { StockItem } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import type { Answer } from '../working/answer.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import type { Hooked, Pick } from './pick.ts'
import type { RigLeg } from './rig.ts'

/** A leg with the tension it is held to: the worst over the tolerances, or the largest of a turn. */
export interface LoadedLeg {
  leg: RigLeg
  tension: Answer<'N'>
  /** Directions in which it pulls its point; absent where no pose says them. */
  attitudes?: readonly Attitude[]
  /** Its angle from plumb, signed across the turn; absent where the pose of the piece says it. */
  lean?: Answer<'rad'>
}

/** How a leg pulls its lower end: as it hangs, or at a stage of a turn. */
export interface Attitude {
  label: string
  /** From the point up the leg, machine frame, a unit. */
  up: Vec3
  /** Part of the tension that is there. */
  share: number
}

/** What hangs from one hook: its legs, and the load on them. */
export interface LoadedRig {
  hooked: Hooked
  legs: readonly LoadedLeg[]
  /** Load on the legs below any spreader. */
  load: Answer<'N'>
  /** Steepness of the flattest leg as it hangs. */
  flattest: Answer<'rad'>
  /** Largest angle between two legs at one hook, link or point; absent where no pose says it. */
  included?: Answer<'rad'>
}

/** An item of stock in an arrangement. */
export interface CountedItem {
  id: string
  item: StockItem | undefined
}

/** Subject and cautions of a check of something in an arrangement. */
export const named = (pick: Pick, { hooked }: LoadedRig, of: string): Named => ({
  subject: pick.subject,
  of: `${hooked.key}/${of}`,
  near: pick.near,
  cautions: RIGGING_CAUTIONS,
})
export type Named = { subject: Pick['subject']; of: string; near: number; cautions: readonly string[] }
