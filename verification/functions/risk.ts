import type { GroundResult } from '../../engine/src/ground/index.ts'
import type { LiftResult } from '../../engine/src/lift/index.ts'
import type { MassResult } from '../../engine/src/mass/index.ts'
import { type Climate, model } from '../../engine/src/model/index.ts'
import { bothBelow, normalCdf, normalQuantile, quantileBand, quantileOf } from '../../engine/src/numeric/statistics.ts'
import { type Drive, learningOf, programme } from '../../engine/src/programme/index.ts'
import { simulate } from '../../engine/src/risk/index.ts'
import { atChance, pertTable } from '../../engine/src/risk/shape.ts'
import { meanWait, roundTheClock } from '../../engine/src/risk/window.ts'
import type { StripResult } from '../../engine/src/strip/index.ts'
import { freshMemory } from '../../engine/src/working/memory.ts'
import { listOf, numberOf, numbersOf, recordOf, textOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** What cases of this stage call by name, beside the formulas. */
export const functions: Record<string, VerifiedFunction> = {
  /** Weather of two states: share, and mean periods to the end of a window. */
  'risk.wind.two-state': (inputs) =>
    meanWait(numberOf(inputs, 'pGoodGood'), numberOf(inputs, 'pBadBad'), numberOf(inputs, 'window')),
  /** Mean hours to the end of a window in a month of Weibull wind, at any hour. */
  'risk.wind.round-the-clock': (inputs) => {
    const read = (name: string) => ({ value: numberOf(inputs, name) })
    const month = { scale: read('scale'), shape: read('shape') }
    const climate = {
      months: Array.from({ length: 12 }, () => month),
      persistence: read('persistence'),
    } as unknown as Climate
    return { hours: roundTheClock(climate, numberOf(inputs, 'limit'), 1, numberOf(inputs, 'hours')) }
  },
  /** Two normals: chance that both stay below their quantiles. */
  'risk.normal.both-below': ({ ...inputs }) => {
    const [a, b] = numbersOf(inputs, 'chances').map(normalQuantile) as [number, number]
    return { chance: bothBelow(a, b, numberOf(inputs, 'correlation')) }
  },
  /** Where paths with normal finishes meet: mean, spread and quantiles of the latest, by quadrature of its distribution. */
  'risk.normal.merge': (inputs) => {
    const [means, sds] = [numbersOf(inputs, 'means'), numbersOf(inputs, 'sds')]
    const by = latestBy(means, sds, inputs.correlation === undefined ? 0 : numberOf(inputs, 'correlation'))
    const from = Math.min(...means.map((m, i) => m - FAR * (sds[i] as number)))
    const to = Math.max(...means.map((m, i) => m + FAR * (sds[i] as number)))
    const mean = to - integral(by, from, to)
    const square = to * to - integral((t) => 2 * t * by(t), from, to)
    const longest = Math.max(...means)
    return {
      mean,
      sd: Math.sqrt(square - mean * mean),
      bias: mean - longest,
      byLongest: by(longest),
      p50: reachedAt(by, 0.5, from, to),
      p80: reachedAt(by, 0.8, from, to),
    }
  },
  /** Sum of means and variances along a path, and the chance of a target by the normal. */
  'risk.path.chance': (inputs) => {
    const mean = numberOf(inputs, 'mean')
    return { chance: normalCdf((numberOf(inputs, 'target') - mean) / Math.sqrt(numberOf(inputs, 'variance'))) }
  },
  /** Quantiles of a duration from three points, scaled beta. */
  'risk.duration.pert': (inputs) => {
    const [low, mode, high] = numbersOf(inputs, 'points') as [number, number, number]
    const table = pertTable((mode - low) / (high - low))
    const at = (p: number): number => low + atChance(table, p) * (high - low)
    return { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9) }
  },
  /** Standard error of a quantile, from the order statistics of a sample that lies as a normal lies. */
  'risk.percentile.error': (inputs) => {
    const [n, p] = [numberOf(inputs, 'runs'), numberOf(inputs, 'p')]
    const at = (u: number): number => numberOf(inputs, 'mean') + numberOf(inputs, 'sd') * normalQuantile(u)
    const sorted = Float64Array.from({ length: n }, (_, i) => at((i + 0.5) / n))
    const [from, to] = quantileBand(sorted, p, 1.959964)
    return { percentile: quantileOf(sorted, p), standardError: (to - from) / (2 * 1.959964) }
  },
  /** Hours that rings take while the crew learns, down to a floor. */
  'risk.drive.learning': (inputs) => {
    const floor = numberOf(inputs, 'floor')
    const read = (value: number) => ({ value })
    const learning = {
      model: textOf(inputs, 'model'),
      rate: read(numberOf(inputs, 'rate')),
      first: read(numberOf(inputs, 'first') / floor),
    }
    const factors = learningOf({ learning, ring: read(1) } as unknown as Drive, numberOf(inputs, 'rings'))
    let hours = 0
    for (const factor of factors ?? []) hours += factor * floor
    return { hours }
  },
  /** A network of triangular days through the whole simulation. */
  'risk.simulation': simulated,
}

const FAR = 8

/** Chance that all paths are done by a time: two of them may go together, more are independent. */
function latestBy(means: readonly number[], sds: readonly number[], correlation: number): (time: number) => number {
  const z = (t: number): number[] => means.map((m, i) => (t - m) / (sds[i] as number))
  return (t) => {
    const [first, second, ...more] = z(t) as [number, number, ...number[]]
    if (means.length === 2) return bothBelow(first, second, correlation)
    return [first, second, ...more].reduce((chance, of) => chance * normalCdf(of), 1)
  }
}

/** Simpson's rule. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const steps = 2000
  const h = (to - from) / steps
  let sum = f(from) + f(to)
  for (let i = 1; i < steps; i++) sum += f(from + i * h) * (i % 2 === 0 ? 2 : 4)
  return (sum * h) / 3
}

function reachedAt(by: (t: number) => number, chance: number, from: number, to: number): number {
  let [low, high] = [from, to]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (by(middle) < chance) low = middle
    else high = middle
  }
  return high
}

const DAY = 86_400
const ALWAYS = {
  days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
  shifts: [['00:00', '24:00']],
  hoursPerDay: 24,
}
const NO_LIFTS = { checks: [], lifts: {} } as unknown as LiftResult
const NO_STRIP = {
  steps: [],
  boltUp: [],
  jointTimes: {},
  serviceTimes: {},
  jointWork: {},
  serviceWork: {},
} as unknown as StripResult

function simulated(inputs: Inputs): Record<string, Value> {
  const links = inputs.links === undefined ? [] : (listOf(inputs, 'links') as readonly (readonly string[])[])
  const activity = (days: Value, after: readonly string[]) => ({
    name: 'Activity',
    calendar: 'always',
    days,
    after: after.map((to) => ({ to })),
  })
  const days = recordOf(inputs, 'days')
  const activities = Object.fromEntries(
    Object.entries(days).map(([id, d]) => [
      id,
      activity(
        d,
        links.flatMap(([from, to]) => (to === id ? [from as string] : [])),
      ),
    ]),
  )
  const ends = Object.keys(days).filter((id) => !links.some(([from]) => from === id))
  const read = model(
    {
      schemaVersion: 1,
      about: { title: 'A network' },
      programme: {
        start: '2031-11-03',
        calendars: { always: ALWAYS },
        activities: { ...activities, END: activity([0, 0, 0], ends) },
        restart: 'END',
      },
      ...(inputs.risks === undefined ? {} : { risks: recordOf(inputs, 'risks') }),
    },
    freshMemory(),
  )
  if (read.model === undefined) throw new Error(JSON.stringify(read.problems))
  const plan = programme(read.model, {} as MassResult, NO_STRIP, NO_LIFTS, {} as GroundResult, freshMemory())
  const { result, reason } = simulate(plan, NO_LIFTS, read.model, {
    runs: numberOf(inputs, 'runs'),
    seed: numberOf(inputs, 'seed'),
  })
  if (result === undefined) throw new Error(reason)
  const { p10, p50, p80, p90, mean } = result.restart
  const shown = { p10: p10 / DAY, p50: p50 / DAY, p80: p80 / DAY, p90: p90 / DAY, mean: mean / DAY }
  const late =
    inputs.after === undefined ? {} : { laterThan: shareAfter(result.sorted, Number(textOf(inputs, 'after')) * DAY) }
  return { ...shown, ...late, planned: result.planned / DAY }
}

const shareAfter = (sorted: Float64Array, time: number): number =>
  sorted.filter((t) => t > time + 1).length / sorted.length
