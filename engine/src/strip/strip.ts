import type { MassResult } from '../mass/index.ts'
import type { Model, Move } from '../model/index.ts'
import type { Pose, Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { type BoltUpStep, boltUpOf } from './bolt-up.ts'
import { defaultOrder } from './find-order.ts'
import { dischargedChecks } from './isolation.ts'
import { jointWork, type Work } from './joint.ts'
import { adoptedOrder } from './order.ts'
import { partChecks } from './part-checks.ts'
import { returnChecks } from './return.ts'
import { serviceWork } from './service.ts'
import { servicesBackChecks } from './services-back.ts'
import type { OrderStep } from './standing.ts'
import { stepChecks } from './step-checks.ts'
import { supportChecks } from './support.ts'
import { verifySteps } from './verify.ts'

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

/** A gap between a piece on its way and something that stands. */
export interface Clearance {
  /** Sure lower bound, m. */
  gap: number
  /** A part, an obstruction, `shaft bore` or `base slab`. */
  to: string
  /** Part of the piece that comes so near. */
  part: string
  kind: 'part' | 'obstruction' | 'bore' | 'slab'
  at: Vec3
  /** Number of the move, from 0. */
  move: number
  /** The gap is less than where the move begins: the way leads there. A fit that only slides or opens is not. */
  closing: boolean
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
  /** Isolations of the services parted. */
  isolations: readonly string[]
  /** What runs out of the services parted, m³: caught before the piece moves. */
  drained: readonly { service: string; volume: number }[]
  /** `shaft`, or the step that brought out the piece this one is taken off. */
  from: string
  /** Instances still in the shaft once it is done. */
  remaining: readonly string[]
  /** From the pose as found to the piece's pose before its first move and after each one, site frame. */
  poses: readonly Pose[]
  /** Least clearance along the moves, m, and to what; undefined where nothing is near. */
  clearance?: Clearance
  /** The least gap to each thing within half a metre, or ten of what is fixed in the shaft; the least first. */
  clearances: readonly Clearance[]
  failures: readonly StepFailure[]
}

export interface StripResult {
  /** The order stands in the file. Otherwise it is a quick default, or there is none. */
  adopted: boolean
  checks: readonly Check[]
  steps: readonly StripStep[]
  feasible: boolean
  failures: readonly StepFailure[]
  /** Hours to open and to close each joint, by id (s), and to part and reconnect each service. */
  jointTimes: Readonly<Record<string, { off: number; on: number }>>
  serviceTimes: Readonly<Record<string, { off: number; on: number }>>
  /** The same with their working; a time that is not given is open here and counts as zero above. */
  jointWork: Readonly<Record<string, Work>>
  serviceWork: Readonly<Record<string, Work>>
  /** What is bolted up on the return, in its order: preload, passes and the order of the bolts. */
  boltUp: readonly BoltUpStep[]
}

/** The adopted order, step by step: what is let go, what moves, what stays, and what stands in the way. */
export function strip(model: Model, mass: MassResult, memory: Memory): StripResult {
  const adopted = isAdopted(model)
  const verified = verifySteps(model, mass, followedOrder(model, mass, memory), memory)
  const steps = verified.map(({ step }) => step)
  const failures = steps.flatMap((step) => step.failures)
  const boltUp = boltUpOf(model, verified, memory)
  const [joints, services] = [jointWork(model, memory), serviceWork(model, memory)]
  return {
    adopted,
    checks: [
      ...partChecks(model, mass, memory),
      ...verified.flatMap((step) => stepChecks(model, mass, step, memory)),
      ...dischargedChecks(model, verified, memory),
      ...servicesBackChecks(model, verified, memory),
      ...supportChecks(model, mass, verified, memory),
      ...returnChecks(model, mass, verified, memory),
      ...boltUp.checks,
    ],
    steps,
    feasible: failures.length === 0,
    failures,
    jointTimes: memory.once('strip/jointTimes', [joints], () => timesOf(joints)),
    serviceTimes: memory.once('strip/serviceTimes', [services], () => timesOf(services)),
    jointWork: joints,
    serviceWork: services,
    boltUp: boltUp.lists,
  }
}

const isAdopted = ({ project }: Model): boolean => project.order.length > 0

/** The order of the file; without one, a quick default. */
export const followedOrder = (model: Model, mass: MassResult, memory: Memory): readonly OrderStep[] =>
  isAdopted(model) ? adoptedOrder(model, memory) : defaultOrder(model, mass, memory)

const timesOf = (work: Readonly<Record<string, Work>>) =>
  Object.fromEntries(Object.entries(work).map(([id, w]) => [id, { off: w.off.value ?? 0, on: w.on.value ?? 0 }]))
