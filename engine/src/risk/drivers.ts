import { FF, FS, type Network } from '../programme/index.ts'
import type { RunDates } from './pass.ts'

/**
 * Where the spread of the restart comes from. In each run the restart is a sum along its driving path: durations, delays of
 * events, waits for wind, and waits for the next shift. The share of a source is the covariance of its part with the whole,
 * over the variance of the whole; shares add up to one.
 */
export interface Attribution {
  sum: Float64Array
  product: Float64Array
  /** Runs in which each activity was on the driving path. */
  onPath: Uint32Array
  parts: Float64Array
  total: number
  square: number
  runs: number
}

/** Sources in this order: durations by activity, events by strike, wind by activity, shifts. */
export function emptyAttribution(activities: number, strikes: number): Attribution {
  const sources = 2 * activities + strikes + 1
  return {
    sum: new Float64Array(sources),
    product: new Float64Array(sources),
    onPath: new Uint32Array(activities),
    parts: new Float64Array(sources),
    total: 0,
    square: 0,
    runs: 0,
  }
}

export interface Traced {
  network: Network
  dates: RunDates
  target: number
  /** Strikes on each activity, and the delay of each strike in this run. */
  strikesOn: readonly (readonly number[])[]
  byStrike: Float64Array
}

/** Adds one run: its path traced back from the target. `origin` is taken off the restart, to keep the figures small. */
export function attribute(into: Attribution, traced: Traced, origin: number): void {
  const { parts, onPath } = into
  const touched: number[] = []
  const add = (source: number, value: number): void => {
    if (value === 0) return
    if (parts[source] === 0) touched.push(source)
    parts[source] = (parts[source] as number) + value
  }
  trace(traced, add, onPath)
  const whole = (traced.dates.finish[traced.target] as number) - origin
  for (const source of touched) {
    const part = parts[source] as number
    into.sum[source] = (into.sum[source] as number) + part
    into.product[source] = (into.product[source] as number) + part * whole
    parts[source] = 0
  }
  into.total += whole
  into.square += whole * whole
  into.runs++
}

function trace(
  { network, dates, target, strikesOn, byStrike }: Traced,
  add: (source: number, value: number) => void,
  onPath: Uint32Array,
): void {
  const n = network.ids.length
  const strikes = byStrike.length
  const { start, finish, waited, binds, atFinish } = dates
  const shifts = 2 * n + strikes
  let i = target
  let fromFinish = true
  for (;;) {
    onPath[i] = (onPath[i] as number) + 1
    const link = binds[i] as number
    let at = (fromFinish ? finish[i] : start[i]) as number
    if (fromFinish) {
      for (const s of strikesOn[i] as readonly number[]) {
        add(n + s, byStrike[s] as number)
        at -= byStrike[s] as number
      }
    }
    const finishBinds = link >= 0 && atFinish[i] === 1
    if (fromFinish && !finishBinds) {
      add(i, at - (start[i] as number))
      at = start[i] as number
    }
    if (!finishBinds) {
      add(n + strikes + i, waited[i] as number)
      at -= waited[i] as number
    }
    if (link < 0) {
      add(shifts, at)
      return
    }
    const p = network.before.other[link] as number
    const kind = network.before.type[link] as number
    fromFinish = kind === FS || kind === FF
    // what is left between the predecessor and here: lags, nights, weekends
    add(shifts, at - ((fromFinish ? finish[p] : start[p]) as number))
    i = p
  }
}

/** Shares of the variance by source; zero everywhere when nothing varies. */
export function shares({ sum, product, total, square, runs }: Attribution): Float64Array {
  const variance = square / runs - (total / runs) ** 2
  return product.map((p, s) =>
    variance <= 0 ? 0 : (p / runs - ((sum[s] as number) / runs) * (total / runs)) / variance,
  )
}
