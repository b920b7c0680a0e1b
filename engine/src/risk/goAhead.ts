import { type Calendar, type Network, unbrokenFrom } from '../programme/index.ts'
import type { WindSeries } from './wind.ts'

/** Wind on one run: limit levels of each activity that waits for it (−1: none), and the weather. */
export interface WindOnLifts {
  /** Row of the levels, by activity. */
  row: Int32Array
  levels: readonly Float64Array[]
  /** Place in a row, by elapsed hour. */
  places: Uint16Array
  series: WindSeries
  policy: GoPolicy | undefined
}

/** How a lift is let go on a forecast; without one, the wind of the whole lift is known when it starts. */
export interface GoPolicy {
  /** The forecast holds for so many seconds. */
  sees: number
  /** Levels of the wind that a start allows, in the rows of the limits. */
  levels: readonly Float64Array[]
  /** Lost with a false start beside the time it hung, s. */
  again: number
  /** From the load being taken to the point of no return, by activity, as a share of its time; 0: once lifted it goes on. */
  noReturn: Float64Array
}

/** What the wind made of one lift. */
export interface GoAhead {
  begin: number
  held: number
  falseStarts: number
}

const HOUR = 3600
/** A lift that finds no window in this time is counted as never finding one. */
export const LONGEST_WAIT = 2 * 365 * 86_400

/**
 * When a lift goes. False when it finds no window.
 *
 * Known wind: the first stretch of its calendar that is calm from start to end. On a forecast: it starts when the wind is
 * below the share that a start asks for and no hour in sight is above the limit. What comes into sight before the point of no
 * return sets it back: a false start. What comes after holds it in the air, hour by hour, until the wind has gone.
 */
export function waitForWind(network: Network, i: number, from: number, wind: WindOnLifts, out: GoAhead): boolean {
  out.held = 0
  out.falseStarts = 0
  return wind.policy === undefined
    ? knownWind(network, i, from, wind, out)
    : onForecast(network, i, from, wind, wind.policy, out)
}

function knownWind(network: Network, i: number, from: number, wind: WindOnLifts, out: GoAhead): boolean {
  const levels = wind.levels[wind.row[i] as number] as Float64Array
  const duration = network.work[i] as number
  let begin = from
  while (begin - from < LONGEST_WAIT) {
    const windy = lastWindyHour(begin, begin + duration, levels, wind)
    if (windy < 0) {
      out.begin = begin
      return true
    }
    begin = unbrokenFrom(network.calendar[i] as Calendar, (windy + 1) * HOUR, duration)
  }
  return false
}

function onForecast(
  network: Network,
  i: number,
  from: number,
  wind: WindOnLifts,
  { sees, levels: atStart, again, noReturn }: GoPolicy,
  out: GoAhead,
): boolean {
  const row = wind.row[i] as number
  const levels = wind.levels[row] as Float64Array
  const calendar = network.calendar[i] as Calendar
  const duration = network.work[i] as number
  let begin = from
  while (begin - from < LONGEST_WAIT) {
    const windy = firstWindyHour(begin, begin + 1, atStart[row] as Float64Array, wind)
    const bad = windy >= 0 ? windy : firstWindyHour(begin, begin + duration, levels, wind)
    const seen = bad * HOUR - sees
    if (bad >= 0 && (windy >= 0 || seen <= begin)) {
      begin = unbrokenFrom(calendar, (bad + 1) * HOUR, duration)
      continue
    }
    if (bad >= 0 && seen < begin + (noReturn[i] as number) * duration) {
      // set back as far as it had come, unrigged, rigged again; and the wind has to pass
      out.falseStarts++
      begin = unbrokenFrom(calendar, Math.max(2 * seen - begin + again, (bad + 1) * HOUR), duration)
      continue
    }
    out.begin = begin
    out.held = bad < 0 ? 0 : heldFrom(bad, begin + duration, levels, wind)
    return true
  }
  return false
}

/** Hours held in the air: each windy hour on the way puts the end off by one. */
function heldFrom(bad: number, end: number, levels: Float64Array, wind: WindOnLifts): number {
  let held = 0
  for (let h = bad; h * HOUR < end + held && held < LONGEST_WAIT; h++) if (windyAt(h, levels, wind)) held += HOUR
  return held
}

function windyAt(h: number, levels: Float64Array, { places, series }: WindOnLifts): boolean {
  return series.level(h) > (levels[places[Math.min(h, places.length - 1)] as number] as number)
}

function lastWindyHour(from: number, to: number, levels: Float64Array, wind: WindOnLifts): number {
  const first = Math.floor(from / HOUR)
  for (let h = Math.ceil(to / HOUR) - 1; h >= first; h--) if (windyAt(h, levels, wind)) return h
  return -1
}

function firstWindyHour(from: number, to: number, levels: Float64Array, wind: WindOnLifts): number {
  const end = Math.ceil(to / HOUR)
  for (let h = Math.floor(from / HOUR); h < end; h++) if (windyAt(h, levels, wind)) return h
  return -1
}
