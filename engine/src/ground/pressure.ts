import type { Ground } from '../model/index.ts'
import { type Answer, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { active, atRest, highWater, lateralPressure, layerWeight, poreBetween, porePressure } from './earth.formulas.ts'

type Layer = Ground['layers'][string]
type Water = Ground['water'][string]
interface Named<T> {
  id: string
  is: T
}

/** What presses on the wall at one level. */
export interface WallLevel {
  layer: string
  z: Answer<'m'>
  /** Total vertical stress. */
  vertical: Answer<'Pa'>
  pore: Answer<'Pa'>
  /** Earth and water together, square to the wall. */
  lateral: Answer<'Pa'>
}

/** Largest distance between levels looked at, m: pressure is linear within a layer, thickness nearly so. */
const LEVELS_APART = 2

/** Layers from the top down. */
export const layersDown = (ground: Ground): Named<Layer>[] =>
  Object.entries(ground.layers)
    .map(([id, is]) => ({ id, is }))
    .sort((a, b) => (b.is.top.value as number) - (a.is.top.value as number))

export const waterWeight = (ground: Ground): Answer<'N/m3'> =>
  ground.waterWeight ?? stated('N/m3', 9810, 'fresh water, 9.81 kN/m³')

/**
 * Pressure on the wall from the surface to a level, both sides of each boundary and between.
 *
 * @param turns levels looked at besides, where the wall turns
 * @returns levels from the top down; unknown below the last layer given, and where a value of a layer, a water level or the state is missing
 * Source: effective stress; pore pressure hydrostatic in aquifers at high tide, linear across the layers between them.
 * Frame: site z. Limits: level ground; of surcharges the even one alone, what stands in one place is in `wallLoad`; no arching counted.
 */
export function wallLevels(ground: Ground, bottom: Answer<'m'>, turns: readonly Answer<'m'>[] = []): WallLevel[] {
  const layers = layersDown(ground)
  const base = bottom.value as number
  const within = layers
    .filter(({ is }) => (is.top.value as number) > base)
    .flatMap((layer) => levelsIn(layer, bottom, turns).map((z) => levelAt(ground, layers, layer, z)))
  const deepest = layers.at(-1)?.is.bottom.value
  return deepest === undefined || deepest <= base ? within : [...within, unknownAt(bottom)]
}

/** Where the layers given do not reach nothing is known of what presses. */
function unknownAt(z: Answer<'m'>): WallLevel {
  const open = given('Pa', '/ground/layers', undefined)
  return { layer: 'ground that no layer describes', z, vertical: open, pore: open, lateral: open }
}

function levelsIn({ id, is }: Named<Layer>, bottom: Answer<'m'>, turns: readonly Answer<'m'>[]): Answer<'m'>[] {
  const top = is.top.value as number
  const end = (is.bottom.value as number) > (bottom.value as number) ? is.bottom : bottom
  const parts = Math.ceil((top - (end.value as number)) / LEVELS_APART)
  const between = Array.from({ length: Math.max(parts - 1, 0) }, (_, i) =>
    stated('m', top + ((i + 1) * ((end.value as number) - top)) / parts, `a level within ${id}`),
  )
  const inside = turns.filter(({ value: z = top }) => z < top && z > (end.value as number))
  return [is.top, ...[...between, ...inside].sort((a, b) => (b.value as number) - (a.value as number)), end]
}

function levelAt(ground: Ground, layers: readonly Named<Layer>[], layer: Named<Layer>, z: Answer<'m'>): WallLevel {
  const vertical = verticalStress(layers, z, ground.surcharge)
  const pore = poreAt(ground, layers, layer, z)
  const { K, c } = earthState(ground, layer)
  return { layer: layer.id, z, vertical, pore, lateral: lateralPressure.show({ K, sigma_v: vertical, u: pore, c }) }
}

/** Total vertical stress at a level: the weight of every layer above it, and an even load on the ground where there is one. */
export function verticalStress(
  layers: readonly Named<Layer>[],
  z: Answer<'m'>,
  surcharge?: Answer<'Pa'>,
): Answer<'Pa'> {
  const level = z.value as number
  const above = layers.filter(({ is }) => (is.top.value as number) > level)
  const terms = above.map(({ id, is }): Term<'Pa'> => {
    const down = (is.bottom.value as number) > level ? is.bottom : z
    return { label: id, answer: layerWeight.show({ gamma: is.unitWeight, top: is.top, z: down }) }
  })
  return sumOf('weight of the layers above', 'Pa', [
    ...terms,
    ...(surcharge === undefined ? [] : [{ label: 'even load on the ground', answer: surcharge }]),
  ])
}

/** What is counted for traffic, storage and snow behind the wall, in words. */
export const surchargeText = ({ surcharge }: Ground): string =>
  surcharge === undefined
    ? 'No even load on the ground behind the wall is given, and none is counted.'
    : 'With the even load on the ground behind the wall, as far down as it goes.'

/** Water that stands in a layer. */
const waterIn = (ground: Ground, layer: string): Named<Water> | undefined =>
  Object.entries(ground.water)
    .map(([id, is]) => ({ id, is }))
    .find(({ is }) => is.layers.includes(layer))

const highHead = ({ is }: Named<Water>): Answer<'m'> =>
  is.tide === undefined ? is.head : highWater.show({ head: is.head, tide: is.tide })

const hydrostatic = (ground: Ground, water: Named<Water>, z: Answer<'m'>): Answer<'Pa'> =>
  porePressure.show({ gamma_w: waterWeight(ground), head: highHead(water), z })

/** Pore pressure outside the wall at a level in a layer, aquifers at their highest ordinary head. */
export function poreAt(
  ground: Ground,
  layers: readonly Named<Layer>[],
  layer: Named<Layer>,
  z: Answer<'m'>,
): Answer<'Pa'> {
  const own = waterIn(ground, layer.id)
  if (own !== undefined) return hydrostatic(ground, own, z)
  const index = layers.findIndex(({ id }) => id === layer.id)
  const above = layers
    .slice(0, index)
    .reverse()
    .find(({ id }) => waterIn(ground, id) !== undefined)
  const below = layers.slice(index + 1).find(({ id }) => waterIn(ground, id) !== undefined)
  if (above === undefined && below === undefined) return given('Pa', '/ground/water', undefined)
  if (below === undefined) return hydrostatic(ground, waterIn(ground, (above as Named<Layer>).id) as Named<Water>, z)
  return poreBetween.show({
    u_above:
      above === undefined
        ? stated('Pa', 0, 'no water above')
        : hydrostatic(ground, waterIn(ground, above.id) as Named<Water>, above.is.bottom),
    u_below: hydrostatic(ground, waterIn(ground, below.id) as Named<Water>, below.is.top),
    top: above?.is.bottom ?? ground.surface,
    bottom: below.is.top,
    z,
  })
}

interface EarthState {
  K: Answer<'1'>
  c: Answer<'Pa'>
}

/** Coefficient and cohesion of the state chosen; a state nobody chose is unknown. */
function earthState(ground: Ground, { id, is }: Named<Layer>): EarthState {
  const none = stated('Pa', 0, 'no cohesion counted')
  const phi = knownOr(is.phi, 'rad', pointerOf('ground', 'layers', id, 'phi'))
  switch (ground.earthPressure) {
    case 'at rest':
      return { K: is.k0 ?? atRest.show({ phi }), c: none }
    case 'active':
      return { K: active.show({ phi }), c: is.cohesion ?? none }
    case undefined:
      return { K: given('1', '/ground/earthPressure', undefined), c: none }
    default:
      return ground.earthPressure satisfies never
  }
}

/** Water at a level, ordinary highest head; open where no layer of the ground has it. */
export function waterAt(ground: Ground, z: Answer<'m'>): Answer<'Pa'> {
  const layers = layersDown(ground)
  const level = z.value
  if (level === undefined) return given('Pa', '/ground/layers', undefined)
  const layer = layers.find(({ is }) => (is.top.value as number) >= level && (is.bottom.value as number) < level)
  return layer === undefined ? given('Pa', '/ground/layers', undefined) : poreAt(ground, layers, layer, z)
}
