import type { Stages } from '@shieldwright/engine'
import { blockOf } from './block.ts'
import { groundItems, groundLabels } from './ground.ts'
import type { SceneItem, SceneLabel } from './sceneItem.ts'
import { shaftItems } from './shaft.ts'
import { bayItems, bayLabels, frontItems, obstructionItems, padItems } from './siteThings.ts'
import { waterItems, waterLabels } from './water.ts'

/** What stands still: ground cut open along the drive, shaft, cradle, bays and what is fixed in the shaft. */
export interface Surroundings {
  items: readonly SceneItem[]
  labels: readonly SceneLabel[]
}

export function surroundingsOf({ model, strip }: Stages): Surroundings {
  const { project } = model
  const order = strip.steps.map((s) => s.step)
  const block = blockOf(project)
  return {
    items: [
      ...groundItems(project, block),
      ...waterItems(project, block),
      ...shaftItems(project),
      ...frontItems(project, block),
      ...padItems(project),
      ...bayItems(project),
      ...obstructionItems(project, order),
    ],
    labels: [...groundLabels(project, block), ...waterLabels(project, block), ...bayLabels(project)],
  }
}
