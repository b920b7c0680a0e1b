export { riskKinds } from './kinds.ts'
export { type RiskResult, risk } from './risk.ts'
