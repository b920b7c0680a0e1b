import { FF, FS } from '../programme/index.ts'
import type { RunDates } from './pass.ts'
import type { Prepared } from './prepare.ts'
import type { Draw } from './simulation.ts'

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

/** Sources in this order: durations by activity, events by strike, wind by activity, extras, shifts. */
export function emptyAttribution(activities: number, strikes: number, extras: number): Attribution {
  const sources = 2 * activities + strikes + extras + 1
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

/** Adds one run: its path traced back from the target, against the planned restart. */
export function attribute(into: Attribution, prepared: Prepared, drawn: Draw, dates: RunDates): void {
  const { parts, onPath } = into
  const touched: number[] = []
  const add = (source: number, value: number): void => {
    if (value === 0) return
    if (parts[source] === 0) touched.push(source)
    parts[source] = (parts[source] as number) + value
  }
  trace(prepared, drawn, dates, add, onPath)
  const whole = (dates.finish[prepared.target] as number) - prepared.planned.restart
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

type Add = (source: number, value: number) => void

function trace(prepared: Prepared, drawn: Draw, dates: RunDates, add: Add, onPath: Uint32Array): void {
  const { network, target, strikes } = prepared
  const windFirst = network.ids.length + strikes.length
  let i = target
  let fromFinish = true
  for (;;) {
    onPath[i] = (onPath[i] as number) + 1
    const link = dates.binds[i] as number
    const finishBinds = link >= 0 && dates.atFinish[i] === 1
    if (fromFinish) lasted(prepared, drawn, dates, i, finishBinds, add)
    if (!finishBinds) add(windFirst + i, dates.waited[i] as number)
    if (link < 0) return
    const kind = network.before.type[link] as number
    fromFinish = kind === FS || kind === FF
    i = network.before.other[link] as number
  }
}

/** From start to finish of an activity on the path: events, the hold in the air, extras, and what its own duration adds. */
function lasted(
  { network, strikes, strikesOn, extrasOn, planned }: Prepared,
  { byStrike, extra, work }: Draw,
  { start, finish, held }: RunDates,
  i: number,
  finishBinds: boolean,
  add: Add,
): void {
  const n = network.ids.length
  let late = 0
  for (const s of strikesOn[i] as readonly number[]) {
    add(n + s, byStrike[s] as number)
    late += byStrike[s] as number
  }
  if (finishBinds) return
  const windFirst = n + strikes.length
  add(windFirst + i, held[i] as number)
  const worked = (finish[i] as number) - late - (held[i] as number) - (start[i] as number)
  // extras are working time: on the clock they take as much more as the activity does
  const clock = (work[i] as number) > 0 ? worked / (work[i] as number) : 0
  let more = 0
  for (const x of extrasOn[i] as readonly number[]) {
    const part = (extra[x] as number) * clock
    add(windFirst + n + x, part)
    more += part
  }
  add(i, worked - more - (planned.lasts[i] as number))
}

/** Shares of the variance by source; zero everywhere when nothing varies. */
export function shares({ sum, product, total, square, runs }: Attribution): Float64Array {
  const variance = square / runs - (total / runs) ** 2
  return product.map((p, s) =>
    variance <= 0 ? 0 : (p / runs - ((sum[s] as number) / runs) * (total / runs)) / variance,
  )
}
