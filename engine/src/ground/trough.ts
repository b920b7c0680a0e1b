import type { Bay, Ground, Model } from '../model/index.ts'
import { turned } from '../numeric/plan.ts'
import { type Answer, sumOf, type Term } from '../working/answer.ts'
import { layersDown } from './pressure.ts'
import { equivalentRaft, layerBetween, pointLayer } from './settlement.formulas.ts'
import type { GroundLoad, Moment } from './step.ts'

/** What presses on the ground, evenly over a rectangle. Frame: site, m. */
export interface Pressing {
  /** Things on one bay press together, over the whole of it. */
  id: string
  what: string
  at: readonly [number, number]
  /** Along x and y; undefined where the model has no plan of it: then it presses as a point. */
  size: readonly [number, number] | undefined
  /** By which its plan is turned from x and y to the left, rad; absent, not at all. */
  turn?: number
  /** Level at which it reaches the ground; of piles, that of the raft they act as. */
  level: number
  forces: readonly Term<'N'>[]
}

/** Where settlement is asked for. */
export interface Place {
  at: readonly [number, number]
  /** Level at which it stands in the ground: what is compressed above does not lower it. */
  level: number
}

type Layer = Ground['layers'][string]

/** Everything that presses on the ground outside the shaft at one moment of a step. */
export function pressingAt(model: Model, loads: readonly GroundLoad[], when: Moment): Pressing[] {
  const all = new Map<string, Pressing>()
  for (const load of loads) {
    if (load.kind === 'machine' || !load.when.includes(when)) continue
    const own = pressingOf(model, load)
    const there = all.get(own.id)
    all.set(own.id, there === undefined ? own : { ...there, forces: [...there.forces, ...own.forces] })
  }
  return [...all.values()]
}

function pressingOf(model: Model, load: GroundLoad): Pressing {
  const { bays, systems } = model.project
  const bay = bays[load.on]
  const forces = [{ label: load.what, answer: load.force }]
  if (bay !== undefined) return { ...bayPressing(load.on, bay), forces }
  const [x, y, level] = load.at
  const [system = ''] = load.id.split('/', 1)
  const plan = load.kind === 'leg' ? planOf(systems[system]?.foundation?.plan) : load.size
  const size = plan !== undefined && plan[0] * plan[1] > 0 ? plan : undefined
  // a leg and a crane have one load for each moment
  const id = load.kind === 'leg' || load.kind === 'crane' ? load.id.replace(/\/[^/]*$/, '') : load.id
  return { id, what: load.what, at: [x, y], size, turn: load.turn ?? 0, level, forces }
}

type Plan = readonly [number, number]
const planOf = (at: readonly Answer<'m'>[] | undefined): Plan | undefined =>
  at && [at[0]?.value as number, at[1]?.value as number]

/** A bay over the whole of its plan, at the level at which its check has it press; nothing stands on it yet. */
export function bayPressing(id: string, bay: Bay): Pressing {
  const top = bay.level.value as number
  return {
    id,
    what: bay.name ?? `Bay ${id}`,
    at: planOf(bay.centre) as Plan,
    size: planOf(bay.size) as Plan,
    level: bay.piles === undefined ? top : equivalentRaft.value({ top, toe: bay.piles.toe.value as number }),
    forces: [],
  }
}

/** Everything that presses there together. */
export const forceOf = ({ what, forces }: Pressing): Answer<'N'> => sumOf(`on ${what}`, 'N', forces)

/** Nearer to a load without a plan than this its field is that of its footing, which is not known, m. */
const BESIDE = 1
const NO_SIDE = 1e-6

/**
 * Settlement that one newton, spread evenly over what presses, brings to a place: layer by layer.
 *
 * The corner of a rectangle settles a quarter as much as the middle of one twice as long and twice as wide, so the formula of the
 * bays (`ground.settlement.layer`) serves anywhere: four rectangles with a corner under the place, what lies beyond the load taken off.
 *
 * @returns m/N, downwards; undefined where modulus or Poisson's ratio of a layer is not known, and close to a load without a plan
 * Limits: elastic; each layer strained as in even ground; as though there were no shaft; nothing below the lowest layer given.
 */
export function perNewton(ground: Ground, pressing: Pressing, place: Place): number | undefined {
  const { at, size, turn = 0, level } = pressing
  const [x, y] = turned([place.at[0] - at[0], place.at[1] - at[1]], -turn)
  if (size === undefined && Math.hypot(x, y) < BESIDE) return undefined
  return overLayers(ground, Math.min(level, place.level), (layer) =>
    size === undefined
      ? pointLayer.value({ P: 1, r: Math.hypot(x, y), level, ...layer })
      : beside([x, y], size, (B, L) => layerBetween.value({ q: 1 / (size[0] * size[1]), B, L, level, ...layer })),
  )
}

/** What is below a level of a layer, m, with its stiffness, Pa and 1. */
interface LayerBelow {
  top: number
  bottom: number
  E: number
  nu: number
}

/** A sum over the layers below a level; undefined where the stiffness of one is not known. */
function overLayers(ground: Ground, from: number, of: (layer: LayerBelow) => number): number | undefined {
  let sum = 0
  for (const { is } of layersDown(ground)) {
    if ((is.bottom.value as number) >= from) continue
    const layer = layerBelow(is, from)
    if (layer === undefined) return undefined
    sum += of(layer)
  }
  return sum
}

function layerBelow({ top, bottom, young, poisson }: Layer, from: number): LayerBelow | undefined {
  const [E, nu] = [young?.value, poisson?.value]
  if (E === undefined || nu === undefined) return undefined
  return { top: Math.min(top.value as number, from), bottom: bottom.value as number, E, nu }
}

/** What a place settles beside a rectangle, from what the middle of a rectangle does: corners added and taken off. */
function beside([x, y]: Plan, [a, b]: Plan, middle: (B: number, L: number) => number): number {
  const corner = (u: number, v: number): number => {
    const [B, L] = [2 * Math.abs(u), 2 * Math.abs(v)]
    return B < NO_SIDE || L < NO_SIDE ? 0 : (Math.sign(u * v) * middle(B, L)) / 4
  }
  const [x1, x2, y1, y2] = [x + a / 2, x - a / 2, y + b / 2, y - b / 2]
  return corner(x1, y1) - corner(x2, y1) - corner(x1, y2) + corner(x2, y2)
}

/** Settlement of a place under everything that presses: each one's for a newton, times its force. m, downwards; undefined where one is unknown. */
export function settlementAt(ground: Ground, pressing: readonly Pressing[], place: Place): number | undefined {
  const shares = pressing.map((p) => {
    const [force, share] = [forceOf(p).value, perNewton(ground, p, place)]
    return force === undefined || share === undefined ? undefined : force * share
  })
  return shares.includes(undefined) ? undefined : (shares as number[]).reduce((sum, w) => sum + w, 0)
}

/** Most cuts along a side: under a load and close beside it. Far off fewer do. */
const CUTS = 8

const cutsOf = (size: Plan, away: number): number =>
  Math.min(CUTS, Math.max(2, Math.ceil((4 * Math.max(...size)) / Math.max(away, 1e-3))))

/** The same as `perNewton` by another road: what presses cut into points, each by the displacement of a point load. */
export function asPoints(ground: Ground, { at, size, turn = 0, level }: Pressing, place: Place): number | undefined {
  const cuts = size === undefined ? 1 : cutsOf(size, Math.hypot(place.at[0] - at[0], place.at[1] - at[1]))
  const [a, b] = size ?? [0, 0]
  const share = (k: number): number => (k + 0.5) / cuts - 0.5
  const [x, y] = turned([place.at[0] - at[0], place.at[1] - at[1]], -turn)
  const away = Array.from({ length: cuts * cuts }, (_, k) =>
    Math.hypot(x - share(k % cuts) * a, y - share(Math.floor(k / cuts)) * b),
  )
  if (away.includes(0)) return undefined
  return overLayers(ground, Math.min(level, place.level), (layer) =>
    away.reduce((sum, r) => sum + pointLayer.value({ P: 1 / cuts ** 2, r, level, ...layer }), 0),
  )
}
