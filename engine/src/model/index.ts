export { type Instance, type Instances, idsMeant, instancesOf } from './instance.ts'
export { type Model, type ModelResult, model } from './model.ts'
export { coordinates, poseInSite, poseOfInstance, poseOfMachine } from './pose.ts'
export * from './schema/project.ts'
