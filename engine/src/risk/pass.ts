import { earliestStart, FF, FS, finishOf, inOnePiece, lagged, type Network, SS } from '../programme/index.ts'
import { type GoAhead, type WindOnLifts, waitForWind } from './goAhead.ts'

/** Dates of one run, and what made them so. */
export interface RunDates {
  start: Float64Array
  finish: Float64Array
  /** When the last of what it waits for was done. */
  ready: Float64Array
  /** The link that binds start or finish; −1 when none does. */
  binds: Int32Array
  /** 1: it binds the finish. */
  atFinish: Uint8Array
  /** Waiting for wind before the start, false starts in it. */
  waited: Float64Array
  /** Held in the air for wind, past the point of no return. */
  held: Float64Array
  /** 1: in this or an earlier run it found no window. */
  stuck: Uint8Array
  /** False starts of all activities in this run. */
  falseStarts: number
}

export const emptyRun = (n: number): RunDates => ({
  start: new Float64Array(n),
  finish: new Float64Array(n),
  ready: new Float64Array(n),
  binds: new Int32Array(n),
  atFinish: new Uint8Array(n),
  waited: new Float64Array(n),
  held: new Float64Array(n),
  stuck: new Uint8Array(n),
  falseStarts: 0,
})

/**
 * One run on the network with the plan's hand-overs as links: every activity at its earliest, delays after its finish, lifts
 * when the wind lets them. Nobody knows a duration before it is over, so nothing is shifted to fill gaps. A lift that finds
 * no window goes without one and is marked.
 */
export function runOnce(network: Network, delay: Float64Array, wind: WindOnLifts | undefined, dates: RunDates): void {
  const { first, other, type, lag, calendar } = network.before
  const { start, finish, ready, binds, atFinish, waited, held } = dates
  const { order, notBefore, work } = network
  const go: GoAhead = { begin: 0, held: 0, falseStarts: 0 }
  dates.falseStarts = 0
  for (let at = 0; at < order.length; at++) {
    const i = order[at] as number
    let startBound = notBefore[i] as number
    let finishBound = Number.NEGATIVE_INFINITY
    let startLink = -1
    let finishLink = -1
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
    ready[i] = startBound
    if (finishLink < 0 && (work[i] as number) <= 0 && !(wind !== undefined && (wind.row[i] as number) >= 0)) {
      // what takes no time starts and ends there, on no calendar
      start[i] = startBound
      finish[i] = startBound + (delay[i] as number)
      waited[i] = 0
      held[i] = 0
      binds[i] = startLink
      atFinish[i] = 0
      continue
    }
    const begin = earliestStart(network, i, startBound, finishBound)
    const late = finishLink >= 0 && begin > earliestStart(network, i, startBound, Number.NEGATIVE_INFINITY)
    binds[i] = late ? finishLink : startLink
    atFinish[i] = Number(late)
    place(network, i, begin, wind, go, dates)
    finish[i] = (finish[i] as number) + (delay[i] as number)
  }
}

/** Places an activity at its earliest, or when the wind lets it go. */
export function place(
  network: Network,
  i: number,
  begin: number,
  wind: WindOnLifts | undefined,
  go: GoAhead,
  dates: RunDates,
): void {
  const { start, finish, waited, held, stuck } = dates
  start[i] = begin
  waited[i] = 0
  held[i] = 0
  if (wind !== undefined && (wind.row[i] as number) >= 0 && inOnePiece(network, i)) {
    if (waitForWind(network, i, begin, wind, go)) {
      start[i] = go.begin
      waited[i] = go.begin - begin
      held[i] = go.held
    } else stuck[i] = 1
    dates.falseStarts += go.falseStarts
  }
  finish[i] = finishOf(network, i, start[i] as number) + (held[i] as number)
}
