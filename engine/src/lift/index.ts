export { liftKinds } from './kinds.ts'
export { type LegResult, type LiftOutcome, type LiftResult, lift, type TurnStage } from './lift.ts'
