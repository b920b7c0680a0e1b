import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { norm, place, type Vec3 } from '../numeric/vector.ts'
import { type Answer, type Given, given, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { givensIn } from './givens.ts'
import { drainedCheck } from './isolation.ts'
import { type JointSides, jointWork, type Work } from './joint.ts'
import { fastenersKind, pathKind, reachKind, servicesKind } from './kinds.ts'
import { loadPathCheck } from './load-path.ts'
import { overlapTolerance } from './overlap.ts'
import { surroundingsOf } from './path.ts'
import type { ServiceEnds } from './service.ts'
import { allCells, machineInSite, type PartCells, shapeAnswers } from './shape.ts'
import { SHAFT } from './standing.ts'
import { toolCheck } from './tool-check.ts'
import type { VerifiedStep } from './verify.ts'

const ISOLATION_CAUTION =
  'Isolate, discharge, prove, lock, tag, try. Accumulators, load-held cylinders, springs and hot oil hold energy when all is off; nobody removes another person’s lock.'
const LIFT_CAUTION =
  'Nobody stands or passes under the piece or in the way it takes. The lift director may stop at any time; a load reading above the ceiling means that something still holds.'

/** Checks 11 to 14 and 16 of a step. */
export function stepChecks(model: Model, mass: MassResult, step: VerifiedStep, memory: Memory): readonly Check[] {
  const shapes = shapeAnswers(model, mass, memory)
  const work = jointWork(model, memory)
  const cells = allCells(model, mass, memory)
  const { settings, shaft, machine } = model.project
  const inputs = [
    step,
    shapes,
    work,
    cells,
    settings.overlapTolerance?.value,
    settings.drainCapacity,
    shaft,
    machine?.pose,
    model.near,
  ]
  const around = surroundingsOf(model, mass, memory)
  const own = memory.once(`strip-stepChecks/${step.step.step}`, inputs, () => [
    pathCheck(model, step, shapes),
    fastenersCheck(model, step, work),
    servicesCheck(model, step),
    reachCheck(model, step, cells, memory),
    ...orNone(drainedCheck(model, step)),
    ...orNone(toolCheck(model, step, around, shapes)),
  ])
  // The load path alone hangs from masses: a new one leaves the others as they are.
  return [...own, ...orNone(loadPathCheck(model, mass, step, memory))]
}

const orNone = (made: Check | undefined): readonly Check[] => (made === undefined ? [] : [made])

export const stepSubject = (model: Model, { placed: { order } }: VerifiedStep) => ({
  pointer: order.pointer,
  id: order.step,
  name: model.project.pieces[order.piece]?.name ?? order.piece,
})

/** Every input that a path rests on: the moves, the pose of the machine, the shaft, and the shapes of all that is there. */
export function pathInputs(
  model: Model,
  { placed }: VerifiedStep,
  shapes: Readonly<Record<string, Answer>>,
): Record<string, Answer> {
  const { shaft, machine } = model.project
  const entries = new Set(
    [...placed.moving.keys(), ...placed.staying.keys()].map((id) => model.instances.byId.get(id)?.entry),
  )
  const inShaft = placed.group === SHAFT && shaft !== undefined
  const leaves: Given[] = [
    ...givensIn(placed.order.moves),
    ...(machine === undefined
      ? []
      : givensIn([machine.pose.origin, machine.pose.roll, machine.pose.pitch, machine.pose.yaw])),
    ...(inShaft
      ? givensIn([
          shaft.clearDiameter,
          shaft.collar,
          shaft.slabTop,
          shaft.wall.innerTolerance,
          shaft.obstructions,
          shaft.eyes,
        ])
      : []),
  ]
  const inputs: Record<string, Answer> = {}
  for (const leaf of leaves) inputs[leaf.pointer] = leaf
  for (const entry of entries) inputs[`shape of ${entry}`] = shapes[entry as string] as Answer
  inputs['overlap tolerated'] = overlapTolerance(model)
  return inputs
}

function pathCheck(model: Model, step: VerifiedStep, shapes: Readonly<Record<string, Answer>>): Check {
  const { blocks } = step.path
  const struck = blocks.filter(({ verdict }) => verdict === 'struck')
  const undecided = blocks.filter(({ verdict }) => verdict === 'open')
  const faults = struck.length + step.placed.missing.length
  const closest = step.step.clearance
  return check({
    kind: pathKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      faults,
      'swept convex cells of the piece against those of all that stands, on every move; curved faces exact, bores by inner and outer shapes',
      pathInputs(model, step, shapes),
      undecided.map(({ part, with: other, depth }) => ({
        title: `inner and outer shapes of "${part}" and "${other}" agree`,
        value: depth,
        unit: 'm',
        tolerance: 0,
      })),
      closest === undefined
        ? undefined
        : `least clearance that closes: "${closest.part}" to "${closest.to}", ${closest.gap.toFixed(3)} m`,
    ),
    capacity: NONE,
    near: model.near,
    assumptions: pathAssumptions(model, step),
    cautions: [LIFT_CAUTION],
    found: step.step.failures.filter((f) => f.part !== undefined).map((f) => `"${f.part}" ${f.reason}`),
  })
}

function pathAssumptions(model: Model, { placed }: VerifiedStep): string[] {
  const tolerance = overlapTolerance(model)
  const accepted = [...placed.moving.keys()].flatMap((id) => {
    const instance = model.instances.byId.get(id)
    return (instance?.part.overlapAccepted ?? []).map(
      (o) => `contact of "${id}" with "${o.with}" is not looked at where the two overlap as found: ${o.why}`,
    )
  })
  return [
    `overlap up to ${(1000 * (tolerance.value as number)).toFixed(1)} mm is a contact${tolerance.kind === 'stated' ? `: ${tolerance.text}` : ''}`,
    'the piece moves without tilt or swing; slings, gear and the bed of the cradle are not in the way',
    ...new Set(accepted),
  ]
}

function fastenersCheck(model: Model, step: VerifiedStep, work: Readonly<Record<string, Work>>): Check {
  const { joints, hidden } = step.release
  const crossing = [...joints, ...hidden.map((h) => h.joint)]
  return check({
    kind: fastenersKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      hidden.length,
      'joints across the cut that cannot be opened before the step',
      Object.fromEntries(crossing.map(({ id }) => [`time to open ${id}`, (work[id] as Work).off])),
    ),
    capacity: NONE,
    near: model.near,
    assumptions: [`joints opened: ${joints.length === 0 ? 'none' : joints.map((j) => j.id).join(', ')}`],
    found: hidden.map(
      ({ joint }) => `joint "${joint.id}" still holds ${joint.joint.between.map((b) => `"${b}"`).join(' to ')}`,
    ),
  })
}

/** Services that hold energy are parted under a named isolation; one that follows is as long as the way at least. */
function servicesCheck(model: Model, step: VerifiedStep): Check {
  const { parted, following } = step.release
  const [start, end] = [step.placed.poses[0], step.placed.poses[step.placed.poses.length - 1]]
  const way = start === undefined || end === undefined ? 0 : distanceMoved(start.shift, end.shift)
  const short = following.filter(({ service }) => (service.length?.value ?? way) < way)
  return check({
    kind: servicesKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      short.length,
      'services with ends on both sides of the cut that are neither parted nor long enough to follow',
      { ...lengthInputs(following), ...isolationInputs(parted) },
    ),
    capacity: NONE,
    near: model.near,
    assumptions: [
      `services parted: ${parted.length}, under ${step.step.isolations.length} isolations (${step.step.isolations.join(', ')})`,
      ...energyTexts(model, step),
      ...drainTexts(step),
    ],
    cautions: parted.length > 0 ? [ISOLATION_CAUTION] : [],
    found: short.map(({ id }) => `service "${id}" is to follow and is shorter than the way, ${way.toFixed(2)} m`),
  })
}

/** What holds energy behind the isolations of a step, in the words of the file: let go before anything is parted. */
const energyTexts = ({ project }: Model, { step }: VerifiedStep): string[] =>
  step.isolations.flatMap((id) => {
    const energy = project.isolations[id]?.storedEnergy
    return energy === undefined ? [] : [`stored energy let go first, ${id}: ${energy}`]
  })

const LITRES = 1000

function drainTexts({ step: { drained } }: VerifiedStep): string[] {
  if (drained.length === 0) return []
  const total = drained.reduce((sum, { volume }) => sum + volume, 0)
  const each = drained.map(({ service, volume }) => `${service} ${(LITRES * volume).toFixed(0)} L`).join(', ')
  return [`drained and caught first: ${(LITRES * total).toFixed(0)} L (${each})`]
}

const lengthInputs = (services: readonly ServiceEnds[]): Record<string, Answer> =>
  Object.fromEntries(
    services.map(({ id, service }) => [
      `length of ${id}`,
      knownOr(service.length, 'm', pointerOf('services', id, 'length')),
    ]),
  )

/** A service under pressure or voltage without a named isolation is open. */
function isolationInputs(services: readonly ServiceEnds[]): Record<string, Answer> {
  const energised = services.filter(({ service: s }) => (s.pressure?.value ?? 0) > 0 || (s.voltage?.value ?? 0) > 0)
  return Object.fromEntries(
    energised
      .filter(({ service }) => service.isolation === undefined)
      .map(({ id }) => [`isolation of ${id}`, given('1', pointerOf('services', id, 'isolation'), undefined)]),
  )
}

const distanceMoved = (a: Vec3, b: Vec3): number => norm([b[0] - a[0], b[1] - a[1], b[2] - a[2]])

function reachCheck(model: Model, step: VerifiedStep, cells: ReadonlyMap<string, PartCells>, memory: Memory): Check {
  const { joints, hidden } = step.release
  const outside = [...joints, ...hidden.map((h) => h.joint)].filter(({ joint }) => joint.access === 'outside')
  const buried = outside.filter((joint) => isOutsideTheBore(model, joint, cells, memory))
  const { shaft } = model.project
  const clear: Record<string, Answer> =
    outside.length === 0 ? {} : { 'clear diameter': knownOr(shaft?.clearDiameter, 'm', '/shaft/clearDiameter') }
  return check({
    kind: reachKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      hidden.flatMap((h) => h.hiders).length + buried.length,
      'parts that hide a fastener and are not gone, and fasteners outside the shield that stand in the ground',
      clear,
    ),
    capacity: NONE,
    near: model.near,
    assumptions: ['what the file lists as hiding a fastener is complete'],
    found: [
      ...hidden.map(
        ({ joint, hiders }) => `${hiders.map((h) => `"${h}"`).join(', ')} hides the fasteners of "${joint.id}"`,
      ),
      ...buried.map(
        ({ id }) => `the fasteners of "${id}" are reached from outside the shield, and stand in the ground there`,
      ),
    ],
  })
}

/** Whether the place where the two sides of a joint meet lies beyond the clear bore of the shaft. */
function isOutsideTheBore(
  model: Model,
  { sides }: JointSides,
  cells: ReadonlyMap<string, PartCells>,
  memory: Memory,
): boolean {
  const { shaft } = model.project
  if (shaft === undefined) return false
  const [a, b] = sides.map((side) => (cells.get(side[0] as string) as PartCells).extent) as [
    PartCells['extent'],
    PartCells['extent'],
  ]
  const middle = [0, 1, 2].map(
    (i) => (Math.max(a[i] as number, b[i] as number) + Math.min(a[i + 3] as number, b[i + 3] as number)) / 2,
  )
  const [x, y] = place(machineInSite(model, memory), middle as unknown as Vec3)
  return Math.hypot(x, y) > (shaft.clearDiameter.value as number) / 2
}
