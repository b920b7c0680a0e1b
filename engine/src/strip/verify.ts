import type { Model } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { jointSides } from './joint.ts'
import { type Release, releases } from './release.ts'
import { serviceEnds } from './service.ts'
import { type OrderStep, type PlacedStep, placeSteps } from './standing.ts'
import type { StepFailure, StripStep } from './strip.ts'

/** An order verified step by step, with what each step rests on. */
export function verifySteps(model: Model, order: readonly OrderStep[], memory: Memory): readonly StripStep[] {
  const placed = placeSteps(order, model.instances.byId.keys())
  const released = releases(placed, jointSides(model, memory), serviceEnds(model, memory))
  return placed.map((step, i) => verifiedStep(step, released[i] as Release))
}

function verifiedStep(placed: PlacedStep, release: Release): StripStep {
  const { order } = placed
  const isolations = release.parted.flatMap(({ service }) => service.isolation ?? [])
  return {
    step: order.step,
    piece: order.piece,
    ...(order.lift === undefined ? {} : { lift: order.lift }),
    parts: order.parts,
    moves: order.moves,
    joints: release.joints.map(({ id }) => id),
    services: release.parted.map(({ id }) => id),
    isolations: [...new Set(isolations)],
    from: placed.group,
    remaining: placed.remaining,
    poses: placed.poses,
    failures: [...standingFailures(placed), ...reachFailures(order, release)],
  }
}

const standingFailures = ({ order, missing }: PlacedStep): StepFailure[] =>
  missing.map(({ part, reason }) => ({ step: order.step, piece: order.piece, part, reason, blockers: [] }))

const reachFailures = (order: OrderStep, { hidden }: Release): StepFailure[] =>
  hidden.map(({ joint, hiders }) => ({
    step: order.step,
    piece: order.piece,
    reason: `joint "${joint.id}" still holds it: its fasteners are hidden by ${hiders.map((h) => `"${h}"`).join(', ')}`,
    blockers: [joint.id, ...hiders],
  }))
