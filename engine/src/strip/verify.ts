import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { jointSides } from './joint.ts'
import type { Meeting } from './meet.ts'
import { type Path, pathOf, surroundingsOf } from './path.ts'
import { type Release, releases } from './release.ts'
import { serviceEnds } from './service.ts'
import { type OrderStep, type PlacedStep, placeSteps } from './standing.ts'
import type { Clearance, StepFailure, StripStep } from './strip.ts'

/** A step verified, with what its checks rest on. */
export interface VerifiedStep {
  step: StripStep
  placed: PlacedStep
  release: Release
  path: Path
}

/** An order verified step by step. */
export function verifySteps(
  model: Model,
  mass: MassResult,
  order: readonly OrderStep[],
  memory: Memory,
): readonly VerifiedStep[] {
  const [joints, services] = [jointSides(model, memory), serviceEnds(model, memory)]
  const ids = memory.settled('strip/ids', [...model.instances.byId.keys()])
  const placed = memory.once('strip-placed', [ids, ...order], () => placeSteps(order, ids))
  const released = memory.once('strip-released', [placed, joints, services], () => releases(placed, joints, services))
  const around = surroundingsOf(model, mass, memory)
  const steps = order.map(({ step }) => step)
  return placed.map((place, i) => {
    const path = memory.once(`strip-way/${place.order.step}`, [place, i, around], () =>
      pathOf(place, i, steps, around, memory),
    )
    const release = released[i] as Release
    return memory.once(`strip-step/${place.order.step}`, [place, release, path], () => ({
      step: verifiedStep(place, release, path),
      placed: place,
      release,
      path,
    }))
  })
}

function verifiedStep(placed: PlacedStep, release: Release, path: Path): StripStep {
  const { order } = placed
  const isolations = release.parted.flatMap(({ service }) => service.isolation ?? [])
  const clearances = clearancesOf(path)
  const closest = clearances.find(({ closing }) => closing)
  return {
    step: order.step,
    piece: order.piece,
    ...(order.lift === undefined ? {} : { lift: order.lift }),
    parts: order.parts,
    moves: order.moves,
    joints: release.joints.map(({ id }) => id),
    services: release.parted.map(({ id }) => id),
    isolations: [...new Set(isolations)],
    drained: release.parted.flatMap(({ id, service: { drained } }) =>
      drained?.value === undefined || drained.value === 0 ? [] : [{ service: id, volume: drained.value }],
    ),
    from: placed.group,
    remaining: placed.remaining,
    poses: placed.poses,
    ...(closest === undefined ? {} : { clearance: closest }),
    clearances,
    failures: [...standingFailures(placed), ...reachFailures(order, release), ...pathFailures(order, path)],
  }
}

/** The least gap to each thing that the piece comes near. */
function clearancesOf({ gaps }: Path): Clearance[] {
  const seen = new Set<string>()
  return gaps.flatMap(({ with: to, part, kind, gap, at, move, closing }) => {
    const key = `${to}/${closing}`
    if (seen.has(key)) return []
    seen.add(key)
    return [{ to, part, kind, gap, at, move, closing }]
  })
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

/** One failure for each moving part and move, with all that it strikes. */
function pathFailures(order: OrderStep, { blocks }: Path): StepFailure[] {
  const groups = new Map<string, Meeting[]>()
  for (const block of blocks) {
    const key = `${block.move}/${block.part}/${block.verdict}`
    groups.set(key, [...(groups.get(key) ?? []), block])
  }
  return [...groups.values()].map((group) => {
    const { part, move, direction } = group[0] as Meeting
    return {
      step: order.step,
      piece: order.piece,
      part,
      reason: `move ${move + 1}: ${group.map(blockText).join('; ')}`,
      blockers: group.map((b) => b.with),
      ...(direction === undefined ? {} : { direction }),
    }
  })
}

function blockText({ verdict, with: blocker, depth, travel, at }: Meeting): string {
  const place = `at site ${at.map((x) => x.toFixed(2)).join(', ')} m`
  if (verdict === 'open')
    return `whether it strikes "${blocker}" is open: the shapes overlap by no more than ${millimetres(depth)} ${place}`
  const after = travel === undefined ? '' : ` after ${travel.toFixed(2)} of the way`
  return `strikes "${blocker}"${after} ${place}, ${millimetres(depth)} deep or more`
}

const millimetres = (m: number): string => `${(1000 * m).toFixed(1)} mm`
