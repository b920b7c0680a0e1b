import type { LiftResult } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { Mat3 } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import { placesByStep, type StepPlaces } from '../strip/index.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import {
  attitudesOf,
  type BayLoad,
  bayPileChecks,
  bayPressureCheck,
  fullestBays,
  type Landing,
  landingOf,
} from './bay.ts'
import { bayCourse, mostSettled, mostTipped, type PressingThen, pressingInOrder, whileLoaded } from './bayCourse.ts'
import type { GroundCase } from './case.ts'
import type { CradleCase } from './cradle.ts'
import { type Decision, decisionChecks, decisionsOf } from './decision.ts'
import type { OtherForm } from './forms.ts'
import { haulChecks, haulsOf } from './haul.ts'
import { type InstrumentState, instrumentsOf } from './instrument.ts'
import type { JackLoad } from './jacking.ts'
import { liftingChecks, standChecks, towerChecks, watch } from './machinery.ts'
import { cradleAt, jacksOf, remainderChecks, slideOf } from './onCradle.ts'
import { plantChecks, plantOf } from './plant.ts'
import { remaindersOf } from './remainder.ts'
import type { RingLevel } from './ring.ts'
import { roadChecks } from './road.ts'
import { serviceChecks } from './service.ts'
import { settlementChecks } from './settlement.ts'
import { formsOf, shaftChecks, shaftWall } from './shaft.ts'
import type { SlideCase } from './slide.ts'
import { standingState } from './standing.ts'
import { type GroundLoad, loadsAt } from './step.ts'
import { type WallRing, wallRing } from './wall.ts'
import {
  heaveSurcharge,
  outside,
  outsideAt,
  type StepLoads,
  unknownWallLoad,
  type WallLoad,
  wallLoadOf,
  wallSurchargeCheck,
} from './wallLoad.ts'
import { weightsOf } from './weight.ts'

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
  /** What stands before any step, where no step shows all of it. */
  standing?: Pick<GroundStep, 'step' | 'loads' | 'wall'>
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
  /** Jacks under the shield, in the order of the project. */
  jacks: readonly JackLoad[]
  /** The machine on its way in; undefined without machine, cradle or shaft. */
  slide: SlideCase | undefined
  /** Last reading, trend and demand of each instrument. */
  instruments: readonly InstrumentState[]
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
  const worked = places.map((_, index) => stepOf(c, ring, index, turned[index] as Mat3))
  const standing = standingState(model, ring?.outerRadius.value, places, memory)
  const steps = worked.map(({ is }) => is)
  const around = [...(standing === undefined ? [] : [standing]), ...worked.map((w) => w.outside)]
  const bays = fullestBays(model, c.weights, places, memory)
  const pressing = pressingInOrder(model, around, memory)
  const wall = shaftWall(shaft, soil, ring, memory)
  const surcharge = shaft && ring && heaveSurcharge(shaft, ring, around, memory)
  const checks = [
    ...shaftChecks(c, ring, wall, surcharge),
    ...(standing === undefined ? [] : standingChecks(c, ring, standing)),
    ...steps.flatMap((step) => stepChecks(c, ring, step)),
    ...remainderChecks(c),
    ...bays.flatMap((load) => bayLoadChecks(c, load, steps, pressing)),
    ...Object.values(lift.lifts).flatMap((outcome) => liftingChecks(c, outcome)),
    ...towerChecks(c),
    ...watch(c),
    ...standChecks(c),
    ...plantStanding(c),
    ...serviceChecks(model, around, memory),
    ...haulsOf(model, c.weights, memory).flatMap((haul) => [
      ...haulChecks(model, haul, memory),
      ...roadChecks(c, ring, haul, steps),
    ]),
    ...(soil === undefined ? [] : memory.once('ground-decisions', [soil], () => decisionChecks(soil, model.near))),
  ]
  const governing = governingStep(steps)
  return {
    checks,
    steps,
    ...(standing === undefined
      ? {}
      : { standing: { ...standing, wall: shaft && ring && wallLoadOf(shaft, ring, standing, memory) } }),
    governing,
    decisions: decisionsOf(soil),
    wall,
    bays,
    otherForms: formsOf(c, {
      ring,
      levels: wall,
      surcharge,
      first: steps[0],
      governing: steps.find(({ step }) => step === governing),
    }),
    jacks: jacksOf(c),
    slide: slideOf(c),
    instruments: instrumentsOf(model),
  }
}

function plantStanding({ model, memory }: GroundCase): Check[] {
  const plant = plantOf(model, memory)
  return memory.once('ground-plant-checks', [plant, model.project.ground, model.near], () => plantChecks(model, plant))
}

/** A step, and of its loads those outside the shaft. */
interface WorkedStep {
  is: GroundStep
  outside: StepLoads
}

function stepOf(c: GroundCase, ring: WallRing | undefined, index: number, turned: Mat3): WorkedStep {
  const { shaft } = c.model.project
  const place = c.places[index] as StepPlaces
  const { step, piece, lift } = place.step
  const cradle = cradleAt(c, index, { id: `before-${step}`, name: `before step ${step}` })
  const loads = loadsAt({ ...c, place, cradle, wall: ring?.outerRadius.value })
  const outside = outsideAt({ step, loads }, c.memory)
  const is = {
    step,
    piece,
    ...(lift === undefined ? {} : { lift }),
    loads,
    wall: shaft && ring && wallLoadOf(shaft, ring, outside, c.memory),
    landing: landingOf({ ...c, place, turned }),
    cradle,
  }
  return { is, outside }
}

/** What stands on the site before any step, against the wall. */
function standingChecks({ model, memory }: GroundCase, ring: WallRing | undefined, standing: StepLoads): Check[] {
  const { shaft, ground: soil } = model.project
  if (shaft === undefined || ring === undefined) return []
  const load = wallLoadOf(shaft, ring, standing, memory) ?? unknownWallLoad(ring)
  return memory.once('ground-standing-check', [shaft, soil, load, model.near], () => [
    wallSurchargeCheck({ shaft, ground: soil, near: model.near }, standing, load),
  ])
}

/** The step whose loads press most on the wall; one of unknown pressure governs, for it might. */
export function governingStep(steps: readonly GroundStep[]): string | undefined {
  const loaded = steps.filter((s) => s.wall !== undefined)
  const pressure = (s: GroundStep) => s.wall?.pressure.value ?? Number.POSITIVE_INFINITY
  return loaded.length === 0 ? undefined : loaded.reduce((a, b) => (pressure(b) > pressure(a) ? b : a)).step
}

function stepChecks({ model, memory }: GroundCase, ring: WallRing | undefined, step: GroundStep): Check[] {
  const { shaft, ground: soil, bays } = model.project
  const bay = step.landing && bays[step.landing.bay]
  const isBeside = step.loads.some(outside)
  const inputs = [shaft, soil, bay, ring, isBeside, step.wall, step.landing, model.near]
  return memory.once(`ground-step/${step.step}`, inputs, () => [
    ...(shaft === undefined || ring === undefined || !isBeside
      ? []
      : [wallSurchargeCheck({ shaft, ground: soil, near: model.near }, step, step.wall ?? unknownWallLoad(ring))]),
    ...(bay === undefined || step.landing === undefined ? [] : [bayPressureCheck(soil, bay, step.landing, model.near)]),
  ])
}

function bayLoadChecks(
  { model, memory }: GroundCase,
  load: BayLoad,
  steps: readonly GroundStep[],
  pressing: readonly PressingThen[],
): Check[] {
  const { near } = model
  const { ground: soil } = model.project
  const landings = steps.flatMap(({ landing }) => (landing?.bay === load.id ? [landing] : []))
  const course = bayCourse(model, load.id, whileLoaded(pressing, load.id), memory)
  const worst = memory.once(`ground-bay-most/${load.id}`, course, () => ({
    most: mostSettled(course),
    tipped: mostTipped(course),
  }))
  const { most, tipped } = worst
  return memory.once(`ground-bay-checks/${load.id}`, [load, soil, most, tipped, near, ...landings], () => [
    ...bayPileChecks(soil, load, near),
    ...(soil === undefined || most === undefined || tipped === undefined
      ? []
      : settlementChecks({ ground: soil, load, most, tipped, landings, near, memory })),
  ])
}
