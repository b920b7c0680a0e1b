export {
  type Blocking,
  blockingOf,
  type DirectionalBlocking,
  type PairBlocking,
  type PartBlocking,
} from './blocking-of.ts'
export type { BoltPlaces } from './bolt-places.ts'
export { gradeOf, holeOf, threadOf } from './bolt-sizes.ts'
export type { BoltUpJoint, BoltUpStep } from './bolt-up.ts'
export { stressArea, stressAreaInch } from './bolting.formulas.ts'
export type { Bolting, Pass } from './bolting.ts'
export type { Deadlock } from './deadlock.ts'
export {
  costOfSteps,
  type FoundOrder,
  findOrder,
  type OrderSearch,
  type OtherOrder,
  type Prevented,
} from './find-order.ts'
export { actsOf } from './isolation.ts'
export type { Work } from './joint.ts'
export { stripKinds } from './kinds.ts'
export type { Meeting } from './meet.ts'
export { type NearNow, nearNow } from './near-now.ts'
export type { Path } from './path.ts'
export { liftOf, movedGroup, placesByStep, type Standing, type StepPlaces } from './places.ts'
export {
  type Precedence,
  type PrecedenceArcs,
  type PrecedenceNeed,
  type PrecedenceNode,
  precedenceOf,
} from './precedence-of.ts'
export { comesBack, serviceFaults, serviceMissing } from './services-back.ts'
export { type Clearance, type StepFailure, type StripResult, type StripStep, strip } from './strip.ts'
export {
  type Mend,
  type MendedFailure,
  mendsOf,
  type NearestOrder,
  nearestOrder,
  type VerifiedOrder,
  verifyOrder,
  type WrittenMove,
  type WrittenStep,
  writtenMove,
} from './verify-order.ts'
export { type Waiting, waitsOf } from './waits.ts'
export { type Trial, wayOf } from './way.ts'
