import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, given, knownOr, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { factored, uplift } from './base.formulas.ts'
import { type BasePlug, basePlug, CONCRETE } from './base.ts'
import { factorOf, SOIL, WATER } from './caution.ts'
import { restingOn } from './decision.ts'
import { layerWeight } from './earth.formulas.ts'
import * as kinds from './kinds.ts'
import { waterWeight } from './pressure.ts'
import { headRunning } from './wells.formulas.ts'

interface Waters {
  shaft: Shaft
  ground: Ground
}
interface StageCase extends Waters {
  near: number
}

/** A stage of the excavation, or a stop of wells over the fill: what the confined water does under it, per area. */
export interface WaterStage {
  kind: typeof kinds.stageUplift
  pointer: string
  id: string
  title: string
  /** The water that presses from below, its head while so many wells run, and the underside on which it presses, site z. */
  water: string
  head: Answer<'m'>
  bottom: Answer<'m'>
  pressure: Answer<'Pa'>
  /** Ground, slab and fill over that underside. */
  weight: Answer<'Pa'>
  assumes: string
}

/** Uplift at every stage of the excavation, and at every stage at which wells are stopped. Practice 62, 65. */
export const stageChecks = (c: StageCase): Check[] => waterStages(c).map((stage) => upliftAt(c, stage))

/** Every stage of the excavation, then every stop of wells over the fill so far; none where no confined water lies below. */
export const waterStages = (c: Waters): WaterStage[] => [...c.shaft.stages.flatMap((_, i) => dug(c, i)), ...stopped(c)]

/** Head of the confined water while some of the wells run, as the pumping test scales: each well draws alike. */
function headAt({ id, water }: BasePlug, running: Answer<'1'>): Answer<'m'> {
  const at = pointerOf('ground', 'water', id)
  return headRunning.show({
    head_n: water.head,
    head_d: knownOr(water.drawnDown, 'm', `${at}/drawnDown`),
    n: running,
    n_d: given('1', `${at}/wells/needed`, water.wells?.needed),
  })
}

/** Water whose layers all end above the toe is cut off by the wall, and stands inside it as a pocket. */
function isEnclosed({ shaft, ground }: Waters, { layers }: Ground['water'][string]): boolean {
  const toe = shaft.wall.toe.value as number
  return layers.every((id) => (ground.layers[id]?.bottom.value ?? Number.NEGATIVE_INFINITY) >= toe)
}

/** Water that presses from below, without pockets of which somebody says how they are let out. */
const stillPressing = (c: Waters): Ground['water'] =>
  Object.fromEntries(Object.entries(c.ground.water).filter(([, w]) => !(isEnclosed(c, w) && w.letOut !== undefined)))

function dug(c: Waters, i: number): WaterStage[] {
  const stage = c.shaft.stages[i] as Shaft['stages'][number]
  const plug = basePlug({ ...c.shaft, excavation: stage.to }, { ...c.ground, water: stillPressing(c) })
  if (plug === undefined) return []
  const pointer = pointerOf('shaft', 'stages', i)
  const head = headAt(plug, given('1', `${pointer}/running`, stage.running))
  return [
    {
      kind: kinds.stageUplift,
      pointer,
      id: `dig-${i + 1}`,
      title: `excavated to ${stage.to.value} m, ${stage.running} wells running`,
      water: plug.id,
      bottom: plug.bottom,
      head,
      pressure: isEnclosed(c, plug.water)
        ? given('Pa', pointerOf('ground', 'water', plug.id, 'letOut'), undefined)
        : uplift.show({ gamma_w: waterWeight(c.ground), head, bottom: plug.bottom }),
      weight: plug.weight,
      assumes: [
        'Weight of the ground left above the confined water alone; no side resistance.',
        ...Object.entries(c.ground.water).flatMap(([id, { letOut }]) =>
          letOut === undefined ? [] : [`Water ${id} inside the wall is let out: ${letOut}`],
        ),
      ].join(' '),
    },
  ]
}

function stopped({ shaft, ground }: Waters): WaterStage[] {
  const { fill } = shaft
  const plug = basePlug(shaft, ground)
  if (fill === undefined || plug === undefined) return []
  return fill.stops.map((stop, i) => {
    const pointer = pointerOf('shaft', 'fill', 'stops', i)
    const weights: Term<'Pa'>[] = [
      { label: 'plug', answer: plug.weight },
      { label: 'slab', answer: layerWeight.show({ gamma: CONCRETE, top: shaft.slabTop, z: shaft.excavation }) },
      { label: 'fill', answer: layerWeight.show({ gamma: fill.unitWeight, top: stop.top, z: shaft.slabTop }) },
    ]
    const head = headAt(plug, given('1', `${pointer}/running`, stop.running))
    return {
      kind: kinds.stopUplift,
      pointer,
      id: `stop-${i + 1}`,
      title: `fill at ${stop.top.value} m, ${stop.running} wells still running`,
      water: plug.id,
      bottom: plug.bottom,
      head,
      pressure: uplift.show({ gamma_w: waterWeight(ground), head, bottom: plug.bottom }),
      weight: sumOf('weight over the confined water, per area', 'Pa', weights),
      assumes:
        'The head is taken as recovered in full for the wells still running: the next is stopped once it is read.',
    }
  })
}

function upliftAt({ ground, near }: StageCase, s: WaterStage): Check {
  return check({
    kind: s.kind,
    subject: { pointer: s.pointer, id: s.id, name: s.title },
    title: `${s.kind.title}: ${s.title}`,
    demand: factored.show({ gamma: factorOf(ground, 'upliftDestabilising'), p: s.pressure }),
    capacity: factored.show({ gamma: factorOf(ground, 'upliftStabilising'), p: s.weight }),
    near,
    assumptions: [s.assumes, 'Each well draws the head down alike.', restingOn(ground, 'G1', 'G2', 'G4', 'G5')],
    cautions: [SOIL, WATER],
  })
}
