import { epochOf, type Model } from '../../model/index.ts'
import type { StripResult } from '../../strip/index.ts'
import type { Check } from '../../working/check.ts'
import type { Memory } from '../../working/memory.ts'
import { baysOfSteps, isBelow } from '../inShaft.ts'
import type { ProgrammeResult } from '../programme.ts'
import { airChecks } from './air.ts'
import type { Below } from './below.ts'
import { boardChecks } from './board.ts'
import { gasChecks } from './gas.ts'

/**
 * People below ground: head count, gas, air. Practice 98 to 100. Where nobody is planned to be there and nothing is entered, no
 * check; where somebody is planned and nothing is entered, one open check of each.
 */
export function peopleChecks(
  model: Model,
  strip: StripResult,
  { activities, plan, progress }: Pick<ProgrammeResult, 'activities' | 'plan' | 'progress'>,
  memory: Memory,
): readonly Check[] {
  const { project } = model
  const { belowGround: people, programme } = project
  const froms = memory.settled('programme/steps-from', Object.fromEntries(strip.steps.map((s) => [s.step, s.from])))
  const inputs = [
    people,
    activities,
    plan,
    progress,
    froms,
    programme,
    project.lifts,
    project.pieces,
    project.steps,
    model.near,
  ]
  return memory.once('programme/people', inputs, () => {
    const below: Below = {
      model,
      people,
      activities: Object.values(activities),
      plan,
      actual: progress?.actual ?? {},
      bayOfStep: baysOfSteps(model, froms),
      origin: programme === undefined ? undefined : epochOf(programme.start, programme.timeZone, 'first'),
      dataDate: programme?.dataDate === undefined ? undefined : epochOf(programme.dataDate, programme.timeZone, 'last'),
    }
    if (people === undefined && !somebodyBelow(below)) return []
    return [...boardChecks(below), ...gasChecks(below), ...airChecks(below)]
  })
}

const somebodyBelow = ({ activities, bayOfStep, model }: Below): boolean =>
  activities.some((a) => isBelow(a, bayOfStep, model.project.programme?.work?.shaftFloor))
