import type { LiftOutcome, LiftResult } from '../lift/index.ts'
import type { Model, Transport } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import { movedGroup, type StepPlaces } from '../strip/index.ts'
import { type Answer, given, sumOf } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { CradleCase } from './cradle.ts'
import { cranesOf } from './crane.ts'
import { craneLoads } from './craneLoads.ts'
import { legLoads, parkedMachines } from './legLoads.ts'
import { type PlantLoad, plantOf } from './plant.ts'
import { UNPLACED } from './unplaced.ts'
import { type Weights, weight } from './weight.ts'

/** While the piece hangs over where it was taken up; or once it stands where it was set down. */
export type Moment = 'lifting' | 'set down'

/** Something heavy that stands while a step is done. Frame: site. */
export interface GroundLoad {
  /** Unique within the step. */
  id: string
  what: string
  kind: 'machine' | 'piece' | 'leg' | 'crane' | 'trailer' | 'plant'
  /** Centre of its footprint, m; z is the level at which it reaches the ground. */
  at: Vec3
  /** Footprint along site x and y, m; zero where it is taken as a point. */
  size: readonly [number, number]
  /** By which the footprint is turned from site x and y to the left, rad; absent, not at all. */
  turn?: number
  /** Downwards. */
  force: Answer<'N'>
  /** What it stands on. */
  on: string
  /** Address of the thing in the project file. */
  pointer: string
  /** It stands there at every step alike. */
  stays?: true
  when: readonly Moment[]
}

const BOTH = ['lifting', 'set down'] as const

/** What the loads of one step are worked from. */
export interface StepCase {
  model: Model
  weights: Weights
  lift: LiftResult
  place: StepPlaces
  /** What stands on the cradle before the step. */
  cradle: CradleCase | undefined
  /** Outer radius of the wall of the shaft, m; undefined where there is none, or it is not known. */
  wall: number | undefined
  memory: Memory
}

/** Everything heavy at one step: what is left on the cradle, pieces on bays, legs or crane of the lift, the trailer. */
export function loadsAt(c: StepCase): GroundLoad[] {
  const outcome = c.place.step.lift === undefined ? undefined : c.lift.lifts[c.place.step.lift]
  return [
    ...machineLoad(c),
    ...bayLoads(c),
    ...(outcome === undefined ? [] : pivotLoads(c, outcome)),
    ...(outcome === undefined ? [] : machineryLoads(c, outcome)),
    ...parkedLoads(c, outcome),
    ...trailerLoads(c),
    ...plantLoads(c),
  ]
}

function machineLoad({ model, cradle: stands }: StepCase): GroundLoad[] {
  const { cradle, shaft } = model.project
  if (cradle === undefined || stands === undefined) return []
  const [from, to] = cradle.along.map((x) => x.value as number) as [number, number]
  return [
    {
      id: 'machine',
      what: 'what is left of the machine',
      kind: 'machine',
      at: [(from + to) / 2, 0, shaft?.slabTop.value ?? 0],
      size: [Math.abs(to - from), 0],
      force: stands.weight,
      on: 'cradle',
      pointer: '/cradle',
      when: ['lifting'],
    },
  ]
}

/** What stands on the bays: what the step leaves there at both moments, what it sets down only then. */
function bayLoads({ model, weights, place }: StepCase): GroundLoad[] {
  return Object.entries(place.after).flatMap(([id, standings]) => {
    const bay = model.project.bays[id]
    if (bay === undefined) return []
    return standings.map(
      (s): GroundLoad => ({
        id: `${id}/${s.step}${s.whole ? '' : '-rest'}`,
        what: model.project.pieces[s.piece]?.name ?? s.piece,
        kind: 'piece',
        at: [bay.centre[0].value as number, bay.centre[1].value as number, bay.level.value as number],
        size: [bay.size[0].value as number, bay.size[1].value as number],
        force: weights.weightOf(s),
        on: id,
        pointer: pointerOf('pieces', s.piece),
        when: s.step === place.step.step ? ['set down'] : BOTH,
      }),
    )
  })
}

/** The pivot of a piece that is turned on its bay: the rest of its weight hangs meanwhile. */
function pivotLoads({ model, place }: StepCase, { id, piece, pivot }: LiftOutcome): GroundLoad[] {
  const bay = model.project.bays[place.bay ?? place.from ?? '']
  if (pivot === undefined || bay === undefined) return []
  return [
    {
      id: `${place.bay ?? place.from}/pivot`,
      what: `pivot under ${model.project.pieces[piece]?.name ?? piece}`,
      kind: 'piece',
      at: [bay.centre[0].value as number, bay.centre[1].value as number, bay.level.value as number],
      size: [0, pivot.edge.value ?? 0],
      force: pivot.up,
      on: place.bay ?? (place.from as string),
      pointer: pointerOf('lifts', id, 'turn', 'pivot'),
      when: ['lifting'],
    },
  ]
}

function machineryLoads(c: StepCase, outcome: LiftOutcome): GroundLoad[] {
  const { second } = outcome
  const machines = [
    { id: outcome.system, hook: outcome.hook, load: c.weights.hookOf(outcome) },
    ...(second === undefined ? [] : [{ id: second.system, hook: second.hook, load: second.underHead }]),
  ]
  const legs = machines.flatMap((machine) => {
    const system = c.model.project.systems[machine.id]
    const onLegs = system?.kind === 'lift tower' || system?.kind === 'gantry'
    return system === undefined || !onLegs ? [] : legLoads(c, { ...machine, system })
  })
  return [...legs, ...cranesOf(c.model, outcome).flatMap((crane) => craneLoads(c, crane, second !== undefined))]
}

/** Machines that are not at work in the step, where they are parked; what hangs from a hoist stands on nothing here. */
function parkedLoads({ model, wall, memory }: StepCase, outcome: LiftOutcome | undefined): GroundLoad[] {
  const atWork = [outcome?.system, outcome?.second?.system]
  return parkedMachines(model, wall, memory, (id) => !atWork.includes(id))
}

/** Stockpiles and plant, at both moments. */
function plantLoads({ model, place, memory }: StepCase): GroundLoad[] {
  return plantOf(model, memory)
    .filter((p) => p.standsAt(place.step.step, place.step.lift))
    .map((p) => plantLoad(p, BOTH))
}

/** A stockpile or plant as a load of the moments at which it stands. */
export const plantLoad = ({ id, pointer, is, on, level, force }: PlantLoad, when: readonly Moment[]): GroundLoad => ({
  id,
  what: is.what,
  kind: 'plant',
  at: [is.centre[0].value as number, is.centre[1].value as number, level],
  size: [is.size[0].value as number, is.size[1].value as number],
  force,
  on,
  pointer,
  when,
})

function trailerLoads(c: StepCase): GroundLoad[] {
  const { model, place } = c
  return Object.entries(model.project.transports).flatMap(([id, t]) =>
    t.takes.includes(place.step.piece) ? [trailerLoad(c, id, t)] : [],
  )
}

/** The trailer that takes the piece; where it is loaded nobody has said, what it does is open, not nothing. */
function trailerLoad({ model, weights, place, memory }: StepCase, id: string, t: Transport): GroundLoad {
  const { piece } = place.step
  const carried = weights.massOf(movedGroup(place))
  const load = {
    what: `trailer ${id} with ${piece}`,
    kind: 'trailer',
    on: 'ground',
    pointer: pointerOf('transports', id),
    when: ['set down'],
  } as const
  if (t.at === undefined)
    return {
      ...load,
      id: `trailer/${id}${UNPLACED}`,
      at: [0, 0, model.project.ground?.surface.value ?? 0],
      size: [0, 0],
      force: given('N', pointerOf('transports', id, 'at'), undefined),
    }
  return {
    ...load,
    id: `trailer/${id}`,
    at: [t.at[0].value as number, t.at[1].value as number, t.at[2].value as number],
    size: [t.platform[0].value as number, t.platform[1].value as number],
    force: memory.once(`ground-trailer/${id}/${piece}`, [t.selfMass, carried], () =>
      weight(
        sumOf('trailer and piece', 'kg', [
          { label: 'trailer', answer: t.selfMass },
          { label: piece, answer: carried },
        ]),
      ),
    ),
  }
}
