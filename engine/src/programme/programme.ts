import type { GroundResult } from '../ground/index.ts'
import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'

/** One activity of the plan. Instants are seconds from the start of the programme, elapsed time. */
export interface Activity {
  id: string
  name: string
  phase: string
  calendar: string
  /** Working time: least, most likely, greatest, s. */
  work: readonly [number, number, number]
  after: readonly { to: string; type: 'FS' | 'SS' | 'FF' | 'SF'; lag: number; calendar?: string }[]
  needs: Readonly<Record<string, number>>
  /** Where it came from: pointers into the project file. */
  from: readonly string[]
  lift?: string
  fixedCost: number
  holdPoint?: string
}

export interface Scheduled {
  /** Resource-feasible plan. */
  start: number
  finish: number
  /** Without resources. */
  earlyStart: number
  earlyFinish: number
  lateStart: number
  lateFinish: number
  totalFloat: number
  critical: boolean
}

export interface ProgrammeResult {
  checks: readonly Check[]
  activities: Readonly<Record<string, Activity>>
  plan: Readonly<Record<string, Scheduled>>
  /** Finish of the restart activity in the plan, s from the start; undefined when there is no programme. */
  restart?: number
  /** The same with unlimited resources. */
  restartUnlimited?: number
  /** No plan with these resources is earlier, and what that rests on. */
  bound?: { value: number; reason: string }
  proven: boolean
  /** UTC instant of second zero, ISO 8601. */
  origin?: string
}

export function programme(
  _model: Model,
  _mass: MassResult,
  _strip: StripResult,
  _lift: LiftResult,
  _ground: GroundResult,
  _memory: Memory,
): ProgrammeResult {
  return { checks: [], activities: {}, plan: {}, proven: false }
}
