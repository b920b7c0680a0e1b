export { type BreakthroughResult, forecastBreakthrough } from './breakthrough.ts'
export { chanceInputs } from './chanceInputs.ts'
export { priceOfEvent } from './event.formulas.ts'
export { riskKinds } from './kinds.ts'
export {
  type MeasureResult,
  measures,
  type Saved,
  type StillResult,
  savedBy,
  simulationsFor,
  type WhatIfs,
} from './measures.ts'
export type { Percentiles, SimulationResult } from './result.ts'
export { type EventResult, type RiskResult, risk } from './risk.ts'
export { type SimulationOptions, type SimulationOutcome, simulate, simulatedRuns } from './simulation.ts'
export { simulationChecks } from './simulationChecks.ts'
export type { WindowResult } from './windows.ts'
