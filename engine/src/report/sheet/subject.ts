import type { GroundResult } from '../../ground/index.ts'
import type { LiftOutcome, LiftResult } from '../../lift/index.ts'
import type { MassResult, SetMass } from '../../mass/index.ts'
import {
  type Arrangement,
  type Lift,
  type Model,
  type Piece,
  poseInSite,
  poseOfMachine,
  type System,
} from '../../model/index.ts'
import { AT_REST, compose, type Pose } from '../../numeric/vector.ts'
import type { StripResult, StripStep } from '../../strip/index.ts'
import type { Standing } from '../outline/picture.ts'

/** The stages that a lift sheet is made from. */
export interface SheetStages {
  model: Model
  mass: MassResult
  strip: StripResult
  lift: LiftResult
  ground: GroundResult
}

type HookOf = System['hooks'][string]

/** One lift with everything its sheet shows. */
export interface SheetSubject {
  stages: SheetStages
  id: string
  lift: Lift
  outcome: LiftOutcome
  piece: Piece
  set: SetMass
  /** Whether the piece goes the other way along its steps. */
  back: boolean
  /** Steps of the order that this lift carries out. */
  steps: readonly StripStep[]
  /** Poses along the lift as it runs, from the pose as found, site frame. */
  poses: readonly Pose[]
  main: HungFrom
  tail?: HungFrom
}

/** A hook and what hangs from it. */
export interface HungFrom {
  system: System
  hookId: string
  hook: HookOf
  rigging: Arrangement | undefined
}

/** The subject of a lift's sheet; undefined when there is no such lift or it has no outcome. */
export function subjectOf(stages: SheetStages, id: string): SheetSubject | undefined {
  const { project } = stages.model
  const [lift, outcome] = [project.lifts[id], stages.lift.lifts[id]]
  if (lift === undefined || outcome === undefined) return undefined
  const [piece, masses, system] = [
    project.pieces[lift.piece],
    stages.mass.pieces[lift.piece],
    project.systems[lift.system],
  ]
  if (piece === undefined || masses === undefined || system === undefined) return undefined
  const steps = stages.strip.steps.filter((step) => step.lift === id || project.steps[step.step]?.back === id)
  const back = steps.some((step) => project.steps[step.step]?.back === id)
  return {
    stages,
    id,
    lift,
    outcome,
    piece,
    set: setCarried(masses, lift),
    back,
    steps,
    poses: posesOf(steps, back),
    main: { system, hookId: lift.hook, hook: system.hooks[lift.hook] as HookOf, rigging: lift.rigging },
    ...tailOf(project.systems, lift),
  }
}

function tailOf(systems: Readonly<Record<string, System>>, lift: Lift): { tail?: HungFrom } {
  if (lift.tail === undefined) return {}
  const system = systems[lift.tail.system ?? lift.system] as System
  return {
    tail: { system, hookId: lift.tail.hook, hook: system.hooks[lift.tail.hook] as HookOf, rigging: lift.tail.rigging },
  }
}

/** The state that a lift carries: returned, as weighed once there is a record, as found before. */
function setCarried({ found, weighed, returned }: MassResult['pieces'][string], lift: Lift): SetMass {
  if (lift.as === 'returned') return returned
  return lift.kind !== 'out' && weighed !== undefined ? weighed : found
}

function posesOf(steps: readonly StripStep[], back: boolean): Pose[] {
  const [first, ...others] = steps
  const poses = first === undefined ? [AT_REST] : [...first.poses, ...others.flatMap((step) => step.poses.slice(1))]
  return back ? poses.reverse() : poses
}

/** Shapes of parts where they stood when found. */
export function standing({ model, mass }: Pick<SheetStages, 'model' | 'mass'>, ids: readonly string[]): Standing[] {
  const { machine } = model.project
  if (machine === undefined) return []
  return ids.flatMap((id) => {
    const instance = model.instances.byId.get(id)
    if (instance === undefined) return []
    const pose = poseInSite(machine, instance)
    return (mass.parts[instance.entry]?.shape.bodies ?? []).map((body) => ({ body, pose }))
  })
}

/** Pose of the machine followed by a later pose of the piece. */
export const machineAt = ({ stages }: SheetSubject, pose: Pose): Pose => {
  const { machine } = stages.model.project
  return machine === undefined ? pose : compose(pose, poseOfMachine(machine))
}
