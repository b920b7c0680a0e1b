export { type BreakthroughResult, forecastBreakthrough } from './breakthrough.ts'
export { riskKinds } from './kinds.ts'
export { type MeasureResult, measures } from './measures.ts'
export { type EventResult, type RiskResult, risk } from './risk.ts'
export {
  type Percentiles,
  type SimulationOptions,
  type SimulationOutcome,
  type SimulationResult,
  simulate,
} from './simulation.ts'
export { simulationChecks } from './simulationChecks.ts'
export type { WindowResult } from './windows.ts'
