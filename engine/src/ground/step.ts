import { type LiftOutcome, type LiftResult, legReactions, ownMass } from '../lift/index.ts'
import type { Model, System } from '../model/index.ts'
import { place as placed, type Vec3 } from '../numeric/vector.ts'
import { movedGroup, type StepPlaces } from '../strip/index.ts'
import { type Answer, given, stated, sumOf } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { CradleCase } from './cradle.ts'
import { type CraneCase, cranesOf, craneWeight, standingOf } from './crane.ts'
import { type PlantLoad, plantOf } from './plant.ts'
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
  /** Downwards. */
  force: Answer<'N'>
  /** What it stands on. */
  on: string
  /** Address of the thing in the project file. */
  pointer: string
  when: readonly Moment[]
}

const BOTH = ['lifting', 'set down'] as const

interface StepCase {
  model: Model
  weights: Weights
  lift: LiftResult
  place: StepPlaces
  /** What stands on the cradle before the step. */
  cradle: CradleCase | undefined
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

/**
 * Plan of the hook where the piece is taken up and where it is set down: over the shaft or where it stood; then the trailer
 * that takes it, the middle of its bay, or where it hangs at the end.
 */
function hookPlaces(c: StepCase): Record<Moment, Plan> {
  const { model, place, weights } = c
  const { cogSite } = weights.setsOf(movedGroup(place)).found
  const plans = place.step.poses.map((pose) => planAt(placed(pose, cogSite)))
  const reach = (model.project.shaft?.clearDiameter.value ?? Number.POSITIVE_INFINITY) / 2
  const over = plans.filter(([x, y]) => Math.hypot(x, y) <= reach)
  const first = plans[0] ?? planAt(cogSite)
  const trailer = Object.values(model.project.transports).find((t) => t.takes.includes(place.step.piece))
  const down = trailer?.at === undefined ? centreOf(model, place.bay) : planOf(trailer.at)
  return {
    lifting: centreOf(model, place.from) ?? over[over.length - 1] ?? first,
    'set down': down ?? plans[plans.length - 1] ?? first,
  }
}

const planAt = ([x, y]: Vec3): Plan => [x, y]
type Plan = readonly [number, number]
const planOf = (at: readonly { value: number | undefined }[]): Plan => [at[0]?.value ?? 0, at[1]?.value ?? 0]

function centreOf(model: Model, bay: string | undefined): Plan | undefined {
  const centre = bay === undefined ? undefined : model.project.bays[bay]?.centre
  return centre && planOf(centre)
}

/** A machine at work in the lift of a step. */
interface AtWork {
  id: string
  system: System
  hook: string
  /** Under its head. */
  load: Answer<'kg'>
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
  return [...legs, ...cranesOf(c.model, outcome).flatMap((crane) => craneLoads(c, crane))]
}

/** Legs with the load over where it was taken up, then over where it is set down. */
function legLoads(c: StepCase, { id, system, hook, load }: AtWork): GroundLoad[] {
  const places = hookPlaces(c)
  return BOTH.flatMap((when) => {
    const [x, y] = places[when]
    const travel = system.hooks[hook]?.travel?.map((t) => t.value as number)
    const held = travel === undefined ? x : Math.min(Math.max(x, Math.min(...travel)), Math.max(...travel))
    const reactions = c.memory.once(`ground-legs/${c.place.step.step}/${id}/${when}`, [system, load, held], () =>
      legReactions(id, system, load, stated('m', held, `hook where the piece is ${when}`)),
    )
    return reactions.map(
      ({ leg, x: legX, offset, vertical }): GroundLoad => ({
        id: `${id}/${leg}/${when.replace(' ', '-')}`,
        what: `leg ${leg} of ${system.name}`,
        kind: 'leg',
        at: [legX, y + offset, footLevel(c.model, id)],
        size: [0, 0],
        force: vertical,
        on: 'runway',
        pointer: pointerOf('systems', id, 'legs', leg),
        when: [when],
      }),
    )
  })
}

/** Piles bring a leg's load into the ground at about two thirds of their depth; a beam at the collar. */
function footLevel({ project }: Model, id: string): number {
  const top = project.shaft?.collar.value ?? 0
  const toe = project.systems[id]?.foundation?.toe?.value
  return toe === undefined ? top : top - (2 / 3) * (top - toe)
}

function craneLoads(c: StepCase, crane: CraneCase): GroundLoad[] {
  const { id, system, hook } = crane
  const standing = standingOf(crane)
  if (standing === undefined) return [unplacedCrane(c, crane)]
  const { tracks, outriggers } = system
  const size: readonly [number, number] =
    tracks !== undefined
      ? [tracks.length.value as number, (tracks.gauge.value as number) + (tracks.width.value as number)]
      : [outriggers?.base[0].value ?? 0, outriggers?.base[1].value ?? 0]
  const load = (when: Moment, force: Answer<'N'>): GroundLoad => ({
    id: `${id}/${when.replace(' ', '-')}`,
    what: system.name,
    kind: 'crane',
    at: [standing[0], standing[1], c.model.project.ground?.surface.value ?? 0],
    size,
    force,
    on: 'ground',
    pointer: pointerOf('systems', id),
    when: [when],
  })
  const [loaded, empty] = c.memory.once(`ground-crane/${crane.lift}/${id}`, [system, hook], () => [
    craneWeight(crane),
    weight(ownMass(id, system)),
  ])
  return [load('lifting', loaded as Answer<'N'>), load('set down', empty as Answer<'N'>)]
}

const UNPLACED = '/unplaced'

/** Whether it is known where a load stands. */
export const isPlaced = ({ id }: GroundLoad): boolean => !id.endsWith(UNPLACED)

/** A crane that stands nobody has said where: what it does to wall, bays and services is open, not nothing. */
const unplacedCrane = ({ model }: StepCase, { id, system, lift }: CraneCase): GroundLoad => ({
  id: `${id}${UNPLACED}`,
  what: system.name,
  kind: 'crane',
  at: [0, 0, model.project.ground?.surface.value ?? 0],
  size: [0, 0],
  force: given('N', pointerOf('lifts', lift, 'standing'), undefined),
  on: 'ground',
  pointer: pointerOf('systems', id),
  when: BOTH,
})

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

function trailerLoads({ model, weights, place, memory }: StepCase): GroundLoad[] {
  return Object.entries(model.project.transports).flatMap(([id, t]): GroundLoad[] => {
    if (t.at === undefined || !t.takes.includes(place.step.piece)) return []
    const { piece } = place.step
    const carried = weights.massOf(movedGroup(place))
    const force = memory.once(`ground-trailer/${id}/${piece}`, [t.selfMass, carried], () =>
      weight(
        sumOf('trailer and piece', 'kg', [
          { label: 'trailer', answer: t.selfMass },
          { label: piece, answer: carried },
        ]),
      ),
    )
    return [
      {
        id: `trailer/${id}`,
        what: `trailer ${id} with ${piece}`,
        kind: 'trailer',
        at: [t.at[0].value as number, t.at[1].value as number, t.at[2].value as number],
        size: [t.platform[0].value as number, t.platform[1].value as number],
        force,
        on: 'ground',
        pointer: pointerOf('transports', id),
        when: ['set down'],
      },
    ]
  })
}
