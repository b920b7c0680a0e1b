import type { MassResult, SetMass } from '../mass/index.ts'
import type { Bay, Ground, Model } from '../model/index.ts'
import { IDENTITY, type Mat3, multiply, rotationAbout } from '../numeric/vector.ts'
import { movedGroup, type Standing, type StepPlaces } from '../strip/index.ts'
import { type Answer, given, knownOr, largestOf, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { AS_IT_STANDS, momentText } from './moment.ts'
import { bearingOf, type Outline, outlineOf } from './outline.ts'
import { bayPressure, sharedByPiles } from './pad.formulas.ts'
import { type PlantLoad, plantOf } from './plant.ts'
import { type States, statesOf, type Weights, weight } from './weight.ts'

/** A piece as it lies on its bay. */
export interface Landing {
  bay: string
  piece: string
  step: string
  /** From the pose as found. */
  turned: Mat3
  outline: Outline | undefined
  weight: Answer<'N'>
  /** Centre of gravity off the middle of the outline. */
  offset: Answer<'m'>
  /** Largest pressure on the bay, over the states of the piece. */
  pressure: Answer<'Pa'>
}

/**
 * How the piece of each step lies once it is set down: the turns in the moves of the order, then every turning lift made with it that no
 * step of the order describes, about site y.
 *
 * Frame: rotation from the pose as found, site axes.
 */
export function attitudesOf(model: Model, places: readonly StepPlaces[]): Mat3[] {
  const described = new Set(places.map((p) => p.step.lift))
  const others = Object.entries(model.project.lifts).filter(
    ([id, l]) => l.kind === 'turn' && l.as === 'found' && !described.has(id),
  )
  return places.map(({ step }, index) => {
    const moved = step.poses[step.poses.length - 1]?.turn ?? IDENTITY
    if (others.length === 0) return moved
    const first = step.parts[0] ?? ''
    const carriers = places.slice(0, index + 1).filter((p) => p.step.parts.includes(first))
    const pieces = new Set(carriers.map((p) => p.step.piece))
    const angle = others
      .filter(([, l]) => pieces.has(l.piece))
      .reduce((sum, [, { turn }]) => sum + (turn?.to.value ?? 0) - (turn?.from.value ?? 0), 0)
    return angle === 0 ? moved : multiply(rotationAbout('y', angle), moved)
  })
}

interface LandingCase {
  model: Model
  mass: MassResult
  weights: Weights
  place: StepPlaces
  /** From the pose as found. */
  turned: Mat3
  memory: Memory
}

/** The piece of a step on its bay; undefined when the step sets nothing down on one. */
export function landingOf({ model, mass, weights, place, turned, memory }: LandingCase): Landing | undefined {
  const { step, bay: id } = place
  const bay = id === undefined ? undefined : model.project.bays[id]
  if (id === undefined || bay === undefined) return undefined
  const outline = outlineOf(model, mass, step.parts, turned, memory)
  const states = weights.setsOf(movedGroup(place))
  const W = weights.weightOf(movedGroup(place))
  return memory.once(
    `ground-landing/${step.step}`,
    [bay, outline, states.found, states.weighed, states.returned, W, ...turned.flat()],
    () => landed({ step: step.step, piece: step.piece, id, bay, turned, outline, states, W }),
  )
}

interface Landed {
  step: string
  piece: string
  id: string
  bay: Bay
  turned: Mat3
  outline: Outline | undefined
  states: States
  W: Answer<'N'>
}

function landed({ step, piece, id, bay, turned, outline, states, W }: Landed): Landing {
  const terms = statesOf(states).map(
    ([label, set]): Term<'Pa'> => ({ label, answer: pressureOf(bay, id, outline, set, turned) }),
  )
  return {
    bay: id,
    piece,
    step,
    turned,
    outline,
    weight: W,
    offset: outline === undefined ? given('m', '/machine', undefined) : bearingOf(outline, states.found, turned).offset,
    pressure: largestOf('over the states of the piece', 'Pa', terms),
  }
}

function pressureOf(bay: Bay, id: string, outline: Outline | undefined, set: SetMass, turned: Mat3): Answer<'Pa'> {
  if (outline === undefined) return given('Pa', '/machine', undefined)
  const { area: A, offset: e, kern: k } = bearingOf(outline, set, turned)
  const s = knownOr(bay.bearingShare, '1', pointerOf('bays', id, 'bearingShare'))
  return bayPressure.show({ W: weight(set.design), s, A, e, k })
}

const baySubject = (id: string, bay: Bay) => ({ pointer: pointerOf('bays', id), id, name: bay.name ?? `Bay ${id}` })

/** The piece's pressure against what the bay is allowed to carry. Practice 52. */
export function bayPressureCheck(ground: Ground | undefined, bay: Bay, landing: Landing, near: number): Check {
  return check({
    kind: kinds.bayPressure,
    subject: baySubject(landing.bay, bay),
    of: landing.step,
    title: `${kinds.bayPressure.title}: ${landing.piece} on ${landing.bay}`,
    demand: landing.pressure,
    capacity: bay.allowable,
    near,
    assumptions: [
      'Packing is spread evenly over its share of the plan outline and set about its middle; own weight of slab and packing is in the allowable.',
      ...(ground === undefined ? [] : [restingOn(ground, 'G1', 'G6')]),
    ],
    cautions: [SOIL, 'Nobody under or beside a piece before the packing has taken it all and the slings are slack.'],
  })
}

export interface BayLoad {
  id: string
  bay: Bay
  /** Step at which most stands on it. */
  step: string
  total: Answer<'N'>
}

/** What stands on a bay once a step is done: pieces, and what is stored there. */
interface OnBay {
  step: string
  standings: readonly Standing[]
  stored: readonly PlantLoad[]
}

/**
 * Each bay at the step when most stands on it, pieces or a stockpile alone, or as it stands before any step; bays that never carry
 * anything are left out.
 */
export function fullestBays(model: Model, weights: Weights, places: readonly StepPlaces[], memory: Memory): BayLoad[] {
  const plant = plantOf(model, memory)
  return Object.entries(model.project.bays).flatMap(([id, bay]) => {
    const own = plant.filter(({ on }) => on === id)
    const before: OnBay = {
      step: AS_IT_STANDS,
      standings: [],
      stored: own.filter((p) => p.standsAt(AS_IT_STANDS, undefined)),
    }
    const steps = places.map(({ step: { step, lift }, after }): OnBay => {
      return { step, standings: after[id] ?? [], stored: own.filter((p) => p.standsAt(step, lift)) }
    })
    // last, so that of alike ones a step is named
    const fullest = [...steps, before]
      .filter(({ standings, stored }) => standings.length + stored.length > 0)
      .reduce<OnBay | undefined>((most, on) => {
        return most === undefined || heft(weights, on) > heft(weights, most) ? on : most
      }, undefined)
    if (fullest === undefined) return []
    const { step, standings, stored } = fullest
    const forces = forcesOf(weights, fullest)
    return [
      memory.once(`ground-bay/${id}`, [bay, step, ...forces], () => {
        const labels = [
          ...standings.map((s) => (s.whole ? s.piece : `${s.piece}, what is left`)),
          ...stored.map(({ is }) => is.what),
        ]
        const terms = labels.map((label, i): Term<'N'> => ({ label, answer: forces[i] as Answer<'N'> }))
        return { id, bay, step, total: sumOf(`on ${id}, ${momentText(step, 'set down')}`, 'N', terms) }
      }),
    ]
  })
}

const forcesOf = (weights: Weights, { standings, stored }: OnBay): Answer<'N'>[] => [
  ...standings.map((s) => weights.weightOf(s)),
  ...stored.map(({ force }) => force),
]

/** Of all of it; an unknown weight counts as the most, for it might be. */
const heft = (weights: Weights, on: OnBay): number =>
  forcesOf(weights, on).reduce((sum, { value }) => sum + (value ?? Number.POSITIVE_INFINITY), 0)

/** Piles of a bay under everything that stands on it together; only where the bay stands on piles. Practice 52. */
export function bayPileChecks(ground: Ground | undefined, { id, bay, step, total }: BayLoad, near: number): Check[] {
  const { piles } = bay
  if (piles === undefined) return []
  const at = (field: string) => pointerOf('bays', id, 'piles', field)
  return [
    check({
      kind: kinds.bayPiles,
      subject: baySubject(id, bay),
      title: `${kinds.bayPiles.title}: ${id}, ${momentText(step, 'set down')}`,
      demand: sharedByPiles.show({ W: total, n: given('1', at('count'), piles.count) }),
      capacity: piles.workingLoad,
      near,
      assumptions: [
        'A rigid slab shares evenly; an off-centre piece loads one side more. Punching at stools is the structural engineer’s.',
        ...(ground === undefined ? [] : [restingOn(ground, 'G6')]),
      ],
      cautions: [SOIL],
    }),
  ]
}
