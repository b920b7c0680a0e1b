import { type Activity, boundsFrom, earliestStart } from '../../programme/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import type { Reading } from './campaign.ts'

/** An activity that could go on by its links and its calendar, and stands until a resource is free. */
export interface Waiting {
  activity: string
  name: string
  /** From when it could begin to when it does in the plan. */
  ready: number
  start: number
}

/** When a resource is taken up, and what waits for it meanwhile. */
export interface ResourceUse {
  id: string
  pointer: string
  name: string
  spans: readonly { start: number; finish: number }[]
  waits: readonly Waiting[]
  /** Hours that all that waits for it waits together. */
  hours: number
}

/** Besides the lifting systems so many resources are shown, those first that the longest is waited for. */
const BESIDES = 4
/** Shorter than this nothing is said to wait, s. */
const LEAST = 1800
/** Less than this, together, is no queue worth a line, hours. */
const WORTH = 8

/** Lifting systems that the plan lifts with, in the order of the project; then places and crews that are waited for, the longest first. */
export function resourceUses(reading: Reading): ResourceUse[] {
  const { model } = reading
  const { systems, programme: typed, bays } = model.project
  const waits = waitsOf(reading)
  const standing = (id: string): string => typed?.resources[id]?.stands ?? id
  const useOf = (id: string, pointer: string, name: string, isUse: (a: Activity) => boolean): ResourceUse => {
    const spans = Object.values(reading.programme.activities)
      .filter((a) => isUse(a) && Object.keys(a.needs).some((need) => standing(need) === id))
      .flatMap((a) => reading.when(a.id) ?? [])
      .filter(({ start, finish }) => finish > start)
    const own = waits.filter(({ resource }) => standing(resource) === id)
    return { id, pointer, name, spans: joined(spans), waits: own, hours: hoursOf(own) }
  }
  const isPlace = ({ id }: ResourceUse): boolean => bays[id] !== undefined || typed?.resources[id]?.kind === 'space'
  const lifting = Object.entries(systems).flatMap(([id, { name }]) => {
    const use = useOf(id, pointerOf('systems', id), name, (a) => a.lift !== undefined)
    return use.spans.length === 0 ? [] : [use]
  })
  const besides = Object.entries(typed?.resources ?? {})
    .filter(([id]) => systems[standing(id)] === undefined)
    .map(([id, { name }]) => {
      const bay = bays[standing(id)]
      const pointer = bay === undefined ? pointerOf('programme', 'resources', id) : pointerOf('bays', standing(id))
      return useOf(standing(id), pointer, bay?.name ?? name, () => true)
    })
    .filter(({ hours }) => hours >= WORTH)
    .sort((a, b) => Number(isPlace(b)) - Number(isPlace(a)) || b.hours - a.hours)
  return [...lifting, ...besides.slice(0, BESIDES)]
}

/**
 * What waits in the plan for a resource to be handed over: each with the earliest instant that links, lags and calendars leave
 * it there, and the resource that the plan says it waits for. What has begun waits no more.
 */
function waitsOf({ programme, clock }: Reading): (Waiting & { resource: string })[] {
  const { solved, plan, activities } = programme
  if (solved === undefined) return []
  const { network, planned } = solved
  const { start, finish } = planned.plan.dates
  return network.ids.flatMap((id, i) => {
    const resource = plan[id]?.waitsFor?.resource
    const activity = activities[id]
    if (resource === undefined || activity === undefined || activity.state !== undefined) return []
    const bounds = boundsFrom(network, i, start, finish)
    const ready = earliestStart(network, i, bounds.start, bounds.finish)
    const begins = start[i] as number
    if (!(begins - ready > LEAST)) return []
    return [{ activity: id, name: activity.name, ready: clock(ready), start: clock(begins), resource }]
  })
}

const hoursOf = (waits: readonly Waiting[]): number => waits.reduce((sum, w) => sum + (w.start - w.ready) / 3600, 0)

const HALF_DAY = 43_200

/** Spans in order, those that follow within half a day as one. */
function joined(spans: readonly { start: number; finish: number }[]): { start: number; finish: number }[] {
  const whole: { start: number; finish: number }[] = []
  for (const { start, finish } of [...spans].sort((a, b) => a.start - b.start)) {
    const last = whole.at(-1)
    if (last !== undefined && start - last.finish < HALF_DAY) last.finish = Math.max(last.finish, finish)
    else whole.push({ start, finish })
  }
  return whole
}

/** How many wait at once, as steps: each from an instant to the next change. */
export function queueSteps(waits: readonly Waiting[]): { from: number; to: number; count: number }[] {
  const changes = [...new Set(waits.flatMap(({ ready, start }) => [ready, start]))].sort((a, b) => a - b)
  return changes.slice(1).flatMap((to, i) => {
    const from = changes[i] as number
    const count = waits.filter((w) => w.ready <= from && w.start >= to).length
    return count === 0 ? [] : [{ from, to, count }]
  })
}
