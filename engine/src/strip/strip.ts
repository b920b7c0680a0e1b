import type { MassResult } from '../mass/index.ts'
import type { Model, Move } from '../model/index.ts'
import type { Pose, Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

/** Why a step of the order cannot be done. */
export interface StepFailure {
  step: string
  piece: string
  part?: string
  reason: string
  /** Parts, joints, services or fixed things in the way. */
  blockers: readonly string[]
  /** Unit vector of the blocked motion, site frame. */
  direction?: Vec3
}

/** One step of the adopted order, verified. */
export interface StripStep {
  step: string
  piece: string
  lift?: string
  /** Instances that move. */
  parts: readonly string[]
  moves: readonly Move[]
  /** Joints opened just before this step, and services parted. */
  joints: readonly string[]
  services: readonly string[]
  /** Instances still in the shaft once it is done. */
  remaining: readonly string[]
  /** From the pose as found to the piece's pose before its first move and after each one, site frame. */
  poses: readonly Pose[]
  /** Least clearance along the moves, m, and to what; undefined where nothing is near. */
  clearance?: { gap: number; to: string; at: Vec3; move: number }
  failures: readonly StepFailure[]
}

export interface StripResult {
  checks: readonly Check[]
  steps: readonly StripStep[]
  feasible: boolean
  failures: readonly StepFailure[]
  /** Hours to open and to close each joint, by id (s), and to part and reconnect each service. */
  jointTimes: Readonly<Record<string, { off: number; on: number }>>
  serviceTimes: Readonly<Record<string, { off: number; on: number }>>
}

export function strip(_model: Model, _mass: MassResult, _memory: Memory): StripResult {
  return { checks: [], steps: [], feasible: true, failures: [], jointTimes: {}, serviceTimes: {} }
}
