import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import type { Answer } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

/** One leg of the rigging as it hangs. */
export interface LegResult {
  id: string
  /** Nominal, and the worst over length tolerances and the box of mass and centre of gravity. */
  tension: Answer<'N'>
  worst: Answer<'N'>
  /** From the vertical. */
  angle: Answer<'rad'>
  slack: boolean
}

/** One stage of a turn: both hooks' shares at an angle from upright. */
export interface TurnStage {
  angle: number
  main: Answer<'N'>
  tail: Answer<'N'>
  /** Angle of each hoist line from plumb, rad. */
  mainLean: number
  tailLean: number
}

/** Everything a lift sheet shows of one lift. */
export interface LiftOutcome {
  id: string
  piece: string
  kind: 'out' | 'turn' | 'move' | 'back'
  system: string
  hook: string
  /** Mass chain of the hook load, each line once. */
  hookLoad: Answer<'kg'>
  /** Rated load it is held against. */
  rated: Answer<'kg'>
  legs: readonly LegResult[]
  tilt: Answer<'rad'>
  /** Height chain under the hook. */
  height: { needed: Answer<'m'>; available: Answer<'m'> }
  /** Least clearance through the shaft: gap and to what. */
  clearance?: { gap: Answer<'m'>; to: string; at: Vec3 }
  turning: readonly TurnStage[]
  allowableWind: Answer<'m/s'>
  /** Hook time of the whole lift: hoist, travel, set-up. */
  duration: Answer<'s'>
  /** Critical or standard, with the criteria that say so; undefined when a fact is missing. */
  critical: boolean | undefined
  criteria: readonly { text: string; met: boolean | undefined }[]
  checks: readonly Check[]
}

export interface LiftResult {
  checks: readonly Check[]
  lifts: Readonly<Record<string, LiftOutcome>>
}

export function lift(_model: Model, _mass: MassResult, _strip: StripResult, _memory: Memory): LiftResult {
  return { checks: [], lifts: {} }
}
