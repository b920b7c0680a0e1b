export type { Work } from './joint.ts'
export { stripKinds } from './kinds.ts'
export { type StepFailure, type StripResult, type StripStep, strip } from './strip.ts'
