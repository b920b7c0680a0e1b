import type { LiftOutcome, LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Ground, Model, Shaft } from '../model/index.ts'
import type { Mat3 } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import { type Answer, found, given } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { baseChecks, basePlug } from './base.ts'
import {
  attitudesOf,
  type BayLoad,
  bayPileChecks,
  bayPressureCheck,
  fullestBays,
  type Landing,
  landingOf,
} from './bay.ts'
import { boreCheck, machineRoomCheck } from './bore.ts'
import { type CradleCase, cradleCase, cradleChecks } from './cradle.ts'
import { type CraneCase, cranePressureCheck } from './crane.ts'
import { type Decision, decisionChecks, decisionsOf } from './decision.ts'
import { driveInChecks, fillChecks, sealChecks } from './driveIn.ts'
import { blockChecks, eyeChecks } from './eye.ts'
import { cradleForms, type OtherForm, otherForms } from './forms.ts'
import { haulChecks, haulsOf } from './haul.ts'
import { heaveChecks } from './heave.ts'
import { lineChecks } from './line.ts'
import { placesByStep, type StepPlaces } from './place.ts'
import { bearingChecks, standsOf } from './platform.ts'
import { wallLevels } from './pressure.ts'
import { type Remainder, remaindersOf } from './remainder.ts'
import { type RingLevel, ringChecks, ringLevels } from './ring.ts'
import { settlementChecks } from './settlement.ts'
import { type GroundLoad, loadsAt } from './step.ts'
import { type TowerCase, towerLegCheck, towerUpliftCheck } from './tower.ts'
import { type WallRing, wallRing } from './wall.ts'
import { heaveSurcharge, type WallLoad, wallLoadOf, wallSurchargeCheck } from './wallLoad.ts'
import { watchChecks } from './watch.ts'
import { type Weights, weightsOf } from './weight.ts'

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
  /** Questions of some checks by other forms, for the ground engineer to compare. */
  otherForms: readonly OtherForm[]
}

/** Shaft, base, cradle, bays and standings, for every step of the adopted order the worst of what can stand together. */
export function ground(
  model: Model,
  mass: MassResult,
  strip: StripResult,
  lift: LiftResult,
  memory: Memory,
): GroundResult {
  const { project } = model
  const { shaft, ground: soil } = project
  const places = memory.once('ground-places', [...strip.steps, project.lifts, project.pieces], () =>
    placesByStep(model, strip),
  )
  const all = memory.once('ground-all', [model.instances], () => [...model.instances.byId.keys()])
  const remainders = remaindersOf(mass, places, all, memory)
  const c: GroundCase = { model, mass, lift, places, remainders, memory, weights: weightsOf(model, mass, memory) }
  const turned = memory.once('ground-attitudes', [places, project.lifts], () => attitudesOf(model, places))
  const ring = shaft && memory.once('ground-ring', [shaft], () => wallRing(shaft))
  const steps = places.map((_, index) => stepOf(c, ring, index, turned[index] as Mat3))
  const bays = fullestBays(model, c.weights, places, memory)
  const wall = shaftWall(shaft, soil, ring, memory)
  const checks = [
    ...shaftChecks(c, ring, wall, steps),
    ...steps.flatMap((step) => stepChecks(c, step)),
    ...remainderChecks(c),
    ...bays.flatMap((load) => bayLoadChecks(c, load, steps)),
    ...Object.values(lift.lifts).flatMap((outcome) => liftingChecks(c, outcome)),
    ...towerChecks(c),
    ...watch(c),
    ...standChecks(c),
    ...haulsOf(model, c.weights).flatMap((haul) => haulChecks(model, haul, model.near)),
    ...(soil === undefined ? [] : memory.once('ground-decisions', [soil], () => decisionChecks(soil, model.near))),
  ]
  const governing = governingStep(steps)
  return {
    checks,
    steps,
    governing,
    decisions: decisionsOf(soil),
    wall,
    bays,
    otherForms: formsOf(c, ring, wall, steps),
  }
}

function formsOf(
  c: GroundCase,
  ring: WallRing | undefined,
  levels: readonly RingLevel[],
  steps: readonly GroundStep[],
): readonly OtherForm[] {
  const { shaft, ground: soil, cradle, machine } = c.model.project
  const stands = steps[0]?.cradle
  const onCradle = cradle && machine && stands ? cradleForms(cradle, machine, stands) : []
  if (shaft === undefined || soil === undefined || ring === undefined) return onCradle
  const surcharge = heaveSurcharge(shaft, ring, steps)
  return [...otherForms({ shaft, ground: soil, ring, levels, surcharge }), ...onCradle]
}

interface GroundCase {
  model: Model
  mass: MassResult
  lift: LiftResult
  places: readonly StepPlaces[]
  /** In the shaft before each step, and after the last. */
  remainders: readonly Remainder[]
  weights: Weights
  memory: Memory
}

function stepOf(c: GroundCase, ring: WallRing | undefined, index: number, turned: Mat3): GroundStep {
  const { shaft } = c.model.project
  const place = c.places[index] as StepPlaces
  const { step, piece, lift } = place.step
  const cradle = cradleAt(c, index, { id: `before-${step}`, name: `before step ${step}` })
  const loads = loadsAt({ ...c, place, cradle })
  return {
    step,
    piece,
    ...(lift === undefined ? {} : { lift }),
    loads,
    wall: shaft && ring && wallLoadOf(shaft, ring, { step, loads }, c.memory),
    landing: landingOf({ ...c, place, turned }),
    cradle,
  }
}

/** The cradle under what is in the shaft before a step; after the last at the end of the list. */
function cradleAt(c: GroundCase, index: number, at: Pick<CradleCase, 'id' | 'name'>): CradleCase | undefined {
  const { cradle, machine } = c.model.project
  const remainder = c.remainders[index] as Remainder
  if (cradle === undefined || machine === undefined || remainder.parts.length === 0) return undefined
  return c.memory.once(`ground-cradle/${at.id}`, [cradle, machine, remainder], () =>
    cradleCase(cradle, machine, remainder, at),
  )
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

/** Everything of the shaft that hangs from no lift, but for the surcharge in the heave check. */
function shaftChecks(
  c: GroundCase,
  ring: WallRing | undefined,
  levels: readonly RingLevel[],
  steps: readonly GroundStep[],
): Check[] {
  const { project, near } = c.model
  const { shaft, ground: soil, machine } = project
  if (shaft === undefined || ring === undefined) return []
  const own = c.memory.once('ground-bore', [shaft, machine, near], () => [
    boreCheck(shaft, ring, near),
    ...eyeChecks(shaft, machine, ring),
  ])
  if (soil === undefined) return [...own, ...roomChecks(c, shaft)]
  const still = c.memory.once('ground-shaft', [shaft, soil, machine, near], () => {
    const plug = basePlug(shaft, soil)
    return [
      ...ringChecks({ shaft, ground: soil, ring, levels, near }),
      ...(plug === undefined ? [] : baseChecks({ shaft, ground: soil, plug, near })),
      ...blockChecks(soil, machine, ring, near),
      ...sealChecks(shaft, soil, near),
      ...fillChecks(shaft, near),
    ]
  })
  const heave = heaveChecks(shaft, soil, heaveSurcharge(shaft, ring, steps), near)
  return [...own, ...roomChecks(c, shaft), ...still, ...heave]
}

/** The front of the machine hangs from every shape; masses do not move it. */
function roomChecks({ model, mass, memory }: GroundCase, shaft: Shaft): Check[] {
  const { machine, settings } = model.project
  if (machine === undefined) return []
  const shapes = Object.values(mass.parts).map((p) => p.shape)
  return memory.once('ground-room', [shaft, machine, settings, model.near, ...shapes], () => {
    const leaves = shapes.flatMap((s) => s.solids.flatMap((solid) => solid.leaves))
    const front: Answer<'m'> = found({
      unit: 'm',
      value: mass.machine.boundsSite.max[0],
      method: 'foremost point of all parts in the pose as found, from the exact support of each solid',
      inputs: Object.fromEntries([...machine.pose.origin, ...leaves].map((leaf) => [leaf.pointer, leaf])),
      residuals: [],
    })
    return [machineRoomCheck({ shaft, machine, settings, front, near: model.near })]
  })
}

function stepChecks({ model, memory }: GroundCase, step: GroundStep): Check[] {
  const { shaft, ground: soil, bays } = model.project
  const bay = step.landing && bays[step.landing.bay]
  return memory.once(`ground-step/${step.step}`, [shaft, soil, bay, step.wall, step.landing, model.near], () => [
    ...(shaft === undefined || step.wall === undefined ? [] : [wallSurchargeCheck(shaft, step, step.wall, model.near)]),
    ...(bay === undefined || step.landing === undefined ? [] : [bayPressureCheck(soil, bay, step.landing, model.near)]),
  ])
}

/** The cradle at the start, and after each step that takes something off it. */
function remainderChecks(c: GroundCase): Check[] {
  const start = { id: 'start', name: 'at the start' }
  const after = c.places.flatMap(({ step, below }, index) =>
    step.remaining.length < below.length
      ? remainderCheck(c, index + 1, { id: step.step, name: `after step ${step.step}` })
      : [],
  )
  return [...driveIn(c, cradleAt(c, 0, start)), ...remainderCheck(c, 0, start), ...after]
}

/** The machine as it drives in stands whole on the cradle. */
function driveIn({ model, memory }: GroundCase, stands: CradleCase | undefined): Check[] {
  const { cradle, machine, ground: soil } = model.project
  if (cradle === undefined || stands === undefined) return []
  return memory.once('ground-drive-in', [cradle, machine, soil, stands, model.near], () =>
    driveInChecks({ cradle, machine, ground: soil, stands, near: model.near }),
  )
}

function remainderCheck(c: GroundCase, index: number, at: Pick<CradleCase, 'id' | 'name'>): Check[] {
  const { cradle, ground: soil } = c.model.project
  const stands = cradleAt(c, index, at)
  if (cradle === undefined || stands === undefined) return []
  return c.memory.once(`ground-cradle-checks/${at.id}`, [stands, cradle, soil, c.model.near], () =>
    cradleChecks(soil, cradle, stands, c.model.near),
  )
}

function bayLoadChecks({ model, memory }: GroundCase, load: BayLoad, steps: readonly GroundStep[]): Check[] {
  const { ground: soil } = model.project
  const landings = steps.flatMap(({ landing }) => (landing?.bay === load.id ? [landing] : []))
  return memory.once(`ground-bay-checks/${load.id}`, [load, soil, model.near, ...landings], () => [
    ...bayPileChecks(soil, load, model.near),
    ...(soil === undefined ? [] : settlementChecks(soil, load, landings, model.near)),
  ])
}

/** Legs of a tower, or tracks and floats of a crane and the lines beside it, in one lift. */
function liftingChecks(c: GroundCase, outcome: LiftOutcome): Check[] {
  const { project, near } = c.model
  const hook = c.weights.hookOf(outcome)
  const { ground: soil, shaft, utilities, settings } = project
  const inputs = [
    hook,
    project.lifts[outcome.id],
    project.systems[outcome.system],
    soil,
    shaft,
    utilities,
    settings,
    near,
  ]
  return c.memory.once(`ground-lifting/${outcome.id}`, inputs, () => {
    const tower = towerOf(c.model, outcome.system)
    const cranes = craneOf(c, outcome)
    return [
      ...(tower === undefined ? [] : [towerLegCheck(tower, outcome, hook)]),
      ...cranes.map((crane) => cranePressureCheck(crane, soil, near)),
      ...cranes.flatMap((crane) => lineChecks(crane, utilities, near)),
    ]
  })
}

function watch({ model, memory }: GroundCase): Check[] {
  const { utilities, systems, ground: soil } = model.project
  return memory.once('ground-watch', [utilities, systems, soil, model.near], () => watchChecks(model))
}

function towerChecks({ model, memory }: GroundCase): Check[] {
  const { systems, ground: soil, settings, shaft } = model.project
  return memory.once('ground-towers', [systems, soil, settings, shaft, model.near], () => {
    const gamma = soil?.factors?.equilibrium ?? given('1', '/ground/factors/equilibrium', undefined)
    return Object.keys(systems).flatMap((id) => {
      const tower = towerOf(model, id)
      return tower === undefined ? [] : [towerUpliftCheck(tower, gamma)]
    })
  })
}

function standChecks(c: GroundCase): Check[] {
  const { ground: soil } = c.model.project
  if (soil === undefined) return []
  const cranes = Object.values(c.lift.lifts).flatMap((outcome) => craneOf(c, outcome))
  return standsOf(cranes).flatMap((stand) => {
    const inputs = stand.cases.flatMap((crane) => [crane.hook, crane.lift])
    return c.memory.once(
      `ground-stand/${stand.id}/${stand.standing}`,
      [soil, stand.system, c.model.near, ...inputs],
      () => bearingChecks(soil, stand, c.model.near),
    )
  })
}

function towerOf({ project, near }: Model, id: string): TowerCase | undefined {
  const system = project.systems[id]
  if (project.shaft === undefined || system === undefined || Object.keys(system.legs).length === 0) return undefined
  return { id, system, settings: project.settings, shaft: project.shaft, near }
}

function craneOf({ model, weights }: GroundCase, outcome: LiftOutcome): CraneCase[] {
  const system = model.project.systems[outcome.system]
  if (system === undefined || (system.kind !== 'crawler crane' && system.kind !== 'mobile crane')) return []
  const lift = model.project.lifts[outcome.id]
  return [{ outcome, hook: weights.hookOf(outcome), id: outcome.system, system, lift }]
}
