import type { Answer, Given } from '../working/answer.ts'

/** Slews from straight ahead of the carrier, to the left; where the second is the less, across straight ahead. */
export type Sector<A extends Answer<'rad'> = Given<'rad'>> = readonly [from: A, to: A]

/** Charts that hold for the slew passed: any of them for the whole of it, or all together, arc by arc. */
export interface Held<C> {
  charts: readonly C[]
  enough: 'any' | 'all'
  /** A slew for which none holds, rad. */
  gap?: number
}

const TURN = 2 * Math.PI
/** Slews that follow from coordinates end on a sector's end to the last digits only, rad. */
const LAST_DIGITS = 1e-9

/** A sector as an arc that rises, rad. */
export function arcOf([from, to]: Sector<Answer<'rad'>>): readonly [from: number, to: number] {
  const [a, b] = [from.value as number, to.value as number]
  return [a, b >= a ? b : b + TURN]
}

/** Whether a sector is the whole circle. */
export const isWhole = (sector: Sector<Answer<'rad'>>): boolean => {
  const [from, to] = arcOf(sector)
  return to - from >= TURN - LAST_DIGITS
}

/** Charts for the slew passed: those that hold for the whole of it, else all whose sectors it passes. A slew that is not stated is the whole circle. */
export function chartsHolding<C extends { sector?: Sector | undefined }>(
  charts: readonly C[],
  slew: Sector<Answer<'rad'>> | undefined,
): Held<C> {
  if (charts.every(({ sector }) => sector === undefined)) return { charts, enough: 'any' }
  const [low, high] = slew === undefined ? [0, TURN] : arcOf(slew)
  const arcs = charts.flatMap((chart) => repeated(chart.sector).map((arc) => ({ chart, arc })))
  const whole = arcs.filter(({ arc }) => arc[0] <= low + LAST_DIGITS && arc[1] >= high - LAST_DIGITS)
  if (whole.length > 0) return { charts: [...new Set(whole.map(({ chart }) => chart))], enough: 'any' }
  const passed = arcs.filter(({ arc }) => arc[0] < high - LAST_DIGITS && arc[1] > low + LAST_DIGITS)
  const gap = gapIn(
    passed.map(({ arc }) => arc),
    low,
    high,
  )
  return {
    charts: [...new Set(passed.map(({ chart }) => chart))],
    enough: 'all',
    ...(gap === undefined ? {} : { gap }),
  }
}

/** A sector turn after turn, so that an arc across straight ahead or straight behind is met; one of a whole turn has no ends. */
function repeated(sector: Sector | undefined): (readonly [number, number])[] {
  if (sector === undefined || isWhole(sector)) return [[-Infinity, Infinity]]
  const [from, to] = arcOf(sector)
  return [-2, -1, 0, 1, 2].map((k) => [from + k * TURN, to + k * TURN] as const)
}

/** First slew of an arc that nothing covers. */
function gapIn(arcs: readonly (readonly [number, number])[], from: number, to: number): number | undefined {
  let at = from
  for (;;) {
    const reach = Math.max(...arcs.filter((arc) => arc[0] <= at + LAST_DIGITS).map((arc) => arc[1]), -Infinity)
    if (reach >= to - LAST_DIGITS) return undefined
    if (reach <= at + LAST_DIGITS) return at
    at = reach
  }
}

/**
 * Slews passed, rad: as stated, and as they follow from where the hook goes, each bearing from straight ahead the shorter way
 * round from the one before. Of the turns that make them the same slews the one is taken that lies nearest to what is stated.
 */
export function widened(slew: Sector<Answer<'rad'>>, followed: readonly number[]): readonly [from: number, to: number] {
  const stated = arcOf(slew)
  const unwound: number[] = []
  for (const slew of followed) {
    const before = unwound.at(-1) ?? slew
    unwound.push(before + Math.atan2(Math.sin(slew - before), Math.cos(slew - before)))
  }
  const [low, high] = [Math.min(...unwound), Math.max(...unwound)]
  const unions = [-2, -1, 0, 1, 2].map(
    (k) => [Math.min(stated[0], low + k * TURN), Math.max(stated[1], high + k * TURN)] as const,
  )
  return unions.reduce((a, b) => (b[1] - b[0] < a[1] - a[0] - LAST_DIGITS ? b : a))
}
