import type { Programme } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity, Link } from './activity.ts'
import { typedDays } from './rules.ts'
import { datesOf, linkOf } from './typed.ts'
import type { Zone } from './zone.ts'

type Adjustment = Programme['adjustments'][string]

/** Activities as the planner adjusts them, and within the curfews that hold for them. */
export function adjusted(programme: Programme, zone: Zone, all: readonly Activity[]): Activity[] {
  const changed = all.map((activity) => {
    const own = programme.adjustments[activity.id]
    return withCurfews(programme, own === undefined ? activity : changedBy(programme, zone, activity, own))
  })
  const split = new Map(
    changed.flatMap((activity) => {
      const shares = programme.adjustments[activity.id]?.split
      return shares === undefined ? [] : [[activity.id, parts(activity, shares)] as const]
    }),
  )
  if (split.size === 0) return changed
  return changed.flatMap((activity) => split.get(activity.id) ?? [activity]).map((a) => onFirstParts(a, split))
}

function changedBy(programme: Programme, zone: Zone, activity: Activity, own: Adjustment): Activity {
  const calendar = own.calendar ?? programme.ways[own.way ?? '']?.calendar ?? activity.calendar
  const without = new Set(own.without)
  const kept = activity.after.filter(({ to }) => !without.has(to))
  const within = [...(activity.within ?? []), ...own.within]
  const idle = [...(activity.idle ?? []), ...misfits(programme, activity, own)]
  const { unknown, ...known } = doneBy(programme, activity, own)
  return {
    ...known,
    ...(unknown === undefined || own.days !== undefined ? {} : { unknown }),
    calendar,
    work: own.days === undefined ? known.work : typedDays(programme, calendar, own.days),
    needs: own.needs ?? known.needs,
    after: [...kept, ...own.after.map(linkOf)],
    from: [...activity.from, pointerOf('programme', 'adjustments', activity.id)],
    ...datesOf(own, zone),
    ...(within.length === 0 ? {} : { within }),
    ...(idle.length === 0 ? {} : { idle }),
  }
}

/** The activity done in the way adopted for it, with that way's people and hours. */
function doneBy({ ways }: Programme, activity: Activity, { way }: Adjustment): Activity {
  const taken = ways[way ?? '']
  return taken === undefined ? activity : inWay(activity, taken)
}

/** An activity done in another way: its working time by a share, other units held, another calendar, a cost beside. */
export function inWay(activity: Activity, { work, needs, calendar, fixedCost }: Programme['ways'][string]): Activity {
  const held = Object.entries({ ...activity.needs, ...needs }).filter(([, amount]) => amount > 0)
  return {
    ...activity,
    work: activity.work.map((w) => w * (work.value as number)) as unknown as Activity['work'],
    needs: Object.fromEntries(held),
    calendar: calendar ?? activity.calendar,
    fixedCost: activity.fixedCost + fixedCost,
  }
}

/** Whether a way may be adopted for an activity. */
export const isWayOf = ({ of }: Programme['ways'][string], { id, kind, phase }: Activity): boolean =>
  of.activities.includes(id) || of.kinds.includes(kind) || of.phases.includes(phase)

/** The most by which the derived duration may move before what was decided for it is asked about again. */
const MOVED = 0.1

function misfits(programme: Programme, activity: Activity, own: Adjustment): string[] {
  const { calendar, work, after } = activity
  const [, , day] = typedDays(programme, calendar, [0, 0, 1])
  const days = work[1] / day
  const was = own.madeFor
  const way = programme.ways[own.way ?? '']
  return [
    ...(way === undefined || isWayOf(way, activity) ? [] : [`is done in the way ${own.way}, which is not for it`]),
    ...own.without
      .filter((id) => !after.some(({ to }) => to === id))
      .map((id) => `is freed of ${id}, for which it does not wait`),
    ...(was === undefined || Math.abs(days - was) <= MOVED * was
      ? []
      : [`is adjusted for a derived duration of ${was} days, which is now ${days.toFixed(1)}`]),
  ]
}

function withCurfews({ curfews }: Programme, activity: Activity): Activity {
  const held = Object.values(curfews).filter(
    ({ activities, kinds, phases, resources }) =>
      activities.includes(activity.id) ||
      kinds.includes(activity.kind) ||
      phases.includes(activity.phase) ||
      resources.some((r) => (activity.needs[r] ?? 0) > 0),
  )
  if (held.length === 0) return activity
  return { ...activity, within: [...new Set([...(activity.within ?? []), ...held.map((c) => c.within)])] }
}

/** In a row: what binds the start binds the first part, what binds the finish the last, which keeps the id. */
function parts(activity: Activity, shares: readonly number[]): Activity[] {
  const whole = shares.reduce((sum, s) => sum + s, 0)
  const isOnStart = ({ type }: Link): boolean => type === 'FS' || type === 'SS'
  return shares.map((share, k): Activity => {
    const [first, last] = [k === 0, k === shares.length - 1]
    const { notBefore, startBy, finishNotBefore, finishBy, holdPoint, fixedCost, ...rest } = activity
    return {
      ...rest,
      id: last ? activity.id : `${activity.id}.${k + 1}`,
      name: `${activity.name} (${k + 1} of ${shares.length})`,
      work: activity.work.map((w) => Math.round((w * share) / whole)) as unknown as Activity['work'],
      after: [
        ...activity.after.filter((link) => (isOnStart(link) ? first : last)),
        ...(first ? [] : [{ to: `${activity.id}.${k}`, type: 'FS', lag: 0 } as const]),
      ],
      fixedCost: last ? fixedCost : 0,
      ...(first && notBefore !== undefined ? { notBefore } : {}),
      ...(first && startBy !== undefined ? { startBy } : {}),
      ...(first && holdPoint !== undefined ? { holdPoint } : {}),
      ...(last && finishNotBefore !== undefined ? { finishNotBefore } : {}),
      ...(last && finishBy !== undefined ? { finishBy } : {}),
    }
  })
}

/** Whoever goes by the start of one that is split goes by the start of its first part. */
function onFirstParts(activity: Activity, split: ReadonlyMap<string, readonly Activity[]>): Activity {
  const isMoved = ({ to, type }: Link): boolean => (type === 'SS' || type === 'SF') && split.has(to)
  if (!activity.after.some(isMoved)) return activity
  return { ...activity, after: activity.after.map((l) => (isMoved(l) ? { ...l, to: `${l.to}.1` } : l)) }
}
