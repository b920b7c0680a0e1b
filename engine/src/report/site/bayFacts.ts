import { placesByStep } from '../../strip/index.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { mostOn } from './tables.ts'

/** What a page says of a bay. */
export interface BayFacts {
  id: string
  name: string
  /** Pa */
  allowable: number | undefined
  /** Largest pressure over all steps, Pa, and the piece that brings it; undefined where nothing is set down. */
  most: number | undefined
  piece: string | undefined
  /** Names of the pieces that stand there once the step is done. */
  standing: readonly string[]
}

/** Every bay with what it may carry, the most that is set on it, and what lies there after a step. */
export function bayFacts(stages: SheetStages, step: string | undefined): BayFacts[] {
  const { model, strip } = stages
  const { bays, pieces } = model.project
  const after = placesByStep(model, strip).find((p) => p.step.step === step)?.after ?? {}
  return Object.entries(bays).map(([id, bay]) => {
    const most = mostOn(stages, id)
    return {
      id,
      name: bay.name ?? id,
      allowable: bay.allowable.value,
      most: most?.pressure,
      piece: most?.piece,
      standing: (after[id] ?? []).map((s) => pieces[s.piece]?.short ?? pieces[s.piece]?.name ?? s.piece),
    }
  })
}
