export type { Allowance } from './allowances.ts'
export { GO_OR_STOP, GO_OR_STOP_SOURCE } from './arranged.ts'
export { type Boom, type BoomStanding, boomStanding } from './boom.ts'
export type { Bridle, BridleRule } from './bridle.ts'
export {
  FITTING_CAUTIONS,
  LIFT_CAUTIONS,
  READING_CAUTIONS,
  SHAFT_CAUTIONS,
  TURNING_CAUTIONS,
  WIND_CAUTIONS,
} from './caution.ts'
export type { ChartRead } from './chartChecks.ts'
export { type ClearanceNow, clearanceNow } from './clearanceNow.ts'
export { floatForce, trackLoad } from './crane.formulas.ts'
export {
  CORNERS,
  type CraneFeet,
  craneWeight,
  type Hanging,
  hangings,
  largestFloat,
  ownMass,
  worstSlewOf,
} from './crane.ts'
export type { Feet, Foot } from './feet.ts'
export type { HeaderResult, HeaderSpot } from './header.ts'
export type { HoldingPosition, PointOfNoReturn, Refuge } from './holding.ts'
export { type HungRigging, type Rigged, riggedAt } from './hungRigging.ts'
export { liftKinds } from './kinds.ts'
export type { LevelProposal } from './levelling.ts'
export { type LegResult, type LiftOutcome, type LiftResult, lift, type TurnStage } from './lift.ts'
export type { NearestOverhead, Overhead } from './overhead.ts'
export { overheadNow } from './overheadNow.ts'
export type { PivotHolding } from './pivot.ts'
export type { PivotOnGround } from './pivotOf.ts'
export { type OnSite, type StandingParts, siteNow } from './siteNow.ts'
export type { LiftStage } from './stages.ts'
export { isCrane, placeOf, standingIn } from './swept.ts'
export {
  hookPositions,
  type LegReaction,
  largestLeg,
  legReactions,
  type TowerCase,
  windCouple,
  windPush,
} from './tower.ts'
export { type TurnPoint, turnCourse } from './turnCourse.ts'
export { type TurnDiagram, type TurnEvent, turnDiagram } from './turnDiagram.ts'
export type { UnitGroup } from './units.ts'
export type { ExclusionZone } from './zone.ts'
