import type { Model } from '../model/index.ts'
import type { StepPlaces } from '../strip/index.ts'
import type { Memory } from '../working/memory.ts'
import { parkedMachines } from './legLoads.ts'
import { AS_IT_STANDS } from './moment.ts'
import { plantOf } from './plant.ts'
import { plantLoad } from './step.ts'
import { outsideAt, type StepLoads } from './wallLoad.ts'

/**
 * Stockpiles, plant and parked machines as they stand before any step: where there is no order yet, or where some of what is stored
 * is gone by the first step and would be seen at none. Otherwise the steps show them, with more beside them, and this is undefined.
 */
export function standingState(
  model: Model,
  wall: number | undefined,
  places: readonly StepPlaces[],
  memory: Memory,
): StepLoads | undefined {
  const there = plantOf(model, memory).filter((p) => p.standsAt(AS_IT_STANDS, undefined))
  const unseen = there.filter((p) => !places.some(({ step: { step, lift } }) => p.standsAt(step, lift)))
  if (unseen.length === 0) return undefined
  const loads = [...there.map((p) => plantLoad(p, ['set down'])), ...parkedMachines(model, wall, memory)]
  return outsideAt({ step: AS_IT_STANDS, loads }, memory)
}
