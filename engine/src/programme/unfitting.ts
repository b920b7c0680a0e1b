import type { Programme } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activities } from './activity.ts'
import type { Offender } from './health.ts'

/**
 * What was decided for activities that are no longer there: stand-ins for derived ones, answers to questions, the adopted
 * order, options, causes and failing tests. It stays in the file and is listed, for somebody decided it for a reason.
 */
export function unfitting(programme: Programme, all: Activities): Offender[] {
  const gone = (id: string): boolean => !Object.hasOwn(all, id)
  const named = (ids: readonly string[], what: string): Offender[] =>
    ids.filter(gone).map((id) => ({ activity: id, text: `${what} ${id}, which is not in the network` }))
  return [
    ...Object.values(all).flatMap(({ id, idle = [] }) => idle.map((text) => ({ activity: id, text: `${id} ${text}` }))),
    ...named(Object.keys(programme.explained), 'an answer for').map(({ activity, text }) => ({
      // under its own address: an answer does not answer for itself
      activity: pointerOf('programme', 'explained', activity),
      text,
    })),
    ...named(Object.keys(programme.adjustments), 'an adjustment for'),
    ...Object.entries(programme.curfews).flatMap(([id, c]) => named(c.activities, `curfew ${id} holds`)),
    ...sequenceLeft(programme.sequence.filter(gone), programme.sequence.length),
    ...Object.entries(programme.options).flatMap(([id, o]) => named([o.activity], `option ${id} shortens`)),
    ...Object.entries(programme.causes).flatMap(([id, c]) => named(c.activities, `cause ${id} touches`)),
    ...named(Object.keys(programme.failing), 'a chance of failing for'),
  ]
}

/** The adopted order is one decision: one line for all that it names in vain. */
const sequenceLeft = (gone: readonly string[], of: number): Offender[] =>
  gone.length === 0
    ? []
    : [
        {
          activity: gone[0] as string,
          text: `${gone.length} of the ${of} activities of the adopted sequence are not in the network: ${gone.slice(0, 3).join(', ')}${gone.length > 3 ? ', …' : ''}`,
        },
      ]
