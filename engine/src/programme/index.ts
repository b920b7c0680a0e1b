export { programmeKinds } from './kinds.ts'
export { type Activity, type ProgrammeResult, programme, type Scheduled } from './programme.ts'
