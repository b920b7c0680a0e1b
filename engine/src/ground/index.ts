export { type GroundResult, ground } from './ground.ts'
export { groundKinds } from './kinds.ts'
