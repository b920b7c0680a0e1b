import type { Programme } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity, Link } from './activity.ts'
import { finishToStart, typedDays } from './rules.ts'
import { dayNumber, elapsedAt, type Zone } from './zone.ts'

type TypedActivity = Programme['activities'][string]

/** A link as it stands in the file. */
export const linkOf = ({ to, type, lag, calendar }: TypedActivity['after'][number]): Link => ({
  to,
  type,
  lag: lag?.value ?? 0,
  ...(calendar === undefined ? {} : { calendar }),
})

/** A typed activity, after what it names: activities, steps out, steps back, changes and tests. */
export function typed(programme: Programme, zone: Zone, id: string): Activity {
  const activity = programme.activities[id] as TypedActivity
  const { days, calendar } = activity
  return {
    id,
    name: activity.name,
    kind: 'typed',
    phase: activity.phase ?? '',
    calendar,
    work: typedDays(programme, calendar, days),
    interruptible: activity.interruptible,
    after: [
      ...activity.after.map(linkOf),
      ...finishToStart([
        ...activity.afterSteps.map((s) => `${s}.land`),
        ...activity.afterReturn.map((s) => `${s}.home`),
        ...activity.afterChanges.map((c) => `change.${c}`),
        ...activity.afterTests.map((t) => `test.${t}`),
      ]),
    ],
    needs: activity.needs,
    from: [pointerOf('programme', 'activities', id)],
    fixedCost: activity.fixedCost,
    ...(activity.holdPoint === undefined ? {} : { holdPoint: activity.holdPoint }),
    ...(activity.notBefore === undefined ? {} : { notBefore: elapsedAt(zone, dayNumber(activity.notBefore), 0) }),
    ...(activity.finishBy === undefined ? {} : { finishBy: elapsedAt(zone, dayNumber(activity.finishBy) + 1, 0) }),
  }
}
