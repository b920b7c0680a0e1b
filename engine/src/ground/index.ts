export { type BaySettled, bayCourse, edgesOf, mostSettled, pressingInOrder, settledBy } from './bayCourse.ts'
export { type BesideWall, besideWall, type ChartsAt, chartsDown, NEAREST } from './charts.ts'
export type { CradleCase } from './cradle.ts'
export { DECISIONS, type Decision, type DecisionId } from './decision.ts'
export type { OtherForm } from './forms.ts'
export { type GroundResult, type GroundStep, ground } from './ground.ts'
export type { InstrumentState, LevelName } from './instrument.ts'
export type { JackLoad } from './jacking.ts'
export { groundKinds } from './kinds.ts'
export { AS_IT_STANDS, momentText } from './moment.ts'
export { deviation } from './overlap.formulas.ts'
export { type GroundFrom, groundRanges, type Move, type RangedCheck, type Standing } from './ranges.ts'
export type { RingLevel } from './ring.ts'
export { edgeSlope } from './settlement.formulas.ts'
export {
  bedAt,
  bedPressure,
  bedStrength,
  type SlideAt,
  type SlideCase,
  type SlideNumbers,
  slideNumbers,
  slidePlaces,
  thrustAt,
} from './slide.ts'
export { type WaterStage, waterStages } from './stages.ts'
export type { GroundLoad, Moment } from './step.ts'
export { type SurveyedElement, surveyedAt } from './survey.ts'
export { bayPressing, type Place, type Pressing, pressingAt, settlementAt } from './trough.ts'
export { isPlaced } from './unplaced.ts'
export { type WallRing, wallRing } from './wall.ts'
export { outside, outsideAt, type WallLoad } from './wallLoad.ts'
