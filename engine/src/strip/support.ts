import type { MassResult } from '../mass/index.ts'
import { type Instance, type Model, poseOfInstance } from '../model/index.ts'
import { reachAlong } from '../numeric/hull.ts'
import { type Pose, place, scale, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { faultsFound, NONE } from './fault.ts'
import { givensIn } from './givens.ts'
import { type JointSides, jointSides } from './joint.ts'
import { heldKind, standsKind } from './kinds.ts'
import { groupsOf } from './part-checks.ts'
import { allCells, machineInSite, type PartCells } from './shape.ts'
import { SHAFT } from './standing.ts'
import { stepSubject } from './step-checks.ts'
import { bedHalfWidth, insideBed } from './support.formulas.ts'
import type { VerifiedStep } from './verify.ts'

const CAUTION =
  'An open ring springs and ovalises; what braces it, and every temporary support, is for a licensed engineer. Standing in equilibrium is necessary for stability, not sufficient.'

/** Check 15 after each step in the shaft: what is left is held by joints or from below, and does not tip off its bed. */
export function supportChecks(
  model: Model,
  mass: MassResult,
  steps: readonly VerifiedStep[],
  memory: Memory,
): readonly Check[] {
  const joints = jointSides(model, memory)
  const cells = allCells(model, mass, memory)
  const bearing = bearingParts(model, cells, memory)
  const { cradle, settings, steps: written } = model.project
  const shared = [joints, bearing, cradle, settings.supportMargin, model.near]
  const opened = new Set<string>()
  const props: Prop[] = []
  return steps.flatMap((step) => {
    for (const { id } of step.release.joints) opened.add(id)
    const support = written[step.step.step]?.support
    if (support !== undefined) props.push(propOf(step, support))
    if (step.placed.group !== SHAFT) return []
    const left = centreLeft(model, mass, step, memory)
    const own = [step, left, opened.size, ...props.map((p) => p.text)]
    return memory.once(`strip-support/${step.step.step}`, [...shared, ...own], () => {
      const closed = joints.filter(({ id }) => !opened.has(id))
      return [
        heldCheck(model, step, closed, bearing, [...props]),
        standsCheck(model, step, left, bearing, cells, memory),
      ]
    })
  })
}

/** A temporary support that a step names: for the piece it leaves standing, or for what it leaves loose. */
interface Prop {
  text: string
  /** Undefined: whatever the step leaves loose. */
  parts: ReadonlySet<string> | undefined
}

const propOf = ({ placed: { order } }: VerifiedStep, support: string): Prop => ({
  text: `${order.step}: ${support}`,
  parts: order.stays ? new Set(order.parts) : undefined,
})

/** Parts of the machine as found that reach down to the bed of the cradle. */
function bearingParts(model: Model, cells: ReadonlyMap<string, PartCells>, memory: Memory): ReadonlySet<string> {
  const { cradle, machine } = model.project
  const pose = machineInSite(model, memory)
  return memory.once('strip-bearing', [cells, cradle, pose, machine?.shieldDiameter?.value], () => {
    const radius = cradle?.radius?.value ?? (machine?.shieldDiameter?.value ?? 0) / 2
    if (cradle === undefined || radius === 0) return new Set<string>()
    const half = cradle.contactHalfAngle.value as number
    const along = cradle.along.map((a) => a.value as number) as [number, number]
    return new Set([...cells.values()].filter((part) => bears(part, radius, half, along, pose)).map(({ id }) => id))
  })
}

/** A gap to the bed up to this is taken up by packing, m (common practice, no source). */
const PACKING = 0.1
const INVERT = -Math.PI / 2

function bears(
  { solids, extent }: PartCells,
  radius: number,
  half: number,
  along: readonly [number, number],
  pose: Pose,
): boolean {
  const middle: Vec3 = [(extent[0] + extent[3]) / 2, 0, 0]
  const length = (extent[3] - extent[0]) / 2
  const [x] = place(pose, middle)
  if (x + length < Math.min(...along) || x - length > Math.max(...along)) return false
  return [-1, -0.5, 0, 0.5, 1].some((share) => {
    const angle = INVERT + share * half
    const down: Vec3 = [0, Math.cos(angle), Math.sin(angle)]
    return solids.some(({ cell }) => reachAlong(cell.outer, down) >= radius - PACKING)
  })
}

function heldCheck(
  model: Model,
  step: VerifiedStep,
  closed: readonly JointSides[],
  bearing: ReadonlySet<string>,
  props: readonly Prop[],
): Check {
  const poses = posesAfter(step)
  const together = closed.filter(({ sides }) => new Set(sides.flat().map((id) => poses.get(id))).size < 2)
  const loose = groupsOf(step.placed.remaining, together).filter((group) => !group.some((id) => bearing.has(id)))
  const propped = loose.filter((group) => props.some(({ parts }) => group.every((id) => parts?.has(id) ?? true)))
  const falling = loose.filter((group) => !propped.includes(group))
  return check({
    kind: heldKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      falling.length,
      'groups of parts left that no closed joint ties to a part on the cradle, and no support is named for',
      {
        'half angle of the bed': knownOr(model.project.cradle?.contactHalfAngle, 'rad', '/cradle/contactHalfAngle'),
      },
    ),
    capacity: NONE,
    near: model.near,
    assumptions: [
      `a part within ${PACKING} m of the bed is packed to it (common practice, no source)`,
      ...(propped.length > 0
        ? [`${listed(propped)} on the support named: ${props.map((p) => p.text).join('; ')}`]
        : []),
    ],
    cautions: [CAUTION],
    found: falling.map((group) => `${listed([group])} is tied to nothing on the cradle: name its temporary support`),
  })
}

/** Where each part of the group stands once the step is done. */
function posesAfter({ placed: { staying, moving, order, poses } }: VerifiedStep): ReadonlyMap<string, Pose> {
  const end = poses[poses.length - 1] as Pose
  return new Map([...staying, ...(order.stays ? [...moving.keys()].map((id) => [id, end] as const) : [])])
}

const listed = (groups: readonly (readonly string[])[]): string =>
  groups
    .flat()
    .map((id) => `"${id}"`)
    .join(', ')

function standsCheck(
  model: Model,
  step: VerifiedStep,
  left: Centre,
  bearing: ReadonlySet<string>,
  cells: ReadonlyMap<string, PartCells>,
  memory: Memory,
): Check {
  const { cradle, settings } = model.project
  const pose = machineInSite(model, memory)
  const below = step.placed.remaining.filter((id) => bearing.has(id)).map((id) => cells.get(id) as PartCells)
  const [rear, front] = bedUnder(below, pose)
  const radius = cradle?.radius ?? model.project.machine?.shieldDiameter
  const end = (name: string, value: number, side: 0 | 1): Answer<'m'> =>
    found({
      unit: 'm',
      value,
      method: `${name} end of the parts left that reach the bed, no farther than the bed itself`,
      inputs: { 'end of the bed': knownOr(cradle?.along[side], 'm', `/cradle/along/${side}`) },
      residuals: [],
    })
  const [bedRear, bedFront] = [cradle?.along[0].value ?? 0, cradle?.along[1].value ?? 0]
  return check({
    kind: standsKind,
    subject: stepSubject(model, step),
    demand: knownOr(settings.supportMargin, 'm', '/settings/supportMargin'),
    capacity: insideBed.show({
      x: left.x,
      y: left.y,
      xr: end('rear', Math.max(rear, Math.min(bedRear, bedFront)), 0),
      xf: end('front', Math.min(front, Math.max(bedRear, bedFront)), 1),
      yc: knownOr(model.project.machine?.pose.origin[1], 'm', '/machine/pose/origin/1'),
      b: bedHalfWidth.show({
        R: knownOr(radius, 'm', '/cradle/radius'),
        phi: knownOr(cradle?.contactHalfAngle, 'rad', '/cradle/contactHalfAngle'),
      }),
    }),
    near: model.near,
    assumptions: ['what is left stands as one body on the bed; jacks and joints to the tunnel lining are left aside'],
    cautions: [CAUTION],
    found: ['what is left tips off its bed: support it before the piece goes'],
  })
}

interface Centre {
  x: Answer<'m'>
  y: Answer<'m'>
}

/** Centre of gravity of what a step leaves, site frame, as found. Parts moved aside count where they were. */
function centreLeft(
  model: Model,
  mass: MassResult,
  { placed: { remaining, order } }: VerifiedStep,
  memory: Memory,
): Centre {
  const pose = model.project.machine?.pose
  const machine = machineInSite(model, memory)
  const leaves = givensIn([pose?.origin, pose?.roll, pose?.pitch, pose?.yaw])
  return memory.once(`strip-left/${order.step}`, [mass.parts, remaining, machine], () => {
    const lumps = remaining.map((id) => {
      const instance = model.instances.byId.get(id) as Instance
      const part = mass.parts[instance.entry] as MassResult['parts'][string]
      const at = place(machine, place(poseOfInstance(instance), part.shape.centroid))
      return { entry: instance.entry, part, mass: part.mass.value ?? 0, at }
    })
    const inputs = Object.fromEntries([
      ...lumps.map(({ entry, part }) => [`mass of ${entry}`, part.mass] as const),
      ...leaves.map((leaf) => [leaf.pointer, leaf] as const),
    ])
    return { x: centreAlong(0, lumps, inputs), y: centreAlong(1, lumps, inputs) }
  })
}

function centreAlong(
  axis: 0 | 1,
  lumps: readonly { mass: number; at: Vec3 }[],
  inputs: Readonly<Record<string, Answer>>,
): Answer<'m'> {
  const total = lumps.reduce((sum, l) => sum + l.mass, 0)
  const value = lumps.reduce((sum, l) => sum + l.mass * l.at[axis], 0) / total
  const moment = lumps.reduce((sum, l) => sum + l.mass * (l.at[axis] - value), 0)
  return found({
    unit: 'm',
    value,
    method: `centre of gravity of what is left along site ${'xy'[axis]}: Σ m c / Σ m`,
    inputs,
    residuals: [{ title: 'Σ m (c − centre)', value: moment, unit: 'kg m', tolerance: 1e-9 * total * 100 }],
  })
}

/** Rear and front of parts along the drive, site frame. */
function bedUnder(parts: readonly PartCells[], pose: Pose): [number, number] {
  const ahead: Vec3 = [pose.turn[0][0], pose.turn[0][1], pose.turn[0][2]]
  const reach = (sign: number): number =>
    Math.max(...parts.flatMap(({ solids }) => solids.map(({ cell }) => reachAlong(cell.outer, scale(ahead, sign)))))
  const [origin] = pose.shift
  return [origin - reach(-1), origin + reach(1)]
}
