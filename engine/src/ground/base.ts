import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import {
  factored,
  gradient,
  gradientAllowed,
  headAllowed,
  headLost,
  soilGradient,
  thicknessOf,
  timeToHead,
  uplift,
} from './base.formulas.ts'
import { factorOf, SOIL, WATER } from './caution.ts'
import { restingOn } from './decision.ts'
import { layerWeight } from './earth.formulas.ts'
import * as kinds from './kinds.ts'
import { layersDown, waterWeight } from './pressure.ts'

/** Ground between the excavation and the confined water below it, and that water. */
export interface BasePlug {
  /** Aquifer under the plug. */
  id: string
  water: Ground['water'][string]
  /** Underside of the plug, site z. */
  bottom: Answer<'m'>
  /** Weight above the underside, per area. */
  weight: Answer<'Pa'>
  /** Pressure of the water under the plug in each state of the wells. */
  /** The last is the state that the open base relies on. */
  states: readonly { name: 'wells off' | 'wells on'; head: Answer<'m'>; pressure: Answer<'Pa'> }[]
  /** Unit weight of the layer that carries the base. */
  unitWeight: Answer<'N/m3'>
}

/** The plug under the base; undefined where the base stands in the aquifer itself or none lies below. */
export function basePlug(shaft: Shaft, ground: Ground): BasePlug | undefined {
  const base = shaft.excavation.value as number
  const layers = layersDown(ground)
  const under = layers.filter(({ is }) => (is.bottom.value as number) < base)
  const waters = Object.entries(ground.water)
  const index = under.findIndex(({ id }) => waters.some(([, w]) => w.layers.includes(id)))
  const aquifer = under[index]
  if (aquifer === undefined || index === 0) return undefined
  const [id, water] = waters.find(([, w]) => w.layers.includes(aquifer.id)) as [string, BasePlug['water']]
  const bottom = aquifer.is.top
  const terms = under.slice(0, index).map(
    (layer, i): Term<'Pa'> => ({
      label: layer.id,
      answer: layerWeight.show({
        gamma: layer.is.unitWeight,
        top: i === 0 ? shaft.excavation : layer.is.top,
        z: layer.is.bottom,
      }),
    }),
  )
  return {
    id,
    water,
    bottom,
    weight: sumOf('weight of the plug per area', 'Pa', terms),
    states: wellStates(ground, water, bottom),
    unitWeight: (under[0] as (typeof under)[number]).is.unitWeight,
  }
}

function wellStates(ground: Ground, water: BasePlug['water'], bottom: Answer<'m'>): BasePlug['states'] {
  const gamma_w = waterWeight(ground)
  const state = (name: 'wells off' | 'wells on', head: Answer<'m'>) => ({
    name,
    head,
    pressure: uplift.show({ gamma_w, head, bottom }),
  })
  return water.drawnDown === undefined
    ? [state('wells off', water.head)]
    : [state('wells off', water.head), state('wells on', water.drawnDown)]
}

interface BaseCase {
  shaft: Shaft
  ground: Ground
  plug: BasePlug
  near: number
}

/** Checks of the base against confined water: uplift, gradient, wells, water restored. Practice 62, 63, 64, 65. */
export function baseChecks(c: BaseCase): Check[] {
  const relied = c.plug.states[c.plug.states.length - 1] as BasePlug['states'][number]
  return [
    ...c.plug.states.map((state) => upliftCheck(c, state)),
    gradientCheck(c, relied),
    ...wellChecks(c),
    slabCheck(c),
  ]
}

const subjectOf = ({ plug }: BaseCase) => ({
  pointer: pointerOf('ground', 'water', plug.id),
  id: plug.id,
  name: `Confined water ${plug.id} under the base`,
})

function upliftCheck(c: BaseCase, { name, pressure }: BasePlug['states'][number]): Check {
  return check({
    kind: kinds.baseUplift,
    subject: subjectOf(c),
    of: name.replace(' ', '-'),
    title: `${kinds.baseUplift.title}: deepest excavation, ${name}`,
    demand: factored.show({ gamma: factorOf(c.ground, 'upliftDestabilising'), p: pressure }),
    capacity: factored.show({ gamma: factorOf(c.ground, 'upliftStabilising'), p: c.plug.weight }),
    near: c.near,
    assumptions: [
      'Weight of the plug alone; no side resistance, no slab, no machine counted.',
      ...(name === 'wells off' ? ['This is the base if pumping stops; see the time to the critical head.'] : []),
      restingOn(c.ground, 'G1', 'G2', 'G4', 'G5'),
    ],
    cautions: [SOIL, WATER],
  })
}

function gradientCheck(c: BaseCase, { name, head }: BasePlug['states'][number]): Check {
  const lost = headLost.show({ head, base: c.shaft.excavation })
  const path = thicknessOf.show({ top: c.shaft.excavation, bottom: c.plug.bottom })
  return check({
    kind: kinds.baseGradient,
    subject: subjectOf(c),
    of: name.replace(' ', '-'),
    title: `${kinds.baseGradient.title}: ${name}`,
    demand: gradient.show({ h: lost, L: path }),
    capacity: gradientAllowed.show({
      i_c: soilGradient.show({ gamma: c.plug.unitWeight, gamma_w: waterWeight(c.ground) }),
      gamma: factorOf(c.ground, 'gradient'),
    }),
    near: c.near,
    assumptions: ['All head is lost in the plug, evenly.', restingOn(c.ground, 'G1', 'G2', 'G5')],
    cautions: [SOIL, WATER],
  })
}

function wellChecks(c: BaseCase): Check[] {
  const { wells } = c.plug.water
  if (c.plug.water.drawnDown === undefined) return []
  const at = pointerOf('ground', 'water', c.plug.id, 'wells')
  const spare = check({
    kind: kinds.wellsNumber,
    subject: subjectOf(c),
    demand: sumOf('wells to have', '1', [
      { label: 'needed', answer: given('1', `${at}/needed`, wells?.needed) },
      { label: 'one out of action', answer: stated('1', 1, 'one well may fail or be cleaned') },
    ]),
    capacity: given('1', `${at}/installed`, wells?.installed),
    near: 1,
    assumptions: [restingOn(c.ground, 'G2', 'G9')],
    cautions: [SOIL, WATER],
  })
  const time = timeCheck(c, wells, at)
  return holdsWithoutWells(c) ? [spare] : [spare, time]
}

/** A base that holds at the full head waits for no pump. */
function holdsWithoutWells({ ground, plug }: BaseCase): boolean {
  const [stabilising, destabilising] = [
    factorOf(ground, 'upliftStabilising').value,
    factorOf(ground, 'upliftDestabilising').value,
  ]
  const [weight, pressure] = [plug.weight.value, plug.states[0]?.pressure.value]
  if (stabilising === undefined || destabilising === undefined || weight === undefined || pressure === undefined)
    return false
  return destabilising * pressure <= stabilising * weight
}

/** Time from loss of all pumps to the head at which the uplift check reaches one. */
export function timeToCritical({ ground, plug }: BaseCase, wells: BasePlug['water']['wells'], at: string): Answer<'s'> {
  const critical = headAllowed.show({
    resisting: factored.show({ gamma: factorOf(ground, 'upliftStabilising'), p: plug.weight }),
    gamma_d: factorOf(ground, 'upliftDestabilising'),
    gamma_w: waterWeight(ground),
    bottom: plug.bottom,
  })
  return timeToHead.show({
    tau: knownOr(wells?.recovery, 's', `${at}/recovery`),
    head_n: plug.water.head,
    head_d: knownOr(plug.water.drawnDown, 'm', pointerOf('ground', 'water', plug.id, 'drawnDown')),
    head_c: critical,
  })
}

function timeCheck(c: BaseCase, wells: BasePlug['water']['wells'], at: string): Check {
  return check({
    kind: kinds.wellsTime,
    subject: subjectOf(c),
    demand: knownOr(wells?.response, 's', `${at}/response`),
    capacity: timeToCritical(c, wells, at),
    near: c.near,
    assumptions: [
      'All pumps stop at once; the head recovers as the pumping test showed.',
      restingOn(c.ground, 'G2', 'G5'),
    ],
    cautions: [SOIL, WATER],
  })
}

export const CONCRETE = stated(
  'N/m3',
  24000,
  'normal-weight concrete without reinforcement, EN 1991-1-1 table A.1 (from memory)',
)

/** Slab and plug against the full head, before the wells are stopped. */
function slabCheck(c: BaseCase): Check {
  const { shaft, ground, plug } = c
  const fill = shaft.fill
  const weights: Term<'Pa'>[] = [
    { label: 'plug', answer: plug.weight },
    { label: 'slab', answer: layerWeight.show({ gamma: CONCRETE, top: shaft.slabTop, z: shaft.excavation }) },
    ...(fill === undefined
      ? []
      : [{ label: 'fill', answer: layerWeight.show({ gamma: fill.unitWeight, top: fill.top, z: shaft.slabTop }) }]),
  ]
  const full = plug.states[0] as BasePlug['states'][number]
  return check({
    kind: kinds.slabUplift,
    subject: { pointer: '/shaft', id: 'slab', name: 'Base slab' },
    demand: factored.show({ gamma: factorOf(ground, 'upliftDestabilising'), p: full.pressure }),
    capacity: factored.show({
      gamma: factorOf(ground, 'upliftStabilising'),
      p: sumOf('weight over the confined water, per area', 'Pa', weights),
    }),
    near: c.near,
    assumptions: [
      fill === undefined
        ? 'No fill in the shaft: the wells run until there is.'
        : 'The fill stands to its full height before a well is stopped.',
      'Neither the machine, the wall nor its friction is counted.',
      restingOn(ground, 'G1', 'G2', 'G4', 'G5'),
    ],
    cautions: [SOIL, WATER],
  })
}
