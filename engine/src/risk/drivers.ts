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
  /** Sources of the run at hand, and how many they are. */
  touched: Int32Array
  count: number
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
    touched: new Int32Array(sources),
    count: 0,
    total: 0,
    square: 0,
    runs: 0,
  }
}

/** Adds one run: its path traced back from the target, against the planned restart. */
export function attribute(into: Attribution, prepared: Prepared, drawn: Draw, dates: RunDates): void {
  const { parts, touched, sum, product } = into
  into.count = 0
  trace(prepared, drawn, dates, into)
  const whole = (dates.finish[prepared.target] as number) - prepared.planned.restart
  let named = 0
  for (let t = 0; t < into.count; t++) named += parts[touched[t] as number] as number
  add(into, parts.length - 1, whole - named)
  for (let t = 0; t < into.count; t++) {
    const source = touched[t] as number
    const part = parts[source] as number
    sum[source] = (sum[source] as number) + part
    product[source] = (product[source] as number) + part * whole
    parts[source] = 0
  }
  into.total += whole
  into.square += whole * whole
  into.runs++
}

function add(into: Attribution, source: number, value: number): void {
  if (value === 0) return
  const { parts, touched } = into
  if (parts[source] === 0) touched[into.count++] = source
  parts[source] = (parts[source] as number) + value
}

function trace(prepared: Prepared, drawn: Draw, dates: RunDates, into: Attribution): void {
  const { network, binding, target, strikes } = prepared
  const windFirst = network.ids.length + strikes.length
  let i = target
  let fromFinish = true
  for (;;) {
    into.onPath[i] = (into.onPath[i] as number) + 1
    const link = dates.binds[i] as number
    const finishBinds = link >= 0 && dates.atFinish[i] === 1
    if (fromFinish) lasted(prepared, drawn, dates, i, finishBinds, into)
    if (!finishBinds) add(into, windFirst + i, dates.waited[i] as number)
    if (link < 0) return
    const kind = binding.type[link] as number
    fromFinish = kind === FS || kind === FF
    i = binding.other[link] as number
  }
}

/** From start to finish of an activity on the path: events, the hold in the air, extras, and what its own duration adds. */
function lasted(
  { network, strikes, strikesOn, extrasOn, planned }: Prepared,
  { byStrike, extra, work }: Draw,
  { start, finish, held }: RunDates,
  i: number,
  finishBinds: boolean,
  into: Attribution,
): void {
  const n = network.ids.length
  let late = 0
  for (const s of strikesOn[i] as readonly number[]) {
    add(into, n + s, byStrike[s] as number)
    late += byStrike[s] as number
  }
  if (finishBinds) return
  const windFirst = n + strikes.length
  add(into, windFirst + i, held[i] as number)
  const worked = (finish[i] as number) - late - (held[i] as number) - (start[i] as number)
  // extras are working time: on the clock they take as much more as the activity does
  const clock = (work[i] as number) > 0 ? worked / (work[i] as number) : 0
  let more = 0
  for (const x of extrasOn[i] as readonly number[]) {
    const part = (extra[x] as number) * clock
    add(into, windFirst + n + x, part)
    more += part
  }
  add(into, i, worked - more - (planned.lasts[i] as number))
}

/** Shares of the variance by source; zero everywhere when nothing varies. */
export function shares({ sum, product, total, square, runs }: Attribution): Float64Array {
  const variance = square / runs - (total / runs) ** 2
  return product.map((p, s) =>
    variance <= 0 ? 0 : (p / runs - ((sum[s] as number) / runs) * (total / runs)) / variance,
  )
}
