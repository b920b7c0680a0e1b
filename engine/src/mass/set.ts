import type { Instance, Machine, Settings } from '../model/index.ts'
import { poseOfInstance, poseOfMachine } from '../model/index.ts'
import { type Bounds, boundsOf, boundsTogether } from '../numeric/body.ts'
import {
  AT_REST,
  add,
  addMatrix,
  compose,
  IDENTITY,
  type Mat3,
  multiply,
  type Pose,
  place,
  scale,
  scaleMatrix,
  subtract,
  transpose,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, sumOf, type Term } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { type Lump, type Member, NO_SPREAD } from './lump.ts'
import { type MassBasis, outer } from './part.ts'
import { contingency, designMass, lowerMass, placedX, placedY, placedZ } from './set.formulas.ts'

/** Three answers, along x, y and z. */
export type Along<U extends 'm'> = readonly [Answer<U>, Answer<U>, Answer<U>]

/** Mass properties of a set of parts in one state, in the pose as found. */
export interface SetMass {
  /** Instance ids. */
  parts: readonly string[]
  /** Parts and changes, without retained matter and without allowance. */
  net: Answer<'kg'>
  /** Muck, grease, oil and water left in. */
  retained: Answer<'kg'>
  /** Contingency by basis, and any difference from weighing that nobody has explained. */
  allowance: Answer<'kg'>
  /** Standard uncertainty of the net mass, by the rule the project sets. */
  uncertainty: Answer<'kg'>
  /** Both rules, for the reader. */
  uncertaintyIndependent: Answer<'kg'>
  uncertaintyCorrelated: Answer<'kg'>
  /** Upper design mass: net + retained + allowance. */
  design: Answer<'kg'>
  /** Lower design mass: net less its uncertainty, nothing retained. */
  lower: Answer<'kg'>
  /** Centre of gravity of the net mass. */
  cogMachine: Vec3
  cogSite: Vec3
  /** The same with what it rests on; open where a mass or a place is missing, while the numbers stand in. */
  cogMachineWorking: Along<'m'>
  cogSiteWorking: Along<'m'>
  /** About the centre of gravity, site axes, kg m². */
  inertia: Mat3
  boundsMachine: Bounds
  boundsSite: Bounds
  /** Standard uncertainty of the centre of gravity along each machine axis, m; terms without an uncertainty left out. */
  cogUncertainty: Vec3
  /** The same with what it rests on; open where an uncertainty is missing. */
  cogUncertaintyWorking: Along<'m'>
  /** Only after weighing: what the load cells show beyond the parts and what is stated to be retained. */
  unexplained?: Answer<'kg'>
}

/** What a roll-up needs to know beside its terms. */
export interface Rules {
  /** None: the site frame is then the machine frame, and answers in it are open. */
  pose: Machine['pose'] | undefined
  combine: Settings['uncertainty']
  allowance: Settings['allowance']
}

const AXES = [0, 1, 2] as const

/** A set from its terms: masses, centre of gravity, inertia and uncertainties; everything is linear in the terms. */
export function setOf(input: {
  members: readonly Member[]
  lumps: readonly Lump[]
  retained: Answer<'kg'>
  rules: Rules
  memory: Memory
}): SetMass {
  const { members, lumps, retained, rules, memory } = input
  const net = sumOf(
    'parts and changes',
    'kg',
    terms(lumps, (l) => l.mass),
  )
  const cogMachine = centreOf(lumps)
  const cogMachineWorking = along((axis) => centreAnswer(lumps, axis, cogMachine))
  const pose = rules.pose === undefined ? AT_REST : poseOfMachine({ pose: rules.pose })
  const spread = spreadAbout(lumps, cogMachine)
  const uncertainties = uncertaintiesOf(lumps)
  const uncertainty = uncertainties[rules.combine]
  const allowance = allowanceOf(lumps, rules.allowance)
  const shifts = AXES.map((axis) => shiftsOf(lumps, axis, cogMachine, net.value ?? 0))
  return {
    parts: members.flatMap((m) => m.instances.map((i) => i.id)),
    net,
    retained,
    allowance,
    uncertainty,
    uncertaintyIndependent: uncertainties.independent,
    uncertaintyCorrelated: uncertainties.correlated,
    design: designMass.show({ net, ret: retained, A: allowance }),
    lower: lowerMass.show({ net, u: uncertainty }),
    cogMachine,
    cogSite: place(pose, cogMachine),
    cogMachineWorking,
    cogSiteWorking: siteAnswers(cogMachineWorking, rules.pose),
    inertia: inertiaOf(multiply(multiply(pose.turn, spread), transpose(pose.turn))),
    boundsMachine: boundsIn(members, AT_REST, memory, 'machine', undefined),
    boundsSite: boundsIn(members, pose, memory, 'site', rules.pose),
    cogUncertainty: shifts.map((s) => combined(s, rules.combine)) as unknown as Vec3,
    cogUncertaintyWorking: along((axis) =>
      shiftAnswer(lumps, cogMachineWorking[axis], net, shifts[axis] as number[], rules),
    ),
  }
}

const along = (of: (axis: 0 | 1 | 2) => Answer<'m'>): Along<'m'> => [of(0), of(1), of(2)]

function terms(lumps: readonly Lump[], of: (lump: Lump) => Answer<'kg'>): Term<'kg'>[] {
  return lumps.map((lump) => ({ label: lump.label, answer: of(lump) }))
}

const massOf = (lump: Lump): number => lump.mass.value ?? 0

/** Σ m c / Σ m; the middle of the places where nothing weighs anything. */
export function centreOf(lumps: readonly Lump[]): Vec3 {
  const total = lumps.reduce((sum, l) => sum + massOf(l), 0)
  const weigh = total > 0 ? massOf : () => 1
  const weight = total > 0 ? total : Math.max(1, lumps.length)
  return scale(
    lumps.reduce<Vec3>((sum, l) => add(sum, scale(l.cog, weigh(l))), ZERO),
    1 / weight,
  )
}

/** Σ [S_i + m_i d dᵀ] about a point: parallel axes. */
export function spreadAbout(lumps: readonly Lump[], centre: Vec3): Mat3 {
  return lumps.reduce<Mat3>((sum, l) => {
    const shifted = scaleMatrix(outer(subtract(l.cog, centre)), massOf(l))
    return addMatrix(sum, addMatrix(l.spread, shifted))
  }, NO_SPREAD)
}

/** Inertia tensor from second moments: tr(S) E − S. */
export function inertiaOf(spread: Mat3): Mat3 {
  const trace = spread[0][0] + spread[1][1] + spread[2][2]
  return addMatrix(scaleMatrix(IDENTITY, trace), scaleMatrix(spread, -1))
}

/** Second moments from an inertia tensor: ½ tr(I) E − I. */
export function spreadOfInertia(inertia: Mat3): Mat3 {
  const trace = inertia[0][0] + inertia[1][1] + inertia[2][2]
  return addMatrix(scaleMatrix(IDENTITY, trace / 2), scaleMatrix(inertia, -1))
}

function centreAnswer(lumps: readonly Lump[], axis: 0 | 1 | 2, centre: Vec3): Answer<'m'> {
  const inputs: Record<string, Answer> = {}
  for (const lump of lumps) {
    inputs[`mass of ${lump.label}`] = lump.mass
    Object.assign(inputs, lump.place)
  }
  const arms = lumps.map((l) => l.cog[axis] - centre[axis])
  const value = lumps.reduce((sum, l, i) => sum + massOf(l) * (arms[i] as number), 0)
  const size = lumps.reduce(
    (sum, l, i) => sum + Math.abs(massOf(l)) * (Math.abs(l.cog[axis]) + Math.abs(arms[i] as number)),
    0,
  )
  return found({
    unit: 'm',
    value: centre[axis],
    method: `centre of gravity along machine ${'xyz'[axis]}: Σ m c / Σ m`,
    inputs,
    residuals: [{ title: 'Σ m (c − centre)', value, unit: 'kg m', tolerance: 1e-9 * size }],
  })
}

/** A point of the machine in the site frame, with what it rests on; open without a pose. */
export function siteAnswers([x, y, z]: Along<'m'>, pose: Machine['pose'] | undefined): Along<'m'> {
  const at = (field: string) => `/machine/pose/${field}`
  const [X0, Y0, Z0] = AXES.map((i) => knownOr(pose?.origin[i], 'm', at(`origin/${i}`))) as unknown as Along<'m'>
  const roll = knownOr(pose?.roll, 'rad', at('roll'))
  const pitch = knownOr(pose?.pitch, 'rad', at('pitch'))
  const yaw = knownOr(pose?.yaw, 'rad', at('yaw'))
  return [
    placedX.show({ X0, x, y, z, roll, pitch, yaw }),
    placedY.show({ Y0, x, y, z, roll, pitch, yaw }),
    placedZ.show({ Z0, x, y, z, roll, pitch }),
  ]
}

/** Both rules: figures that err on their own (root sum of squares), and figures that all err together (plain sum). */
export function uncertaintiesOf(lumps: readonly Lump[]): { independent: Answer<'kg'>; correlated: Answer<'kg'> } {
  const parts = terms(lumps, (l) => l.uncertainty)
  return { independent: rootSumOfSquares(parts), correlated: sumOf('uncertainties, all erring together', 'kg', parts) }
}

/** √Σu² of independent standard uncertainties. */
export function rootSumOfSquares(parts: readonly Term<'kg'>[]): Answer<'kg'> {
  const values = parts.map((t) => t.answer.value ?? 0)
  const value = Math.hypot(...values)
  const squares = values.reduce((sum, u) => sum + u * u, 0)
  return found({
    unit: 'kg',
    value,
    method: 'uncertainties, each erring on its own: √Σu²',
    inputs: Object.fromEntries(parts.map((t) => [t.label, t.answer])),
    residuals: [{ title: 'u² − Σu²', value: value ** 2 - squares, unit: 'kg2', tolerance: 1e-9 * squares }],
  })
}

/** Allowance of each term by its basis; a basis without one in the settings leaves the sum open. */
export function allowanceOf(lumps: readonly Lump[], allowance: Settings['allowance']): Answer<'kg'> {
  return sumOf(
    'allowance by basis',
    'kg',
    lumps.map((l) => ({
      label: `${l.label} (${l.basis})`,
      answer: contingency.show({ a: allowanceFor(l.basis, allowance), m: l.mass }),
    })),
  )
}

export const allowanceFor = (basis: MassBasis, allowance: Settings['allowance']): Answer<'1'> =>
  allowance[basis] ?? given('1', `/settings/allowance/${basis}`, undefined)

/** How far each term's uncertainty moves the centre: ∂c/∂m = (c_i − c)/M times u_i. */
function shiftsOf(lumps: readonly Lump[], axis: 0 | 1 | 2, centre: Vec3, total: number): number[] {
  return lumps.map((l) => (total > 0 ? ((l.cog[axis] - centre[axis]) / total) * (l.uncertainty.value ?? 0) : 0))
}

/** Errors that all go one way may cancel here, so that the plain sum takes each with its worse sign. */
const combined = (shifts: readonly number[], rule: Settings['uncertainty']): number =>
  rule === 'independent' ? Math.hypot(...shifts) : shifts.reduce((sum, s) => sum + Math.abs(s), 0)

function shiftAnswer(
  lumps: readonly Lump[],
  centre: Answer<'m'>,
  net: Answer<'kg'>,
  shifts: readonly number[],
  { combine }: Rules,
): Answer<'m'> {
  return found({
    unit: 'm',
    value: combined(shifts, combine),
    method:
      combine === 'independent'
        ? 'uncertainty of the centre of gravity: √Σ((c_i − c)/M · u_i)²'
        : 'uncertainty of the centre of gravity: Σ |(c_i − c)/M · u_i|',
    inputs: { centre, net, ...Object.fromEntries(lumps.map((l) => [l.label, l.uncertainty])) },
    residuals: [],
    note: 'the places of the parts are taken as they are drawn: only their masses are uncertain',
  })
}

/** Bounds of members in a frame that `pose` leads to from the machine's. */
function boundsIn(
  members: readonly Member[],
  pose: Pose,
  memory: Memory,
  frame: 'machine' | 'site',
  placing: Machine['pose'] | undefined,
): Bounds {
  const each = members.flatMap(({ part: { shape }, instances }) =>
    instances.map((i) =>
      memory.once(`mass-bounds/${frame}/${i.id}`, [shape, placing, i.turn, ...i.shift], () =>
        boundsOf(shape.bodies, compose(pose, poseOfInstance(i as Instance))),
      ),
    ),
  )
  return each.length === 0 ? { min: ZERO, max: ZERO } : boundsTogether(each)
}
