import { type Calendar, subtractWork, unbrokenUntil, workAt } from './calendar.ts'
import { boundsFrom, earliestStart, FF, FS, finishOf, inOnePiece, lagged, type Network, SF, SS } from './network.ts'

/** Starts and finishes of all activities, by their place in the network. */
export interface Dates {
  start: Float64Array
  finish: Float64Array
}

/** Earliest dates without resources. */
export function earlyDates(network: Network): Dates {
  const n = network.ids.length
  const dates = { start: new Float64Array(n), finish: new Float64Array(n) }
  for (const i of network.order) {
    const bound = boundsFrom(network, i, dates.start, dates.finish)
    dates.start[i] = earliestStart(network, i, bound.start, bound.finish)
    dates.finish[i] = finishOf(network, i, dates.start[i] as number)
  }
  return dates
}

/** When the programme ends and, for the restart, when it should: the finish it has. */
export function finishes(network: Network, { finish }: Dates): { end: number; restart: number } {
  const end = finish.reduce((latest, f) => Math.max(latest, f), 0)
  return { end, restart: network.restart < 0 ? end : (finish[network.restart] as number) }
}

/** Latest dates that keep the restart and the end, and every promised date. */
export function lateDates(network: Network, restart: number, end: number): Dates {
  const n = network.ids.length
  const dates = { start: new Float64Array(n), finish: new Float64Array(n) }
  for (let at = n - 1; at >= 0; at--) {
    const i = network.order[at] as number
    const bound = lateBounds(network, i, dates)
    const finish = Math.min(bound.finish, end, i === network.restart ? restart : end, network.finishBy[i] as number)
    const start = Math.min(latestStart(network, i, finish), bound.start)
    dates.start[i] = start
    dates.finish[i] = bound.start < latestStart(network, i, finish) ? finishOf(network, i, start) : finish
  }
  return dates
}

/** Bounds that the successors' dates put on the start and on the finish of an activity. */
export function lateBounds(network: Network, i: number, { start, finish }: Dates): { start: number; finish: number } {
  const { first, other, type, lag, calendar } = network.after
  let startBound = Number.POSITIVE_INFINITY
  let finishBound = Number.POSITIVE_INFINITY
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const s = other[k] as number
    const kind = type[k] as number
    const to = (kind === FS || kind === SS ? start[s] : finish[s]) as number
    const bound = lagged(to, -(lag[k] as number), calendar[k])
    if (kind === FS || kind === FF) finishBound = Math.min(finishBound, bound)
    else startBound = Math.min(startBound, bound)
  }
  return { start: startBound, finish: finishBound }
}

/** Latest start of an activity that is done by a time. */
export function latestStart(network: Network, i: number, finish: number): number {
  const work = network.work[i] as number
  const calendar = network.calendar[i] as Calendar
  return inOnePiece(network, i) ? unbrokenUntil(calendar, finish, work) : subtractWork(calendar, finish, work)
}

/** Total float in the activity's own working time; a milestone's in elapsed time. */
export function totalFloat(network: Network, i: number, early: number, late: number): number {
  if ((network.work[i] as number) <= 0) return late - early
  const calendar = network.calendar[i] as Calendar
  return workAt(calendar, late) - workAt(calendar, early)
}

/** What an activity can slip without moving any successor's early dates, in its own working time. */
export function freeFloat(network: Network, i: number, early: Dates, end: number): number {
  const bound = lateBounds(network, i, early)
  const finish = Math.min(bound.finish, end)
  const start = Math.min(latestStart(network, i, finish), bound.start)
  return Math.max(0, totalFloat(network, i, early.start[i] as number, start))
}

/**
 * What an activity can slip when its predecessors come as late and its successors as early as they may, in its own working
 * time; nought when there is not even room for it.
 */
export function independentFloat(network: Network, i: number, early: Dates, late: Dates, end: number): number {
  const behind = boundsFrom(network, i, late.start, late.finish)
  const ahead = lateBounds(network, i, early)
  const start = earliestStart(network, i, behind.start, behind.finish)
  const latest = Math.min(latestStart(network, i, Math.min(ahead.finish, end)), ahead.start)
  return Math.max(0, totalFloat(network, i, start, latest))
}

/** A second: below it two instants are one, whatever the last bits say. */
export const INSTANT = 1e-3

/** Predecessors whose link leaves no room: what drives an activity's date. */
export function drivers(network: Network, i: number, dates: Dates): number[] {
  const { first, other, type, lag, calendar } = network.before
  const driving: number[] = []
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const p = other[k] as number
    const kind = type[k] as number
    const from = (kind === FS || kind === FF ? dates.finish[p] : dates.start[p]) as number
    const bound = lagged(from, lag[k] as number, calendar[k])
    const start = kind === FS || kind === SS ? bound : Number.NEGATIVE_INFINITY
    const finish = kind === FF || kind === SF ? bound : Number.NEGATIVE_INFINITY
    if (earliestStart(network, i, start, finish) >= (dates.start[i] as number) - INSTANT) driving.push(p)
  }
  return driving
}

/** Activities on the longest path to a target: tight links traced back from it, not zero float. */
export function longestPath(network: Network, dates: Dates, target: number): Set<number> {
  const found = new Set<number>([target])
  const open = [target]
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    for (const p of drivers(network, i, dates)) {
      if (!found.has(p)) {
        found.add(p)
        open.push(p)
      }
    }
  }
  return found
}

/** The restart; without one, the activity that finishes last. */
export function targetOf(network: Network, { finish }: Dates): number {
  if (network.restart >= 0) return network.restart
  return finish.reduce((best, f, i) => (f > (finish[best] as number) ? i : best), 0)
}
