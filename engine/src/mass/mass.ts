import type { Model } from '../model/index.ts'
import type { Mat3, Vec3 } from '../numeric/vector.ts'
import type { Answer } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

/** As found in the machine; as the load cells say; as it goes back with the approved changes in. */
export type MassState = 'found' | 'weighed' | 'returned'

/** Least and greatest coordinates, m. */
export interface Bounds {
  min: Vec3
  max: Vec3
}

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
  /** About the centre of gravity, site axes, kg m². */
  inertia: Mat3
  boundsMachine: Bounds
  boundsSite: Bounds
  /** Standard uncertainty of the centre of gravity along each machine axis, m. */
  cogUncertainty: Vec3
}

export interface MassResult {
  checks: readonly Check[]
  /** Each piece in each state that is known; `weighed` only with a record. */
  pieces: Readonly<Record<string, { found: SetMass; weighed?: SetMass; returned: SetMass }>>
  /** Any set of instances, as found or as returned. */
  ofSet: (parts: readonly string[], state: Exclude<MassState, 'weighed'>) => SetMass
  /** The machine as a whole, as found. */
  machine: SetMass
}

export function mass(_model: Model, _memory: Memory): MassResult {
  throw new Error('mass: to be written')
}
