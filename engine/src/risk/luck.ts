import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import { simulatedRuns } from './simulation.ts'

/** What a simulation is made from: plain data, so that it may be made in another thread. */
export interface Luck {
  programme: ProgrammeResult
  lift: LiftResult
  model: Model
}

/** Runs, the seed of their luck, and whether to go on. */
export interface LuckOptions {
  runs: number
  seed: number
  shouldContinue?: () => boolean
}

export type Simulated = ReturnType<typeof simulatedRuns>

/** A simulation of what was handed over; the same in any thread. */
export const simulateLuck = ({ programme, lift, model }: Luck, options: LuckOptions): Simulated =>
  simulatedRuns(programme, lift, model, options)
