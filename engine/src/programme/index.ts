export { neededBy } from './activities.ts'
export type { Activities, Activity, ActivityKind, Link, LinkType, Scheduled } from './activity.ts'
export { type BaselineName, keepBaseline, momentText } from './baseline.ts'
export type { Bound } from './bound.ts'
export { addWork, type Calendar, startAt, unbrokenFrom } from './calendar.ts'
export { dayLengths } from './checks.ts'
export { type Drive, learningOf, reachesOf } from './drive.ts'
export { evidenceFaults } from './evidence.ts'
export type { Question } from './health.ts'
export { asksForWeld, weldsOf } from './inspections/changeWelds.ts'
export { standingTests } from './inspections/welds.ts'
export { programmeKinds } from './kinds.ts'
export { type AheadEntry, activeBetween, lookAhead } from './lookAhead.ts'
export type { NearPath } from './nearCritical.ts'
export {
  boundsFrom,
  earliestStart,
  FF,
  FS,
  finishOf,
  inOnePiece,
  type Links,
  lagged,
  type Network,
  offsets,
  SF,
  SS,
} from './network.ts'
export { targetOf } from './passes.ts'
export { peopleKinds } from './people/kinds.ts'
export { type ProgrammeResult, programme, type Solved } from './programme.ts'
export type { Actual, Progress } from './progress.ts'
export { type ImproveOptions, improvePlan, type PlanProposal } from './proposal.ts'
export { type Instance, networkOfInstance } from './rcpsp/instance.ts'
export { type InstanceResult, readInstance } from './rcpsp/psplib.ts'
export { boundWords, type InstanceSolution, scheduleFaults, solveInstance } from './rcpsp/rcpsp.ts'
export { type Far, type News, near, type Side } from './rcpsp/side.ts'
export { type ShiftWork, shiftsAt } from './shift.ts'
export { improverOf, type SideOrder } from './sides.ts'
export type { Slip, SlipCause, Slippage } from './slippage.ts'
export { standing as standingReadings } from './tests/readings.ts'
export { triangularMean, triangularQuantile, triangularVariance } from './three-points.formulas.ts'
export { dayNumber, elapsedAt, instantOf, localAt, offsetAt, type Zone } from './zone.ts'
