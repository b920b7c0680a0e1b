import { normalQuantile, triangularAt } from '../numeric/statistics.ts'

/** Working time of one activity, as three points mean it: how it is drawn from one uniform number. */
export type Spread =
  | { kind: 'still' }
  | { kind: 'triangular'; low: number; mode: number; high: number }
  /** Scaled beta: `table` holds the quantiles of the unit form at even steps. */
  | { kind: 'PERT'; low: number; high: number; table: Float64Array }
  | { kind: 'lognormal'; mu: number; sigma: number }

/** Nothing that a spread gives is less, s. */
export function leastOf(spread: Spread, likely: number): number {
  switch (spread.kind) {
    case 'still':
      return likely
    case 'lognormal':
      return Math.exp(spread.mu - FAR_OUT * spread.sigma)
    default:
      return spread.low
  }
}

/** No number drawn of 32 bits lies so many deviations out. */
const FAR_OUT = 7

export const SHAPES = ['triangular', 'PERT', 'lognormal'] as const
export type Shape = (typeof SHAPES)[number]

const STEPS = 1024
const CELLS = 4096
/** Weight of the most likely value in the mean (a + 4m + b)/6. */
const WEIGHT = 4

/**
 * Quantiles of a beta distribution on (0, 1) whose mode lies at `mode`, at even steps of the chance: α = 1 + 4 mode,
 * β = 1 + 4 (1 − mode), so that the mean is (a + 4m + b)/6. The density is summed over 4,096 cells and turned round; good to
 * 1e-4 of the spread.
 *
 * Source: D. G. Malcolm, J. H. Roseboom, C. E. Clark, W. Fazar, Operations Research 7 (1959) 646-669, from memory.
 */
export function pertTable(mode: number): Float64Array {
  const [a, b] = [WEIGHT * mode, WEIGHT * (1 - mode)]
  const below = new Float64Array(CELLS + 1)
  for (let i = 0; i < CELLS; i++) {
    const x = (i + 0.5) / CELLS
    below[i + 1] = (below[i] as number) + x ** a * (1 - x) ** b
  }
  const total = below[CELLS] as number
  const table = new Float64Array(STEPS + 1)
  let cell = 0
  for (let s = 1; s < STEPS; s++) {
    const due = (s / STEPS) * total
    while ((below[cell + 1] as number) < due) cell++
    const [from, to] = [below[cell] as number, below[cell + 1] as number]
    table[s] = (cell + (due - from) / (to - from)) / CELLS
  }
  table[STEPS] = 1
  return table
}

/** Value of a table at a chance, straight between its steps. */
export function atChance(table: Float64Array, u: number): number {
  const place = u * STEPS
  const step = Math.min(STEPS - 1, Math.floor(place))
  const from = table[step] as number
  return from + (place - step) * ((table[step + 1] as number) - from)
}

/**
 * Extremes of the scaled beta with a mode and its 10 % and 90 % quantiles: both are moved out by what their quantile falls
 * short, in turn until neither moves.
 */
export function pertExtremes(p10: number, mode: number, p90: number): [number, number] {
  let [a, b] = [p10, p90]
  const enough = 1e-6 * Math.max(1e-9, p90 - p10)
  for (let round = 0; round < 200; round++) {
    const table = pertTable(b > a ? (mode - a) / (b - a) : 0.5)
    const [shortLow, shortHigh] = [a + atChance(table, 0.1) * (b - a) - p10, p90 - a - atChance(table, 0.9) * (b - a)]
    if (Math.abs(shortLow) + Math.abs(shortHigh) < enough) break
    a = Math.min(mode, a - shortLow)
    b = Math.max(mode, b + shortHigh)
  }
  return [a, b]
}

/** Chance that the greatest of three points is not passed, where they are meant as extremes of a shape without an end. */
const NEVER_PASSED = 0.99
const ONCE_IN_TEN = 0.9

/**
 * Lognormal through the most likely value as its mode and the greatest as a quantile: ln(b/m) = σ² + zσ, μ = ln m + σ². The
 * least is not used: the shape has no end above and reaches down to nought.
 */
export function lognormalOf(mode: number, greatest: number, chance: number): { mu: number; sigma: number } {
  const z = normalQuantile(chance)
  const sigma = (-z + Math.sqrt(z * z + 4 * Math.log(greatest / mode))) / 2
  return { mu: Math.log(mode) + sigma * sigma, sigma }
}

/** Three points as a spread of a shape. `remembered` keeps tables, one for each place of the mode. */
export function spreadOf(
  shape: Shape,
  [least, likely, greatest]: readonly [number, number, number],
  outer: 'extremes' | 'P10 and P90',
  triangularExtremes: (p10: number, mode: number, p90: number) => [number, number],
  remembered: Map<string, Float64Array>,
): Spread {
  if (greatest <= least) return { kind: 'still' }
  if (shape === 'lognormal' && likely > 0 && greatest > likely)
    return { kind: 'lognormal', ...lognormalOf(likely, greatest, outer === 'extremes' ? NEVER_PASSED : ONCE_IN_TEN) }
  const wider = shape === 'PERT' ? pertExtremes : triangularExtremes
  const [a, b] = outer === 'extremes' ? [least, greatest] : wider(least, likely, greatest)
  // no work is less than none
  const low = Math.max(0, a)
  if (shape !== 'PERT') return { kind: 'triangular', low, mode: likely, high: b }
  const mode = (likely - low) / (b - low)
  const place = mode.toFixed(6)
  const table = remembered.get(place) ?? pertTable(mode)
  remembered.set(place, table)
  return { kind: 'PERT', low, high: b, table }
}

const [TRIANGULAR, PERT, LOGNORMAL] = [0, 1, 2]
const EMPTY = new Float64Array(0)

/** Spreads laid side by side, for runs that draw all of them again and again. */
export interface Spreads {
  /** Places of those that are drawn at all. */
  drawn: Int32Array
  shape: Uint8Array
  /** Least, or μ; mode, or σ; greatest. */
  low: Float64Array
  mode: Float64Array
  high: Float64Array
  table: readonly Float64Array[]
}

export function sideBySide(spreads: readonly Spread[]): Spreads {
  const column = (of: (spread: Spread) => number): Float64Array => Float64Array.from(spreads, of)
  return {
    drawn: Int32Array.from(spreads.flatMap(({ kind }, i) => (kind === 'still' ? [] : [i]))),
    shape: Uint8Array.from(spreads, ({ kind }) =>
      kind === 'PERT' ? PERT : kind === 'lognormal' ? LOGNORMAL : TRIANGULAR,
    ),
    low: column((s) => (s.kind === 'still' ? 0 : s.kind === 'lognormal' ? s.mu : s.low)),
    mode: column((s) => (s.kind === 'triangular' ? s.mode : s.kind === 'lognormal' ? s.sigma : 0)),
    high: column((s) => (s.kind === 'triangular' || s.kind === 'PERT' ? s.high : 0)),
    table: spreads.map((s) => (s.kind === 'PERT' ? s.table : EMPTY)),
  }
}

/** What the spread at a place gives at a chance. */
export function atPlace({ shape, low, mode, high, table }: Spreads, i: number, u: number): number {
  const least = low[i] as number
  switch (shape[i]) {
    case TRIANGULAR:
      return triangularAt(u, least, mode[i] as number, high[i] as number)
    case PERT:
      return least + atChance(table[i] as Float64Array, u) * ((high[i] as number) - least)
    default:
      return Math.exp(least + (mode[i] as number) * normalQuantile(u))
  }
}
