/** A stretch of bed: two ends, m. */
export type Stretch = readonly [number, number]

/** A stretch that bears: its ends, m, and the load per metre at each, N/m. Between them it is linear. */
export interface Pressed {
  from: number
  to: number
  atFrom: number
  atTo: number
}

/** Load per metre under a rigid body: p = a + b (u - x) where it bears, which is where that is not below zero. */
interface Line {
  a: number
  b: number
}

/** Rounds in which the end of what bears is looked for at most, and of the length what is left when it is known. */
const ROUNDS = 60
const LAST_BIT = 1e-15

/**
 * A rigid body on stretches of one even elastic bed, no tension. Exact: load per metre is linear, and where some of the bed does not
 * bear, the resultant of p ∝ (u - u₀) moves one way only with u₀, so that the u₀ under which it meets the centre of gravity is one.
 *
 * @param W weight, N; @param x its centre of gravity, m; @param stretches apart from each other, in their order
 * @returns what bears; nothing where the body would tip off
 */
export function onBed(W: number, x: number, stretches: readonly Stretch[]): Pressed[] | undefined {
  const line = lineUnder(W, x, stretches)
  return line && bearing(line, x, stretches)
}

/**
 * What a bed just beyond all that bears would take at its first touch, for a length that comes to nothing.
 *
 * @returns load per metre at `at`, N/m; nothing where the body would have tipped before
 */
export function atFirstTouch(W: number, x: number, stretches: readonly Stretch[], at: number): number | undefined {
  const line = lineUnder(W, x, stretches)
  return line && Math.max(0, line.a + line.b * (at - x))
}

function lineUnder(W: number, x: number, all: readonly Stretch[]): Line | undefined {
  const stretches = all.filter(([from, to]) => to > from)
  const [first, last] = [stretches[0]?.[0], stretches.at(-1)?.[1]]
  if (first === undefined || last === undefined || x <= first || x >= last) return undefined
  const [A, S, I] = moments(stretches, x)
  const det = A * I - S * S
  const whole: Line = { a: (W * I) / det, b: (-W * S) / det }
  const ends = [first, last].map((u) => whole.a + whole.b * (u - x)) as [number, number]
  if (Math.min(...ends) >= 0) return whole
  return ends[0] < 0
    ? partly(W, x, stretches)
    : mirrored(partly(W, -x, stretches.map(([from, to]): Stretch => [-to, -from]).reverse()))
}

const mirrored = ({ a, b }: Line): Line => ({ a, b: -b })

/** Only what lies beyond some place bears: towards its far end. */
function partly(W: number, x: number, stretches: readonly Stretch[]): Line {
  // the resultant of p ∝ (u - zero) lies at zero + I/S
  const short = (zero: number): number => {
    const [, S, I] = moments(stretches, zero, zero)
    return I - (x - zero) * S
  }
  const zero = rootBetween(short, (stretches[0] as Stretch)[0], x)
  const [, S] = moments(stretches, zero, zero)
  const b = W / S
  return { a: b * (x - zero), b }
}

/** Where something that rises comes to zero, by false position; an end that stays twice counts half (Illinois). */
function rootBetween(of: (at: number) => number, from: number, to: number): number {
  let [low, high, below, above, stayed] = [from, to, of(from), of(to), 0]
  for (let round = 0; round < ROUNDS && below < 0 && high - low > LAST_BIT * (to - from); round++) {
    const at = high - (above * (high - low)) / (above - below)
    const value = of(at)
    if (value === 0) return at
    if (value > 0) {
      ;[high, above] = [at, value]
      if (stayed === 1) below /= 2
      stayed = 1
    } else {
      ;[low, below] = [at, value]
      if (stayed === -1) above /= 2
      stayed = -1
    }
  }
  return below < 0 ? high - (above * (high - low)) / (above - below) : low
}

/** Length, first and second moment about a place of what lies beyond another. */
function moments(
  stretches: readonly Stretch[],
  about: number,
  beyond = Number.NEGATIVE_INFINITY,
): readonly [number, number, number] {
  let [A, S, I] = [0, 0, 0]
  for (const [from, to] of stretches) {
    if (to <= beyond) continue
    const [u, v] = [Math.max(from, beyond) - about, to - about]
    A += v - u
    S += (v * v - u * u) / 2
    I += (v * v * v - u * u * u) / 3
  }
  return [A, S, I]
}

function bearing({ a, b }: Line, x: number, stretches: readonly Stretch[]): Pressed[] {
  const p = (u: number): number => Math.max(0, a + b * (u - x))
  const zero = b === 0 ? undefined : x - a / b
  const clipped = ([from, to]: Stretch): Stretch => {
    if (zero === undefined) return [from, to]
    return b > 0 ? [Math.max(from, zero), to] : [from, Math.min(to, zero)]
  }
  return stretches
    .map(clipped)
    .filter(([from, to]) => to > from)
    .map(([from, to]) => ({ from, to, atFrom: p(from), atTo: p(to) }))
}

/** What a stretch carries, N. */
export const carriedBy = ({ from, to, atFrom, atTo }: Pressed): number => ((atFrom + atTo) / 2) * (to - from)

/** Its moment about a place, N m. */
export function momentOf({ from, to, atFrom, atTo }: Pressed, about: number): number {
  const long = to - from
  return (long * ((atFrom + atTo) * (from - about) + (long * (atFrom + 2 * atTo)) / 3)) / 2
}
