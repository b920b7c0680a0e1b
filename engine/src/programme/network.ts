import { cycleIn } from '../model/index.ts'
import type { Activities, Activity, Link, LinkType } from './activity.ts'
import { ALWAYS, addWork, type Calendar, intersectionOf, startAt, subtractWork, unbrokenFrom } from './calendar.ts'
import type { SetUp, SetUpInput } from './setUps.ts'

export const FS = 0
export const SS = 1
export const FF = 2
export const SF = 3
const TYPES: Readonly<Record<LinkType, number>> = { FS, SS, FF, SF }

/** Links of every activity, laid end to end: those of i are first[i] up to first[i + 1]. */
export interface Links {
  first: Int32Array
  other: Int32Array
  type: Uint8Array
  lag: Float64Array
  calendar: readonly (Calendar | undefined)[]
}

/** Needs of every activity, laid end to end. */
export interface Needs {
  first: Int32Array
  resource: Int32Array
  amount: Float64Array
}

/** The activities as numbers: what the passes, the plan, the search and the simulation all walk over. */
export interface Network {
  ids: readonly string[]
  index: ReadonlyMap<string, number>
  work: Float64Array
  /** The activity's own calendar within those of its resources. */
  calendar: readonly Calendar[]
  /** 1: not interruptible. */
  unbroken: Uint8Array
  notBefore: Float64Array
  finishBy: Float64Array
  before: Links
  after: Links
  /** Predecessors first. */
  order: Int32Array
  resources: readonly string[]
  capacity: Float64Array
  needs: Needs
  /** By resource, where its work comes in kinds between which it is set up. */
  setUps: readonly (SetUp | undefined)[]
  /** The activity whose finish matters most; −1 when the last one to finish does. */
  restart: number
}

export interface NetworkInput {
  activities: Activities
  calendars: ReadonlyMap<string, Calendar>
  resources: Readonly<Record<string, { capacity: number; calendar?: string | undefined }>>
  restart?: string | undefined
  /** By resource. */
  setUps?: Readonly<Record<string, SetUpInput>> | undefined
}

export type NetworkResult =
  | { network: Network; circle?: undefined }
  | { network?: undefined; circle: readonly string[] }

/**
 * The network of the activities, or the activities of the shortest circle of predecessors, each before the next. Links to
 * unknown activities are left out.
 */
export function networkOf({ activities, calendars, resources, restart, setUps }: NetworkInput): NetworkResult {
  const all = Object.values(activities)
  const index = new Map(all.map(({ id }, i) => [id, i]))
  const resourceIds = Object.keys(resources)
  const before = linksOf(all, index, calendars)
  const after = reversed(before)
  const order = topological(before, after)
  if (order.length < all.length) return { circle: circleIn(all) }
  const effective = calendarFinder(calendars, resources)
  const calendar = all.map(effective)
  return {
    network: {
      ids: all.map(({ id }) => id),
      index,
      work: Float64Array.from(all, ({ work }) => work[1]),
      calendar,
      unbroken: Uint8Array.from(all, ({ interruptible }) => Number(!interruptible)),
      notBefore: Float64Array.from(all, (a, i) => notBeforeOf(a, calendar[i] as Calendar)),
      finishBy: Float64Array.from(all, (a, i) => finishByOf(a, calendar[i] as Calendar)),
      before,
      after,
      order,
      resources: resourceIds,
      capacity: Float64Array.from(resourceIds, (id) => resources[id]?.capacity ?? 0),
      needs: needsOf(all, resourceIds),
      setUps: resourceIds.map((id) => setUpOf(all, setUps?.[id])),
      restart: restart === undefined ? -1 : (index.get(restart) ?? -1),
    },
  }
}

/** One that may not finish before a date starts so late that its planned duration ends there. */
const notBeforeOf = ({ notBefore = 0, finishNotBefore, work }: Activity, calendar: Calendar): number =>
  finishNotBefore === undefined ? notBefore : Math.max(notBefore, subtractWork(calendar, finishNotBefore, work[1]))

/** One that must have started by a date must, at its planned duration, be done so much later. */
const finishByOf = ({ finishBy = Number.POSITIVE_INFINITY, startBy, work }: Activity, calendar: Calendar): number =>
  startBy === undefined ? finishBy : Math.min(finishBy, addWork(calendar, startBy, work[1]))

/** The same network with other durations, such as those of one run. */
export const withWork = (network: Network, work: Float64Array): Network => ({ ...network, work })

function calendarFinder(calendars: ReadonlyMap<string, Calendar>, resources: NetworkInput['resources']) {
  const known = new Map<string, Calendar>()
  return ({ calendar, needs, within = [] }: Activity): Calendar => {
    const names = [calendar, ...within, ...Object.keys(needs).map((r) => resources[r]?.calendar ?? '')].filter(
      (n) => n !== '',
    )
    const key = [...new Set(names)].sort().join(' ')
    const found = known.get(key) ?? intersectionOf(names.map((name) => calendars.get(name) ?? ALWAYS))
    known.set(key, found)
    return found
  }
}

function linksOf(
  all: readonly Activity[],
  index: ReadonlyMap<string, number>,
  calendars: ReadonlyMap<string, Calendar>,
): Links {
  const kept = all.map(({ after }) => after.filter((link) => index.has(link.to)))
  const flat: Link[] = kept.flat()
  return {
    first: offsets(kept.map((links) => links.length)),
    other: Int32Array.from(flat, (link) => index.get(link.to) as number),
    type: Uint8Array.from(flat, (link) => TYPES[link.type]),
    lag: Float64Array.from(flat, (link) => link.lag),
    calendar: flat.map((link) => (link.calendar === undefined ? undefined : calendars.get(link.calendar))),
  }
}

export function offsets(counts: readonly number[]): Int32Array {
  const first = new Int32Array(counts.length + 1)
  counts.forEach((count, i) => {
    first[i + 1] = (first[i] as number) + count
  })
  return first
}

/** The same links seen from the other end. */
export function reversed(links: Links): Links {
  const n = links.first.length - 1
  const counts = new Array<number>(n).fill(0)
  for (const other of links.other) counts[other] = (counts[other] as number) + 1
  const first = offsets(counts)
  const next = first.slice()
  const other = new Int32Array(links.other.length)
  const type = new Uint8Array(links.other.length)
  const lag = new Float64Array(links.other.length)
  const calendar = new Array<Calendar | undefined>(links.other.length)
  for (let i = 0; i < n; i++) {
    for (let k = links.first[i] as number; k < (links.first[i + 1] as number); k++) {
      const at = next[links.other[k] as number] as number
      next[links.other[k] as number] = at + 1
      other[at] = i
      type[at] = links.type[k] as number
      lag[at] = links.lag[k] as number
      calendar[at] = links.calendar[k]
    }
  }
  return { first, other, type, lag, calendar }
}

function needsOf(all: readonly Activity[], resources: readonly string[]): Needs {
  const place = new Map(resources.map((id, i) => [id, i]))
  const kept = all.map(({ needs }) => Object.entries(needs).filter(([id, amount]) => place.has(id) && amount > 0))
  const flat = kept.flat()
  return {
    first: offsets(kept.map((needs) => needs.length)),
    resource: Int32Array.from(flat, ([id]) => place.get(id) as number),
    amount: Float64Array.from(flat, ([, amount]) => amount),
  }
}

const setUpOf = (all: readonly Activity[], given: SetUpInput | undefined): SetUp | undefined =>
  given === undefined ? undefined : { kind: Int32Array.from(all, ({ id }) => given.kindOf[id] ?? -1), time: given.time }

/** Activities, predecessors first, in the order they stand where they may; short when there is a circle. */
export function topological(before: Links, after: Links): Int32Array {
  const n = before.first.length - 1
  const waiting = Int32Array.from(
    { length: n },
    (_, i) => (before.first[i + 1] as number) - (before.first[i] as number),
  )
  const order: number[] = []
  for (let i = 0; i < n; i++) if (waiting[i] === 0) order.push(i)
  for (let at = 0; at < order.length; at++) {
    const i = order[at] as number
    for (let k = after.first[i] as number; k < (after.first[i + 1] as number); k++) {
      const j = after.other[k] as number
      waiting[j] = (waiting[j] as number) - 1
      if (waiting[j] === 0) order.push(j)
    }
  }
  return Int32Array.from(order)
}

/** The shortest circle, each before the next. */
function circleIn(all: readonly Activity[]): string[] {
  const [circle = []] = cycleIn(Object.fromEntries(all.map(({ id, after }) => [id, after.map(({ to }) => to)])))
  return circle.reverse()
}

/** A time moved on by a lag. */
export function lagged(time: number, lag: number, calendar: Calendar | undefined): number {
  if (lag === 0) return time
  if (calendar === undefined) return time + lag
  return lag > 0 ? addWork(calendar, time, lag) : subtractWork(calendar, time, -lag)
}

/**
 * Whether an activity is placed in one piece: it may not be interrupted, and a stretch of its calendar is long enough. One
 * that fits no stretch is planned with its breaks, so that the rest can be read, and its check fails.
 */
export const inOnePiece = (network: Network, i: number): boolean =>
  network.unbroken[i] === 1 && (network.work[i] as number) <= (network.calendar[i] as Calendar).longest

/** Finish of an activity that starts at a working instant. */
export function finishOf(network: Network, i: number, start: number): number {
  const work = network.work[i] as number
  return inOnePiece(network, i) ? start + work : addWork(network.calendar[i] as Calendar, start, work)
}

/** Earliest start from a bound on the start and one on the finish, on the activity's calendar. */
export function earliestStart(network: Network, i: number, startBound: number, finishBound: number): number {
  const work = network.work[i] as number
  if (work <= 0) return Math.max(startBound, finishBound)
  const calendar = network.calendar[i] as Calendar
  if (inOnePiece(network, i)) return unbrokenFrom(calendar, Math.max(startBound, finishBound - work), work)
  if (finishBound === Number.NEGATIVE_INFINITY) return startAt(calendar, startBound)
  return startAt(calendar, Math.max(startBound, subtractWork(calendar, finishBound, work)))
}

/** Bounds that the predecessors' dates put on the start and on the finish of an activity. */
export function boundsFrom(
  network: Network,
  i: number,
  start: Float64Array,
  finish: Float64Array,
): { start: number; finish: number } {
  const { first, other, type, lag, calendar } = network.before
  let startBound = network.notBefore[i] as number
  let finishBound = Number.NEGATIVE_INFINITY
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const p = other[k] as number
    const kind = type[k] as number
    const from = (kind === FS || kind === FF ? finish[p] : start[p]) as number
    const bound = lagged(from, lag[k] as number, calendar[k])
    if (kind === FS || kind === SS) startBound = Math.max(startBound, bound)
    else finishBound = Math.max(finishBound, bound)
  }
  return { start: startBound, finish: finishBound }
}
