export { attachmentsNamed } from './attachmentsNamed.ts'
export { cycleIn } from './cycle.ts'
export { type Instance, type Instances, idsMeant, instancesOf } from './instance.ts'
export { type Model, type ModelResult, model } from './model.ts'
export { dayOf, type EndOfDay, epochOf, isDayOnly, isMoment } from './moment.ts'
export { coordinates, poseInSite, poseOfInstance, poseOfMachine } from './pose.ts'
export { ratedRows } from './ratedRows.ts'
export * from './schema/project.ts'
export {
  elementAt,
  outwardsAtHead,
  standingOut,
  surveyedElements,
  surveyedPoints,
  surveyedSoFar,
  turnsBetween,
} from './surveyedWall.ts'
export { elementThickness, isSetOutOnCircle, wallRadius } from './wallRadius.ts'
