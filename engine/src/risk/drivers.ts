import { FF, FS, type Network } from '../programme/index.ts'
import type { RunDates } from './pass.ts'

/**
 * Where the spread of the restart comes from. In each run the restart differs from the plan by a sum along its driving path:
 * how much longer each activity took than planned, delays of events, waits for wind; the rest is nights and weekends in
 * between, and what float the path had used up before it drove. The share of a source is the covariance of its part with the
 * whole, over the variance of the whole; shares add up to one. A source that matters on some paths only may get less than
 * none: when it does not drive, something longer does.
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
  /** From start to finish in the plan, by activity. */
  planned: Float64Array
}

/** Adds one run: its path traced back from the target, against the planned restart. */
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
  add(parts.length - 1, whole - touched.reduce((sum, source) => sum + (parts[source] as number), 0))
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
  { network, dates, target, strikesOn, byStrike, planned }: Traced,
  add: (source: number, value: number) => void,
  onPath: Uint32Array,
): void {
  const n = network.ids.length
  const { start, finish, waited, binds, atFinish } = dates
  let i = target
  let fromFinish = true
  for (;;) {
    onPath[i] = (onPath[i] as number) + 1
    const link = binds[i] as number
    const finishBinds = link >= 0 && atFinish[i] === 1
    if (fromFinish) {
      let struck = 0
      for (const s of strikesOn[i] as readonly number[]) {
        add(n + s, byStrike[s] as number)
        struck += byStrike[s] as number
      }
      if (!finishBinds) add(i, (finish[i] as number) - struck - (start[i] as number) - (planned[i] as number))
    }
    if (!finishBinds) add(n + byStrike.length + i, waited[i] as number)
    if (link < 0) return
    const kind = network.before.type[link] as number
    fromFinish = kind === FS || kind === FF
    i = network.before.other[link] as number
  }
}

/** Shares of the variance by source; zero everywhere when nothing varies. */
export function shares({ sum, product, total, square, runs }: Attribution): Float64Array {
  const variance = square / runs - (total / runs) ** 2
  return product.map((p, s) =>
    variance <= 0 ? 0 : (p / runs - ((sum[s] as number) / runs) * (total / runs)) / variance,
  )
}
