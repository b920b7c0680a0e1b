import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { reachAlong } from '../numeric/hull.ts'
import { type Pose, place, type Vec3 } from '../numeric/vector.ts'
import { knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { type HeldByContact, heldByContact, PACKING, steadyCheck } from './contact-held.ts'
import { type JointSides, jointSides } from './joint.ts'
import { heldKind } from './kinds.ts'
import { groupsOf } from './part-checks.ts'
import { allCells, machineInSite, type PartCells } from './shape.ts'
import { SHAFT } from './standing.ts'
import { bedUnder, centreLeft, STANDING_CAUTION, standsCheck } from './stands.ts'
import { stepSubject } from './step-checks.ts'
import type { VerifiedStep } from './verify.ts'

/** Check 15 after each step in the shaft: what is left is held by joints, by contact or by named supports, and does not tip off its bed. */
export function supportChecks(
  model: Model,
  mass: MassResult,
  steps: readonly VerifiedStep[],
  memory: Memory,
): readonly Check[] {
  const joints = jointSides(model, memory)
  const cells = allCells(model, mass, memory)
  const bearing = bearingParts(model, cells, memory)
  const { cradle, settings } = model.project
  const shared = [joints, bearing, cradle, settings.supportMargin, model.near]
  const contactInputs = [
    cells,
    machineInSite(model, memory),
    mass.parts,
    settings.contactFriction,
    settings.sidewaysShare,
    settings.contactGap,
  ]
  const opened = new Set<string>()
  const props: Prop[] = []
  return steps.flatMap((step) => {
    for (const { id } of step.release.joints) opened.add(id)
    const { support } = step.placed.order
    if (support !== undefined) props.push(propOf(step, support))
    if (step.placed.group !== SHAFT) return []
    const { step: id } = step.step
    const groups = memory.once(`strip-groups/${id}`, [...shared, step, opened.size, ...props.map((p) => p.text)], () =>
      groupsAfter(
        step,
        joints.filter((joint) => !opened.has(joint.id)),
        bearing,
        [...props],
      ),
    )
    // Masses matter only where contact has to hold something: a new one leaves the rest as it is.
    const contact = groups.byContact && cradle !== undefined ? contactInputs : []
    const held = memory.once(`strip-held/${id}`, [groups, cradle, model.near, step, ...contact], () =>
      heldChecks(model, step, groups, contactOf(model, mass, groups, bearing, cells, memory)),
    )
    const left = centreLeft(model, mass, step, memory)
    const below = step.placed.remaining.filter((part) => bearing.has(part)).map((part) => cells.get(part) as PartCells)
    const bed = memory.once(`strip-bed/${id}`, [cradle, machineInSite(model, memory), ...below], () =>
      bedUnder(model, below, memory),
    )
    const stands = memory.once(`strip-stands/${id}`, [...shared, step, left, bed], () =>
      standsCheck(model, step, left, bed),
    )
    return [...held, stands]
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

/** Parts of the machine as found that reach down to the bed of the cradle: the very same while the same ones do, whatever shape they have. */
export function bearingParts(model: Model, cells: ReadonlyMap<string, PartCells>, memory: Memory): ReadonlySet<string> {
  const { cradle, machine } = model.project
  const pose = machineInSite(model, memory)
  const reach = memory.once('strip-bearing', [cells, cradle, pose, machine?.shieldDiameter?.value], (): string[] => {
    const radius = cradle?.radius?.value ?? (machine?.shieldDiameter?.value ?? 0) / 2
    if (cradle === undefined || radius === 0) return []
    const half = cradle.contactHalfAngle.value as number
    const along = cradle.along.map((a) => a.value as number) as [number, number]
    return [...cells.values()].filter((part) => bears(part, radius, half, along, pose)).map(({ id }) => id)
  })
  const ids = memory.settled('strip-bearing-ids', reach)
  return memory.once('strip-bearing-now', [ids], () => new Set(ids))
}

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

/** What stands once a step is done, by what ties and props it. */
interface GroupsAfter {
  /** Tied by closed joints; on no named support. */
  own: readonly (readonly string[])[]
  propped: readonly (readonly string[])[]
  props: readonly Prop[]
  poses: ReadonlyMap<string, Pose>
  /** More than one group on the bed alone, so that contact has to hold something. */
  byContact: boolean
}

function groupsAfter(
  step: VerifiedStep,
  closed: readonly JointSides[],
  bearing: ReadonlySet<string>,
  props: readonly Prop[],
): GroupsAfter {
  const poses = posesAfter(step)
  const together = closed.filter(({ sides }) => new Set(sides.flat().map((id) => poses.get(id))).size < 2)
  const groups = groupsOf(step.placed.remaining, together)
  const isTied = (group: readonly string[]): boolean => group.some((id) => bearing.has(id))
  const propped = groups.filter(
    (group) => !isTied(group) && props.some(({ parts }) => group.every((id) => parts?.has(id) ?? true)),
  )
  const own = groups.filter((group) => !propped.includes(group))
  const alone = own.length === 0 || (own.length === 1 && isTied(own[0] as string[]))
  return { own, propped, props, poses, byContact: !alone }
}

const contactOf = (
  model: Model,
  mass: MassResult,
  { own, propped, poses, byContact }: GroupsAfter,
  bearing: ReadonlySet<string>,
  cells: ReadonlyMap<string, PartCells>,
  memory: Memory,
): HeldByContact | undefined =>
  byContact && model.project.cradle !== undefined
    ? heldByContact(model, mass, {
        groups: own,
        propped: propped.flat(),
        poses,
        bearing,
        machine: machineInSite(model, memory),
        cells,
      })
    : undefined

function heldChecks(
  model: Model,
  step: VerifiedStep,
  { propped, props }: GroupsAfter,
  contact: HeldByContact | undefined,
): readonly Check[] {
  const held = check({
    kind: heldKind,
    subject: stepSubject(model, step),
    demand: faultsFound(
      contact?.falls.length ?? 0,
      'groups of parts left that neither closed joints, nor contact, nor a named support holds',
      {
        'half angle of the bed': knownOr(model.project.cradle?.contactHalfAngle, 'rad', '/cradle/contactHalfAngle'),
        ...contact?.inputs,
      },
    ),
    capacity: NONE,
    near: model.near,
    assumptions: [
      `a part within ${PACKING} m of the bed is packed to it (common practice, no source)`,
      ...(contact?.assumptions ?? []),
      ...(propped.length > 0
        ? [`${listed(propped)} on the support named: ${props.map((p) => p.text).join('; ')}`]
        : []),
    ],
    cautions: [STANDING_CAUTION],
    found: contact?.falls ?? [],
  })
  const stands = contact?.held === true ? [steadyCheck(model, stepSubject(model, step), contact)] : []
  return [held, ...stands]
}

/** Where each part of the group stands once the step is done. */
function posesAfter({ placed: { staying, moving, order, poses } }: VerifiedStep): ReadonlyMap<string, Pose> {
  const end = poses[poses.length - 1] as Pose
  return new Map([...staying, ...(order.stays ? [...moving.keys()].map((id) => [id, end] as const) : [])])
}

/** Parts that hang on nothing once a piece has been taken out of the whole machine. */
export function leftLoose(
  ids: readonly string[],
  piece: ReadonlySet<string>,
  joints: readonly JointSides[],
  bearing: ReadonlySet<string>,
): readonly string[] {
  const left = groupsOf(
    ids.filter((id) => !piece.has(id)),
    joints,
  )
  return bearing.size === 0 ? [] : left.filter((group) => !group.some((id) => bearing.has(id))).flat()
}

const listed = (groups: readonly (readonly string[])[]): string =>
  groups
    .flat()
    .map((id) => `"${id}"`)
    .join(', ')
