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

interface StageCase {
  shaft: Shaft
  ground: Ground
  near: number
}

/** Uplift at every stage of the excavation, and at every stage at which wells are stopped. Practice 62, 65. */
export function stageChecks(c: StageCase): Check[] {
  return [...c.shaft.stages.flatMap((_, i) => digCheck(c, i)), ...stopChecks(c)]
}

/** Head of the confined water while some of the wells run, as the pumping test scales: each well draws alike. */
function pressureAt({ ground }: StageCase, { id, water, bottom }: BasePlug, running: Answer<'1'>): Answer<'Pa'> {
  const at = pointerOf('ground', 'water', id)
  const head = headRunning.show({
    head_n: water.head,
    head_d: knownOr(water.drawnDown, 'm', `${at}/drawnDown`),
    n: running,
    n_d: given('1', `${at}/wells/needed`, water.wells?.needed),
  })
  return uplift.show({ gamma_w: waterWeight(ground), head, bottom })
}

/** Water whose layers all end above the toe is cut off by the wall, and stands inside it as a pocket. */
function isEnclosed({ shaft, ground }: StageCase, { layers }: Ground['water'][string]): boolean {
  const toe = shaft.wall.toe.value as number
  return layers.every((id) => (ground.layers[id]?.bottom.value ?? Number.NEGATIVE_INFINITY) >= toe)
}

/** Water that presses from below, without pockets of which somebody says how they are let out. */
const stillPressing = (c: StageCase): Ground['water'] =>
  Object.fromEntries(Object.entries(c.ground.water).filter(([, w]) => !(isEnclosed(c, w) && w.letOut !== undefined)))

function digCheck(c: StageCase, i: number): Check[] {
  const stage = c.shaft.stages[i] as Shaft['stages'][number]
  const plug = basePlug({ ...c.shaft, excavation: stage.to }, { ...c.ground, water: stillPressing(c) })
  if (plug === undefined) return []
  const pointer = pointerOf('shaft', 'stages', i)
  return [
    upliftAt(c, {
      kind: kinds.stageUplift,
      pointer,
      id: `dig-${i + 1}`,
      title: `excavated to ${stage.to.value} m, ${stage.running} wells running`,
      pressure: isEnclosed(c, plug.water)
        ? given('Pa', pointerOf('ground', 'water', plug.id, 'letOut'), undefined)
        : pressureAt(c, plug, given('1', `${pointer}/running`, stage.running)),
      weight: plug.weight,
      assumes: [
        'Weight of the ground left above the confined water alone; no side resistance.',
        ...Object.entries(c.ground.water).flatMap(([id, { letOut }]) =>
          letOut === undefined ? [] : [`Water ${id} inside the wall is let out: ${letOut}`],
        ),
      ].join(' '),
    }),
  ]
}

function stopChecks(c: StageCase): Check[] {
  const { shaft, ground } = c
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
    return upliftAt(c, {
      kind: kinds.stopUplift,
      pointer,
      id: `stop-${i + 1}`,
      title: `fill at ${stop.top.value} m, ${stop.running} wells still running`,
      pressure: pressureAt(c, plug, given('1', `${pointer}/running`, stop.running)),
      weight: sumOf('weight over the confined water, per area', 'Pa', weights),
      assumes:
        'The head is taken as recovered in full for the wells still running: the next is stopped once it is read.',
    })
  })
}

interface Stage {
  kind: typeof kinds.stageUplift
  pointer: string
  id: string
  title: string
  pressure: Answer<'Pa'>
  weight: Answer<'Pa'>
  assumes: string
}

function upliftAt({ ground, near }: StageCase, s: Stage): Check {
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
