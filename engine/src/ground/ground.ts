import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

export interface GroundResult {
  checks: readonly Check[]
}

export function ground(
  _model: Model,
  _mass: MassResult,
  _strip: StripResult,
  _lift: LiftResult,
  _memory: Memory,
): GroundResult {
  return { checks: [] }
}
