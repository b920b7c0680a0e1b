import type { MassResult } from '../mass/index.ts'
import { type Model, poseOfInstance } from '../model/index.ts'
import { reachAlong } from '../numeric/hull.ts'
import { type Pose, place, scale, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { givensIn } from './givens.ts'
import { standsKind } from './kinds.ts'
import { allCells, machineInSite, type PartCells } from './shape.ts'
import { stepSubject } from './step-checks.ts'
import { bedHalfWidth, insideBed } from './support.formulas.ts'
import type { VerifiedStep } from './verify.ts'

/** Said beside everything about what is left standing. */
export const STANDING_CAUTION =
  'An open ring springs and ovalises; what braces it, and every temporary support, is for a licensed engineer. Standing in equilibrium is necessary for stability, not sufficient.'

/** Whether the centre of gravity of what a step leaves lies inside the bed, by the margin the project sets. */
export function standsCheck(model: Model, step: VerifiedStep, left: Centre, [rear, front]: Bed): Check {
  const { cradle, settings, machine } = model.project
  return check({
    kind: standsKind,
    subject: stepSubject(model, step),
    demand: knownOr(settings.supportMargin, 'm', '/settings/supportMargin'),
    capacity: insideBed.show({
      x: left.x,
      y: left.y,
      xr: rear,
      xf: front,
      yc: knownOr(machine?.pose.origin[1], 'm', '/machine/pose/origin/1'),
      b: bedHalfWidth.show({
        R: knownOr(cradle?.radius, 'm', '/cradle/radius'),
        phi: knownOr(cradle?.contactHalfAngle, 'rad', '/cradle/contactHalfAngle'),
      }),
    }),
    near: model.near,
    assumptions: ['what is left stands as one body on the bed; jacks and joints to the tunnel lining are left aside'],
    cautions: [STANDING_CAUTION],
    found: ['what is left tips off its bed: support it before the piece goes'],
  })
}

/** Ends of what bears on the bed, site x. */
export type Bed = readonly [rear: Answer<'m'>, front: Answer<'m'>]

/** Ends of what bears on the bed, site x: those of the parts that reach it, no farther than the bed. */
export function bedUnder(model: Model, below: readonly PartCells[], memory: Memory): Bed {
  const { along } = model.project.cradle ?? {}
  const [rear, front] = endsOf(below, machineInSite(model, memory))
  const bed = [along?.[0].value ?? 0, along?.[1].value ?? 0]
  const end = (name: string, value: number, side: 0 | 1): Answer<'m'> =>
    found({
      unit: 'm',
      value,
      method: `${name} end of the parts left that reach the bed, no farther than the bed itself`,
      inputs: { 'end of the bed': knownOr(along?.[side], 'm', `/cradle/along/${side}`) },
      residuals: [],
    })
  return [end('rear', Math.max(rear, Math.min(...bed)), 0), end('front', Math.min(front, Math.max(...bed)), 1)]
}

/** Centre of gravity in plan, site frame. */
export interface Centre {
  x: Answer<'m'>
  y: Answer<'m'>
}

/** Centre of gravity of what a step leaves, site frame, as found. Parts moved aside count where they were. */
export function centreLeft(
  model: Model,
  mass: MassResult,
  { placed: { remaining, order } }: VerifiedStep,
  memory: Memory,
): Centre {
  const centres = siteCentres(model, mass, memory)
  const pose = model.project.machine?.pose
  return memory.once(`strip-left/${order.step}`, [mass.parts, remaining, centres], () => {
    const lumps = remaining.map((id) => {
      const entry = model.instances.byId.get(id)?.entry as string
      return { entry, mass: mass.parts[entry]?.mass.value ?? 0, at: centres.get(id) as Vec3 }
    })
    const leaves = givensIn([pose?.origin, pose?.roll, pose?.pitch, pose?.yaw])
    const inputs: Record<string, Answer> = Object.fromEntries(leaves.map((leaf) => [leaf.pointer, leaf]))
    for (const { entry } of lumps) inputs[`mass of ${entry}`] = (mass.parts[entry] as MassResult['parts'][string]).mass
    return { x: centreAlong(0, lumps, inputs), y: centreAlong(1, lumps, inputs) }
  })
}

/** Centroids of all instances, site frame, as found. */
function siteCentres(model: Model, mass: MassResult, memory: Memory): ReadonlyMap<string, Vec3> {
  const machine = machineInSite(model, memory)
  return memory.once('strip-centres', [allCells(model, mass, memory), machine], () => {
    const all = [...model.instances.byId.values()]
    return new Map(
      all.map((instance) => {
        const { shape } = mass.parts[instance.entry] as MassResult['parts'][string]
        return [instance.id, place(machine, place(poseOfInstance(instance), shape.centroid))]
      }),
    )
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
function endsOf(parts: readonly PartCells[], pose: Pose): [number, number] {
  const ahead: Vec3 = [pose.turn[0][0], pose.turn[0][1], pose.turn[0][2]]
  const reach = (sign: number): number =>
    Math.max(...parts.flatMap(({ solids }) => solids.map(({ cell }) => reachAlong(cell.outer, scale(ahead, sign)))))
  const [origin] = pose.shift
  return [origin - reach(-1), origin + reach(1)]
}
