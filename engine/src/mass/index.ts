export { massKinds } from './kinds.ts'
export { type Bounds, type MassResult, type MassState, mass, type SetMass } from './mass.ts'
