import type { TickGround } from '../../model/intake/index.ts'
import { stepsOf } from '../sheet/steps.ts'
import { subjectOf } from '../sheet/subject.ts'
import type { OnSiteStages } from './onSite.ts'

/** What ticks on an on-site file are about, as the stages have it: the same when the file is made and when its ticks come back. */
export function tickGround(stages: OnSiteStages): TickGround {
  const known = new Map<string, readonly string[]>()
  return {
    project: stages.model.project,
    activities: stages.programme.activities,
    liftSteps: (lift) => {
      const steps = known.get(lift) ?? stepWords(stages, lift)
      known.set(lift, steps)
      return steps
    },
  }
}

/** Always in SI: a choice of units is no change of a step. */
function stepWords(stages: OnSiteStages, lift: string): readonly string[] {
  const subject = subjectOf(stages, lift)
  if (subject === undefined) return []
  return stepsOf(subject, 'SI').map(({ words, hold }) => (hold === undefined ? words : `${words} Hold: ${hold}.`))
}
