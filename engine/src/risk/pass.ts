import {
  type Calendar,
  earliestStart,
  FF,
  FS,
  finishOf,
  inOnePiece,
  lagged,
  type Network,
  SS,
  unbrokenFrom,
} from '../programme/index.ts'
import type { WindSeries } from './wind.ts'

/** Wind on one run: limit levels of each activity that waits for it (−1: none), and the weather. */
export interface WindOnLifts {
  /** Row of the levels, by activity. */
  row: Int32Array
  levels: readonly Float64Array[]
  /** Place in a row, by elapsed hour. */
  places: Uint16Array
  series: WindSeries
}

/** Dates of one run, and what made them so. */
export interface RunDates {
  start: Float64Array
  finish: Float64Array
  /** The link that binds start or finish; −1 when none does. */
  binds: Int32Array
  /** 1: it binds the finish. */
  atFinish: Uint8Array
  /** Waiting for wind. */
  waited: Float64Array
  /** 1: in this or an earlier run it found no window. */
  stuck: Uint8Array
}

const HOUR = 3600
/** A lift that finds no window in this time is counted as never finding one. */
export const LONGEST_WAIT = 2 * 365 * 86_400

export const emptyRun = (n: number): RunDates => ({
  start: new Float64Array(n),
  finish: new Float64Array(n),
  binds: new Int32Array(n),
  atFinish: new Uint8Array(n),
  waited: new Float64Array(n),
  stuck: new Uint8Array(n),
})

/**
 * One run on the network with the plan's hand-overs as links: every activity at its earliest, delays after its finish, lifts
 * when the wind lets them. Nobody knows a duration before it is over, so nothing is shifted to fill gaps. A lift that finds
 * no window goes without one and is marked.
 */
export function runOnce(network: Network, delay: Float64Array, wind: WindOnLifts | undefined, dates: RunDates): void {
  const { first, other, type, lag, calendar } = network.before
  const { start, finish, binds, atFinish, waited, stuck } = dates
  for (let at = 0; at < network.order.length; at++) {
    const i = network.order[at] as number
    let startBound = network.notBefore[i] as number
    let finishBound = Number.NEGATIVE_INFINITY
    let [startLink, finishLink] = [-1, -1]
    for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
      const p = other[k] as number
      const kind = type[k] as number
      let bound = (kind === FS || kind === FF ? finish[p] : start[p]) as number
      if (lag[k] !== 0) bound = lagged(bound, lag[k] as number, calendar[k])
      if (kind === FS || kind === SS) {
        if (bound >= startBound) {
          startBound = bound
          startLink = k
        }
      } else if (bound > finishBound) {
        finishBound = bound
        finishLink = k
      }
    }
    let begin = earliestStart(network, i, startBound, finishBound)
    const late = finishLink >= 0 && begin > earliestStart(network, i, startBound, Number.NEGATIVE_INFINITY)
    binds[i] = late ? finishLink : startLink
    atFinish[i] = Number(late)
    waited[i] = 0
    if (wind !== undefined && (wind.row[i] as number) >= 0 && inOnePiece(network, i)) {
      const calm = calmFrom(network, i, begin, wind)
      if (calm === undefined) stuck[i] = 1
      else {
        waited[i] = calm - begin
        begin = calm
      }
    }
    start[i] = begin
    finish[i] = finishOf(network, i, begin) + (delay[i] as number)
  }
}

/** Earliest start at or after a time with calm for the whole of a lift, inside one stretch of its calendar. */
function calmFrom(network: Network, i: number, from: number, wind: WindOnLifts): number | undefined {
  const levels = wind.levels[wind.row[i] as number] as Float64Array
  const duration = network.work[i] as number
  let begin = from
  while (begin - from < LONGEST_WAIT) {
    const windy = lastWindyHour(begin, begin + duration, levels, wind)
    if (windy < 0) return begin
    begin = unbrokenFrom(network.calendar[i] as Calendar, (windy + 1) * HOUR, duration)
  }
  return undefined
}

function lastWindyHour(from: number, to: number, levels: Float64Array, { places, series }: WindOnLifts): number {
  const first = Math.floor(from / HOUR)
  for (let h = Math.ceil(to / HOUR) - 1; h >= first; h--) {
    if (series.level(h) > (levels[places[Math.min(h, places.length - 1)] as number] as number)) return h
  }
  return -1
}
