import type { GroundResult } from '../ground/index.ts'
import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import type { RiskResult } from '../risk/index.ts'
import type { StripResult } from '../strip/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

export interface ReportResult {
  checks: readonly Check[]
}

export function report(
  _model: Model,
  _mass: MassResult,
  _strip: StripResult,
  _lift: LiftResult,
  _ground: GroundResult,
  _programme: ProgrammeResult,
  _risk: RiskResult,
  _memory: Memory,
): ReportResult {
  return { checks: [] }
}
