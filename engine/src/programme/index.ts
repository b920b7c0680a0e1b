export type { Activities, Activity, ActivityKind, Link, LinkType, Scheduled } from './activity.ts'
export { programmeKinds } from './kinds.ts'
export { type ProgrammeResult, programme, type Solved } from './programme.ts'
