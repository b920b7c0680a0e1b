import type { LiftOutcome, LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Ground, Model, Shaft } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import { type Answer, found, given } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { baseChecks, basePlug } from './base.ts'
import { type BayLoad, bayPileChecks, bayPressureCheck, fullestBays, type Landing, landingOf } from './bay.ts'
import { boreCheck, machineRoomCheck } from './bore.ts'
import { factorOf } from './caution.ts'
import { type CradleCase, cradleCase, cradleChecks } from './cradle.ts'
import { type CraneCase, cranePressureCheck } from './crane.ts'
import { type Decision, decisionChecks, decisionsOf } from './decision.ts'
import { blockChecks, eyeChecks } from './eye.ts'
import { haulChecks, haulsOf } from './haul.ts'
import { heaveChecks } from './heave.ts'
import { lineChecks } from './line.ts'
import { placesByStep, type StepPlaces } from './place.ts'
import { bearingChecks, standsOf } from './platform.ts'
import { wallLevels } from './pressure.ts'
import { type RingLevel, ringChecks, ringLevels } from './ring.ts'
import { settlementChecks } from './settlement.ts'
import { type GroundLoad, loadsAt } from './step.ts'
import { type TowerCase, towerLegCheck, towerUpliftCheck } from './tower.ts'
import { type WallRing, wallRing } from './wall.ts'
import { heaveSurcharge, type WallLoad, wallLoadOf, wallSurchargeCheck } from './wallLoad.ts'

/** What stands where at one step of the order, and what it does. */
export interface GroundStep {
  step: string
  piece: string
  lift?: string
  loads: readonly GroundLoad[]
  /** On the shaft wall, at the worse moment of the step; undefined where nothing stands around the shaft. */
  wall?: WallLoad
  /** The piece on its bay. */
  landing?: Landing
  /** What remained on the cradle before the step. */
  cradle?: CradleCase
}

export interface GroundResult {
  checks: readonly Check[]
  /** In the adopted order. */
  steps: readonly GroundStep[]
  /** Step that presses most on the wall. */
  governing?: string
  /** G1 to G10, each as recorded or as missing. */
  decisions: readonly Decision[]
  /** The wall from the surface down, without what stands around it. */
  wall: readonly RingLevel[]
  /** Each bay at its fullest. */
  bays: readonly BayLoad[]
}

/** Shaft, base, cradle, bays and standings, for every step of the adopted order the worst of what can stand together. */
export function ground(
  model: Model,
  mass: MassResult,
  strip: StripResult,
  lift: LiftResult,
  memory: Memory,
): GroundResult {
  const { project, near } = model
  const { shaft, ground: soil } = project
  const places = memory.once('ground-places', [strip.steps, project.lifts, project.pieces], () =>
    placesByStep(model, strip),
  )
  const ring = shaft && memory.once('ground-ring', [shaft], () => wallRing(shaft))
  const steps = places.map((place, index) => stepOf({ model, mass, lift, places, index, ring, memory }, place))
  const bays = fullestBays(model, mass, places)
  const wall = shaftWall(shaft, soil, ring, memory)
  const checks = [
    ...shaftChecks(model, mass, ring, wall, steps, memory),
    ...steps.flatMap((step) => stepChecks(model, step)),
    ...remainderChecks(model, mass, places),
    ...bays.flatMap((load) => bayLoadChecks(model, load, steps)),
    ...liftingChecks(model, lift),
    ...haulsOf(model, mass).flatMap((haul) => haulChecks(model, haul, near)),
    ...(soil === undefined ? [] : decisionChecks(soil, near)),
  ]
  return { checks, steps, governing: governingStep(steps), decisions: decisionsOf(soil), wall, bays }
}

interface StepInput {
  model: Model
  mass: MassResult
  lift: LiftResult
  places: readonly StepPlaces[]
  index: number
  ring: WallRing | undefined
  memory: Memory
}

function stepOf({ model, mass, lift, places, index, ring, memory }: StepInput, place: StepPlaces): GroundStep {
  const { shaft } = model.project
  const loads = loadsAt({ model, mass, lift, place })
  const { step, piece } = place.step
  return {
    step,
    piece,
    ...(place.step.lift === undefined ? {} : { lift: place.step.lift }),
    loads,
    wall: shaft && ring && wallLoadOf(shaft, ring, { step, loads }, memory),
    landing: landingOf(model, mass, places, index, memory),
    cradle: cradleAt(model, mass, { id: `before-${step}`, name: `before step ${step}`, parts: place.below }),
  }
}

function cradleAt(
  model: Model,
  mass: MassResult,
  at: Pick<CradleCase, 'id' | 'name' | 'parts'>,
): CradleCase | undefined {
  const { cradle, machine } = model.project
  if (cradle === undefined || machine === undefined || at.parts.length === 0) return undefined
  return cradleCase(model, mass, cradle, machine, at)
}

/** The step whose loads press most on the wall; one of unknown pressure governs, for it might. */
export function governingStep(steps: readonly GroundStep[]): string | undefined {
  const loaded = steps.filter((s) => s.wall !== undefined)
  const pressure = (s: GroundStep) => s.wall?.pressure.value ?? Number.POSITIVE_INFINITY
  return loaded.length === 0 ? undefined : loaded.reduce((a, b) => (pressure(b) > pressure(a) ? b : a)).step
}

function shaftWall(
  shaft: Shaft | undefined,
  soil: Ground | undefined,
  ring: WallRing | undefined,
  memory: Memory,
): readonly RingLevel[] {
  if (shaft === undefined || soil === undefined || ring === undefined) return []
  return memory.once('ground-wall', [shaft, soil], () => ringLevels(soil, ring, wallLevels(soil, shaft.excavation)))
}

/** Everything of the shaft that does not hang from a lift, but for the surcharge in the heave check. */
function shaftChecks(
  { project, near }: Model,
  mass: MassResult,
  ring: WallRing | undefined,
  levels: readonly RingLevel[],
  steps: readonly GroundStep[],
  memory: Memory,
): Check[] {
  const { shaft, ground: soil, machine } = project
  if (shaft === undefined || ring === undefined) return []
  const own = [boreCheck(shaft, ring, near), ...eyeChecks(shaft, machine), ...roomChecks(project, shaft, mass, near)]
  if (soil === undefined) return own
  const still = memory.once('ground-shaft', [shaft, soil, machine, near], () => {
    const plug = basePlug(shaft, soil)
    return [
      ...ringChecks({ shaft, ground: soil, ring, levels, near }),
      ...(plug === undefined ? [] : baseChecks({ shaft, ground: soil, plug, near })),
      ...blockChecks(soil, machine, ring, near),
    ]
  })
  return [...own, ...still, ...heaveChecks(shaft, soil, heaveSurcharge(shaft, ring, steps), near)]
}

function roomChecks(project: Model['project'], shaft: Shaft, mass: MassResult, near: number): Check[] {
  const { machine, settings } = project
  if (machine === undefined) return []
  const front: Answer<'m'> = found({
    unit: 'm',
    value: mass.machine.boundsSite.max[0],
    method: 'foremost point of all parts in the pose as found',
    inputs: {
      origin: machine.pose.origin[0],
      roll: machine.pose.roll,
      pitch: machine.pose.pitch,
      yaw: machine.pose.yaw,
    },
    residuals: [],
  })
  return [machineRoomCheck({ shaft, machine, settings, front, near })]
}

function stepChecks({ project, near }: Model, step: GroundStep): Check[] {
  const { shaft, ground: soil, bays } = project
  const bay = step.landing && bays[step.landing.bay]
  return [
    ...(shaft === undefined || step.wall === undefined ? [] : [wallSurchargeCheck(shaft, step, step.wall, near)]),
    ...(bay === undefined || step.landing === undefined ? [] : [bayPressureCheck(soil, bay, step.landing, near)]),
  ]
}

/** The cradle at the start, and after each step that takes something off it. */
function remainderChecks(model: Model, mass: MassResult, places: readonly StepPlaces[]): Check[] {
  const { cradle, ground: soil } = model.project
  if (cradle === undefined) return []
  const [first] = places
  const start = { id: 'start', name: 'at the start', parts: first?.below ?? [...model.instances.byId.keys()] }
  const after = places
    .filter(({ step, below }) => step.remaining.length < below.length)
    .map(({ step }) => ({ id: step.step, name: `after step ${step.step}`, parts: step.remaining }))
  return [start, ...after].flatMap((at) => {
    const c = cradleAt(model, mass, at)
    return c === undefined ? [] : cradleChecks(soil, cradle, c, model.near)
  })
}

function bayLoadChecks({ project, near }: Model, load: BayLoad, steps: readonly GroundStep[]): Check[] {
  const landings = steps.flatMap(({ landing }) => (landing?.bay === load.id ? [landing] : []))
  return [
    ...bayPileChecks(project.ground, load, near),
    ...(project.ground === undefined ? [] : settlementChecks(project.ground, load, landings, near)),
  ]
}

/** Legs of towers, tracks and floats of cranes, and lines beside them, lift by lift. */
function liftingChecks(model: Model, lift: LiftResult): Check[] {
  const { project, near } = model
  const outcomes = Object.values(lift.lifts)
  const cranes = outcomes.flatMap((outcome) => craneOf(model, outcome))
  const soil = project.ground
  return [
    ...outcomes.flatMap((outcome) => {
      const tower = towerOf(model, outcome.system)
      return tower === undefined ? [] : [towerLegCheck(tower, model, outcome)]
    }),
    ...Object.keys(project.systems).flatMap((id) => {
      const tower = towerOf(model, id)
      const gamma =
        soil === undefined ? given('1', '/ground/factors/equilibrium', undefined) : factorOf(soil, 'equilibrium')
      return tower === undefined ? [] : [towerUpliftCheck(tower, gamma)]
    }),
    ...cranes.map((c) => cranePressureCheck(c, soil, near)),
    ...cranes.flatMap((c) => lineChecks(c, project.utilities, near)),
    ...(soil === undefined ? [] : standsOf(cranes).flatMap((stand) => bearingChecks(soil, stand, near))),
  ]
}

function towerOf({ project, near }: Model, id: string): TowerCase | undefined {
  const system = project.systems[id]
  if (project.shaft === undefined || system === undefined || Object.keys(system.legs).length === 0) return undefined
  return { id, system, settings: project.settings, shaft: project.shaft, near }
}

function craneOf(model: Model, outcome: LiftOutcome): CraneCase[] {
  const system = model.project.systems[outcome.system]
  if (system === undefined || (system.kind !== 'crawler crane' && system.kind !== 'mobile crane')) return []
  return [{ model, outcome, id: outcome.system, system, lift: model.project.lifts[outcome.id] }]
}
