import { type Ground, idsMeant, type Model, type Transport, type Utility } from '../model/index.ts'
import { type Answer, given, knownOr, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { allowableAt } from './crane.ts'
import { restingOn } from './decision.ts'
import { lineShare } from './haul.formulas.ts'
import * as kinds from './kinds.ts'
import { meanPressure, rectangleArea } from './pad.formulas.ts'
import { type Weights, weight } from './weight.ts'

/** A piece on the trailer that takes it. */
export interface Haul {
  id: string
  transport: Transport
  piece: string
  payload: Answer<'kg'>
  total: Answer<'kg'>
}

/** Every piece with every trailer that takes it, at the heavier of as found and as returned. */
export function haulsOf({ project, instances }: Model, weights: Weights, memory: Memory): Haul[] {
  return Object.entries(project.transports).flatMap(([id, transport]) =>
    transport.takes.flatMap((piece): Haul[] => {
      const named = project.pieces[piece]
      if (named === undefined) return []
      const parts = named.parts.flatMap((p) => idsMeant(instances, p))
      const payload = weights.massOf({ piece, parts, whole: true })
      const total = memory.once(`ground-haul-total/${id}/${piece}`, [transport.selfMass, payload], () =>
        sumOf('trailer and piece', 'kg', [
          { label: 'trailer', answer: transport.selfMass },
          { label: piece, answer: payload },
        ]),
      )
      return [{ id, transport, piece, payload, total }]
    }),
  )
}

/** Payload, roads and the ground where it is loaded. Practice 54. */
export function haulChecks(model: Model, haul: Haul, memory: Memory): Check[] {
  const { utilities, ground } = model.project
  const inputs = [haul.transport, haul.payload, haul.total, utilities, ground, model.near]
  return memory.once(`ground-haul/${haul.id}/${haul.piece}`, inputs, () => checksOf(model, haul))
}

function checksOf({ project, near }: Model, haul: Haul): Check[] {
  const { id, transport, piece } = haul
  const shared = {
    subject: { pointer: pointerOf('transports', id), id, name: `Trailer ${id}` },
    near,
    assumptions: ['Line loads, slope and turning room are the trailer maker’s.'],
    cautions: [SOIL, 'The trailer is loaded on level ground and its centre of gravity is marked on the piece.'],
  }
  const payload = check({
    ...shared,
    kind: kinds.haulPayload,
    of: piece,
    title: `${kinds.haulPayload.title}: ${piece}`,
    demand: haul.payload,
    capacity: transport.payload,
  })
  const roads = Object.entries(project.utilities).filter(([, u]) => u.maxVehicle !== undefined)
  const vehicles = roads.flatMap(([road, u]) => {
    const along = { ...shared, of: `${piece}/${road}` }
    const at = (field: string): string => pointerOf('utilities', road, field)
    const n = given('1', pointerOf('transports', id, 'lines'), transport.lines)
    return [
      check({
        ...along,
        kind: kinds.haulVehicle,
        title: `${kinds.haulVehicle.title}: ${piece} along ${u.what}`,
        demand: haul.total,
        capacity: u.maxVehicle as NonNullable<Utility['maxVehicle']>,
      }),
      check({
        ...along,
        kind: kinds.haulLine,
        title: `${kinds.haulLine.title}: ${piece} along ${u.what}`,
        demand: lineShare.show({ m: haul.total, n }),
        capacity: knownOr(u.maxLine, 'kg', at('maxLine')),
      }),
      check({
        ...along,
        kind: kinds.haulRoad,
        title: `${kinds.haulRoad.title}: ${piece} along ${u.what}`,
        assumptions: [...shared.assumptions, restingOn(project.ground, 'G6')],
        demand: deckPressure(haul),
        capacity: knownOr(u.bears, 'Pa', at('bears')),
      }),
    ]
  })
  return [payload, ...vehicles, deckCheck(project.ground, haul, shared)]
}

/** Weight of trailer and piece over the plan of its platform. */
function deckPressure({ transport, total }: Haul): Answer<'Pa'> {
  const [L, B] = transport.platform
  return meanPressure.show({ P: weight(total), A: rectangleArea.show({ B, L }) })
}

function deckCheck(
  ground: Ground | undefined,
  haul: Haul,
  shared: Omit<Parameters<typeof check>[0], 'kind' | 'demand' | 'capacity'>,
): Check {
  const { id, transport, piece } = haul
  const place = transport.at?.map((v) => v.value as number)
  const allowable =
    place === undefined
      ? given('Pa', pointerOf('transports', id, 'at'), undefined)
      : allowableAt(ground, [place[0] as number, place[1] as number])
  return check({
    ...shared,
    kind: kinds.haulPressure,
    of: piece,
    title: `${kinds.haulPressure.title}: ${piece}`,
    assumptions: [...(shared.assumptions ?? []), restingOn(ground, 'G6')],
    demand: deckPressure(haul),
    capacity: allowable as Answer<'Pa'>,
  })
}
