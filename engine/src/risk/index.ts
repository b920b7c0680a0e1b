export { riskKinds } from './kinds.ts'
export { type RiskResult, risk } from './risk.ts'
export { type SimulationOptions, type SimulationOutcome, type SimulationResult, simulate } from './simulation.ts'
