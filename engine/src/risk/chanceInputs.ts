import type { LiftResult } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import { stoppingMean } from './wind.ts'

/**
 * What restart and cost of every run are made from, beside their number and the seed: while each of these is the very same, so
 * are the runs. Of a lift that is the wind that stops it and where it cannot turn back any more, not the lift itself: a heavier
 * piece alone moves no run.
 */
export function chanceInputs(programme: ProgrammeResult, { lifts }: LiftResult, model: Model): readonly unknown[] {
  const { project } = model
  const ofLifts = Object.keys(lifts).flatMap((id) => [
    id,
    stoppingMean(model, lifts, id).value,
    lifts[id]?.pointOfNoReturn.time.value,
  ])
  const { activities, solved } = programme
  return [activities, solved, project.programme, project.risks, project.correlations, project.climate, ...ofLifts]
}
