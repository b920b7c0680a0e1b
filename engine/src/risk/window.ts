import type { Climate } from '../model/index.ts'
import { bothBelow, normalCdf } from '../numeric/statistics.ts'
import { levelsOf } from './wind.ts'

const HOURS = 24

/**
 * Chance that a run of calm hours of the length needed lies inside a shift, in a month.
 *
 * Two states by the hour, calm or not: the chance to stay calm follows from two normals with the hour-to-hour correlation
 * (bivariate normal), and changes with the hour of the day. The chance of a run of n is worked exactly over the lengths
 * 0 … n reached so far.
 *
 * @param month 1 … 12
 * @param from first hour of the shift, and `hours` of it
 * @param needed whole hours of calm in a row
 * @returns chance, 0 where the shift is too short
 */
export function windowChance(
  climate: Climate,
  limit: number,
  at: { month: number; from: number; hours: number },
  needed: number,
): number {
  if (needed > at.hours) return 0
  if (needed <= 0) return 1
  const levels = levelsOf(climate, limit)
  const level = (h: number): number => levels[(at.month - 1) * HOURS + ((at.from + h) % HOURS)] as number
  const rho = climate.persistence.value as number
  // reached[l]: the last l hours were calm; reached[needed] is kept once reached
  let reached = new Float64Array(needed + 1)
  const calm = normalCdf(level(0))
  reached[0] = 1 - calm
  reached[1] = calm
  for (let h = 1; h < at.hours; h++) {
    const [before, now] = [normalCdf(level(h - 1)), normalCdf(level(h))]
    const both =
      before <= 0 || now <= 0 ? 0 : before >= 1 ? now : now >= 1 ? before : bothBelow(level(h - 1), level(h), rho)
    const stays = before > 0 ? both / before : 0
    const comes = before < 1 ? (now - both) / (1 - before) : now
    const next = new Float64Array(needed + 1)
    next[needed] = reached[needed] as number
    for (let l = 0; l < needed; l++) {
      const chance = l === 0 ? comes : stays
      next[l + 1] = (next[l + 1] as number) + (reached[l] as number) * chance
      next[0] = (next[0] as number) + (reached[l] as number) * (1 - chance)
    }
    reached = next
  }
  return reached[needed] as number
}

/**
 * Mean hours from any moment until a run of calm hours is over, were the lift allowed to go at any hour of day and night: the
 * month's chances to stay calm and to stay windy, without the day's course.
 */
export function roundTheClock({ months, persistence }: Climate, limit: number, month: number, needed: number): number {
  const level = levelsOf({ months, persistence } as Climate, limit)[(month - 1) * HOURS] as number
  const calm = normalCdf(level)
  if (calm <= 0) return Number.POSITIVE_INFINITY
  if (calm >= 1) return needed
  const both = bothBelow(level, level, persistence.value as number)
  return meanWait(both / calm, 1 - (calm - both) / (1 - calm), needed).fromAny
}

/** Share of the hours of a month's shift that are calm enough. */
export function calmShare(climate: Climate, limit: number, at: { month: number; from: number; hours: number }): number {
  const levels = levelsOf(climate, limit)
  let sum = 0
  for (let h = 0; h < at.hours; h++)
    sum += normalCdf(levels[(at.month - 1) * HOURS + ((at.from + h) % HOURS)] as number)
  return sum / at.hours
}

/**
 * Two states of weather with given chances to stay: mean number of periods until a window of n good ones is over, counted
 * after a bad period that has just passed, and from any period on, itself included.
 *
 * Source: first-order Markov persistence; from a bad period (1/(1−b) + (1−g^(n−1))/(1−g))/g^(n−1), derived; for periods
 * without memory it is the mean number of trials to n successes in a row (S. M. Ross, Introduction to Probability Models).
 */
export function meanWait(
  g: number,
  b: number,
  n: number,
): { fromBad: number; fromAny: number; opensNow: number; goodShare: number } {
  const goodShare = (1 - b) / (1 - g + (1 - b))
  const last = g ** (n - 1)
  const fromBad = (1 / (1 - b) + (1 - last) / (1 - g)) / last
  // from a good period a run begins at once: it lasts n with chance g^(n−1), else a bad period follows on the k-th, k < n
  let fromGood = n * last
  for (let k = 1; k < n; k++) fromGood += g ** (k - 1) * (1 - g) * (k + 1 + fromBad)
  return {
    fromBad,
    fromAny: goodShare * fromGood + (1 - goodShare) * (1 + fromBad),
    opensNow: goodShare * last,
    goodShare,
  }
}
