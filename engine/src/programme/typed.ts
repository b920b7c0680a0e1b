import type { Programme, ReadProject } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity, Link } from './activity.ts'
import { groundWorkOf } from './groundWork.ts'
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
export function typed(project: ReadProject, programme: Programme, zone: Zone, id: string): Activity {
  const activity = programme.activities[id] as TypedActivity
  const { days, calendar } = activity
  const made = groundWorkOf(project, programme, id)
  return {
    id,
    name: activity.name,
    kind: 'typed',
    phase: activity.phase ?? '',
    calendar,
    work: typedDays(programme, calendar, days ?? made?.days ?? NO_DAYS),
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
    from: [pointerOf('programme', 'activities', id), ...(made?.from ?? [])],
    fixedCost: activity.fixedCost,
    ...(activity.holdPoint === undefined ? {} : { holdPoint: activity.holdPoint }),
    ...datesOf(activity, zone),
    ...(activity.within.length === 0 ? {} : { within: activity.within }),
    ...(made === undefined ? {} : { basis: made.basis }),
    ...(made === undefined || days !== undefined || made.unknown.length === 0 ? {} : { unknown: made.unknown }),
    ...(days === undefined || made === undefined || fits(days, made.days)
      ? {}
      : { idle: [notAsTyped(days, made.days)] }),
  }
}

const NO_DAYS = [0, 0, 0] as const
type Days = readonly [number, number, number]

/** Typed days hold what site and rate give while that lies between their least and greatest. */
const fits = (typed: Days, [, made]: Days): boolean => typed[0] <= made && made <= typed[2]

const notAsTyped = (typed: Days, [, made]: Days): string =>
  `is typed with ${typed[0]} to ${typed[2]} days; site and rate give ${made.toFixed(1)}`

/** Dates of an activity as elapsed seconds; a day by which something is done ends with its last second. */
export function datesOf(
  {
    notBefore,
    startBy,
    finishNotBefore,
    finishBy,
  }: Pick<TypedActivity, 'notBefore' | 'startBy' | 'finishNotBefore' | 'finishBy'>,
  zone: Zone,
): Partial<Pick<Activity, 'notBefore' | 'startBy' | 'finishNotBefore' | 'finishBy'>> {
  const from = (date: string): number => elapsedAt(zone, dayNumber(date), 0)
  const by = (date: string): number => elapsedAt(zone, dayNumber(date) + 1, 0)
  return {
    ...(notBefore === undefined ? {} : { notBefore: from(notBefore) }),
    ...(startBy === undefined ? {} : { startBy: by(startBy) }),
    ...(finishNotBefore === undefined ? {} : { finishNotBefore: from(finishNotBefore) }),
    ...(finishBy === undefined ? {} : { finishBy: by(finishBy) }),
  }
}
