import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

export interface RiskResult {
  checks: readonly Check[]
}

export function risk(_model: Model, _lift: LiftResult, _programme: ProgrammeResult, _memory: Memory): RiskResult {
  return { checks: [] }
}
