import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { StepPlaces } from '../strip/index.ts'
import type { Memory } from '../working/memory.ts'
import type { Remainder } from './remainder.ts'
import type { Weights } from './weight.ts'

/** What every part of the stage reads. */
export interface GroundCase {
  model: Model
  mass: MassResult
  lift: LiftResult
  places: readonly StepPlaces[]
  /** In the shaft before each step, and after the last. */
  remainders: readonly Remainder[]
  weights: Weights
  memory: Memory
}
