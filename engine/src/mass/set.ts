import { type Machine, poseOfInstance, poseOfMachine, type Settings } from '../model/index.ts'
import { type Bounds, boundsOf, boundsTogether } from '../numeric/body.ts'
import {
  AT_REST,
  compose,
  type Mat3,
  multiply,
  type Pose,
  place,
  transpose,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { type Answer, sumOf } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import type { Lump, Member } from './lump.ts'
import { type Along, type Axis, centreAnswer, centreOf, inertiaOf, siteAnswers, spreadAbout } from './rollup.ts'
import { designMass, expectedMass, lowerMass } from './set.formulas.ts'
import { allowanceOf, type Combine, combined, shiftAnswer, shiftsOf, termsOf, uncertaintiesOf } from './uncertainty.ts'

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
  /** The contingency in it, by basis, without any unexplained difference. */
  contingency: Answer<'kg'>
  /** Standard uncertainty of the net mass, by the rule the project sets. */
  uncertainty: Answer<'kg'>
  /** Both rules, for the reader. */
  uncertaintyIndependent: Answer<'kg'>
  uncertaintyCorrelated: Answer<'kg'>
  /** What a load reading should show, net of rigging: net + retained, without allowance. */
  expected: Answer<'kg'>
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
  combine: Combine
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
  const net = sumOf('parts and changes', 'kg', termsOf(lumps, 'mass'))
  const expected = expectedMass.show({ net, ret: retained })
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
    contingency: allowance,
    uncertainty,
    uncertaintyIndependent: uncertainties.independent,
    uncertaintyCorrelated: uncertainties.correlated,
    expected,
    design: designMass.show({ M: expected, A: allowance }),
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
      shiftAnswer(lumps, cogMachineWorking[axis], net, shifts[axis] as number[], rules.combine),
    ),
  }
}

const along = (of: (axis: Axis) => Answer<'m'>): Along<'m'> => [of(0), of(1), of(2)]

/** Bounds of members in a frame that `pose` leads to from the machine's. */
function boundsIn(
  members: readonly Member[],
  pose: Pose,
  memory: Memory,
  frame: 'machine' | 'site',
  placing: Machine['pose'] | undefined,
): Bounds {
  const each = members.map(({ part: { entry, shape }, instances }) => {
    const ids = instances.map((i) => i.id)
    const inputs = [shape, placing, instances[0]?.part.pattern, ...ids]
    return memory.once(`mass-bounds/${frame}/${entry}/${ids.length}/${ids[0]}`, inputs, () =>
      boundsTogether(instances.map((i) => boundsOf(shape.bodies, compose(pose, poseOfInstance(i))))),
    )
  })
  return each.length === 0 ? { min: ZERO, max: ZERO } : boundsTogether(each)
}
