export { LIFT_CAUTIONS, READING_CAUTIONS, TURNING_CAUTIONS, WIND_CAUTIONS } from './caution.ts'
export { liftKinds } from './kinds.ts'
export { type LegResult, type LiftOutcome, type LiftResult, lift, type TurnStage } from './lift.ts'
export { type TurnPoint, turnCourse } from './turnCourse.ts'
