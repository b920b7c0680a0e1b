import { type Answer, knownOr, sumOf } from '../working/answer.ts'
import type { Pick } from './pick.ts'
import type { LiftStage } from './stages.ts'

/** Hook time of a lift: rigging and set-up, then every stage of its way. */
export const durationOf = (pick: Pick, stages: readonly LiftStage[]): Answer<'s'> =>
  sumOf('Hook time of the lift', 's', [
    { label: 'rigging and set-up', answer: knownOr(pick.setUp, 's', '/programme/work/setUp') },
    ...stages.map(({ name, time }, i) => ({ label: `${i + 1}. ${name}`, answer: time })),
  ])

/** Time from the load being taken to it being landed, or left hanging for the next lift. */
export const timeInAir = (stages: readonly LiftStage[]): Answer<'s'> =>
  sumOf(
    'Time on the hook',
    's',
    stages.map(({ name, time }, i) => ({ label: `${i + 1}. ${name}`, answer: time })),
  )
