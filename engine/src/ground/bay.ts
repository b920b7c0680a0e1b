import type { MassResult, SetMass } from '../mass/index.ts'
import type { Bay, Ground, Model } from '../model/index.ts'
import { IDENTITY, type Mat3, multiply, rotationAbout } from '../numeric/vector.ts'
import { type Answer, given, knownOr, largestOf, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { bearingOf, type Outline, outlineOf } from './outline.ts'
import { bayPressure, sharedByPiles } from './pad.formulas.ts'
import type { Standing, StepPlaces } from './place.ts'
import { heavierMass, weight } from './weight.ts'

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
  /** Largest pressure on the bay, as found and as returned. */
  pressure: Answer<'Pa'>
}

/**
 * How a piece lies once it is set down: the turns in the moves of the order, then every turning lift made with it that no
 * step of the order describes, about site y.
 *
 * Frame: rotation from the pose as found, site axes.
 */
export function attitudeOf(model: Model, places: readonly StepPlaces[], index: number): Mat3 {
  const { step } = places[index] as StepPlaces
  const moved = step.poses[step.poses.length - 1]?.turn ?? IDENTITY
  const first = step.parts[0] ?? ''
  const pieces = new Set(
    places.slice(0, index + 1).flatMap((p) => (p.step.parts.includes(first) ? [p.step.piece] : [])),
  )
  const described = new Set(places.map((p) => p.step.lift))
  const angle = Object.entries(model.project.lifts)
    .filter(([id, l]) => l.kind === 'turn' && l.as === 'found' && pieces.has(l.piece) && !described.has(id))
    .reduce((sum, [, { turn }]) => sum + (turn?.to.value ?? 0) - (turn?.from.value ?? 0), 0)
  return angle === 0 ? moved : multiply(rotationAbout('y', angle), moved)
}

/** The piece of a step on its bay; undefined when the step sets nothing down on one. */
export function landingOf(
  model: Model,
  mass: MassResult,
  places: readonly StepPlaces[],
  index: number,
  memory: Memory,
): Landing | undefined {
  const { step, bay } = places[index] as StepPlaces
  if (bay === undefined) return undefined
  const turned = attitudeOf(model, places, index)
  const outline = outlineOf(model, mass, step.parts, turned, memory)
  const known = mass.pieces[step.piece]
  const terms = (['found', 'returned'] as const).map((state): Term<'Pa'> => {
    const set = known?.[state] ?? mass.ofSet(step.parts, state)
    return { label: `as ${state}`, answer: pressureOf(model.project.bays[bay], bay, outline, set, turned) }
  })
  return {
    bay,
    piece: step.piece,
    step: step.step,
    turned,
    outline,
    weight: weight(heavierMass(mass, { piece: step.piece, parts: step.parts, whole: known !== undefined })),
    offset:
      outline === undefined
        ? given('m', '/machine', undefined)
        : bearingOf(outline, known?.found ?? mass.ofSet(step.parts, 'found'), turned).offset,
    pressure: largestOf('as found and as returned', 'Pa', terms),
  }
}

function pressureOf(
  bay: Bay | undefined,
  id: string,
  outline: Outline | undefined,
  set: SetMass,
  turned: Mat3,
): Answer<'Pa'> {
  if (outline === undefined) return given('Pa', '/machine', undefined)
  const { area: A, offset: e, kern: k } = bearingOf(outline, set, turned)
  const s = knownOr(bay?.bearingShare, '1', pointerOf('bays', id, 'bearingShare'))
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

/** What a bay carries at one step, as weights with their names. */
export const weightsOn = (mass: MassResult, standings: readonly Standing[]): Term<'N'>[] =>
  standings.map((s) => ({
    label: s.whole ? s.piece : `${s.piece}, what is left`,
    answer: weight(heavierMass(mass, s)),
  }))

export interface BayLoad {
  id: string
  bay: Bay
  /** Step at which most stands on it. */
  step: string
  total: Answer<'N'>
}

/** Each bay at the step when most stands on it; bays that nothing reaches are left out. */
export function fullestBays(model: Model, mass: MassResult, places: readonly StepPlaces[]): BayLoad[] {
  return Object.entries(model.project.bays).flatMap(([id, bay]) => {
    const loads = places
      .filter(({ after }) => (after[id] ?? []).length > 0)
      .map(({ step, after }) => ({
        id,
        bay,
        step: step.step,
        total: sumOf(`on ${id} after ${step.step}`, 'N', weightsOn(mass, after[id] ?? [])) as Answer<'N'>,
      }))
    const [first] = loads
    if (first === undefined) return []
    const unknown = loads.find(({ total }) => total.value === undefined)
    return [unknown ?? loads.reduce((a, b) => ((b.total.value as number) > (a.total.value as number) ? b : a))]
  })
}

/** Piles of a bay under everything that stands on it together; only where the bay stands on piles. Practice 52. */
export function bayPileChecks(ground: Ground | undefined, { id, bay, step, total }: BayLoad, near: number): Check[] {
  const { piles } = bay
  if (piles === undefined) return []
  const at = (field: string) => pointerOf('bays', id, 'piles', field)
  return [
    check({
      kind: kinds.bayPiles,
      subject: baySubject(id, bay),
      title: `${kinds.bayPiles.title}: ${id} at ${step}`,
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
