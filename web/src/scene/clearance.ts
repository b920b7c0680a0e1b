import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { Moment } from './stand.ts'

/** What a piece on its way is nearest to, and how near. */
export interface Clear {
  /** m; below zero it strikes. */
  gap: number
  /** A part, something fixed in the shaft, or `wall`. */
  to: string
  /** The part that comes nearest, and what it comes near, by their names. */
  part: string
  name: string
  /** As found, or as it hangs; absent to a part, which is measured as it lies. */
  as?: string
  /** On the piece and on what is near, site frame, m. */
  ends: readonly [Vec3, Vec3]
  /** The check that has the least of it over the way; absent where none has. */
  check?: string
  /** That check fails. */
  short: boolean
}

/** A place along the way of a step, from 0 to 1, and what is nearest there; nothing where nothing is near. */
export interface ClearMoment {
  share: number
  near: Clear | undefined
}

/** Along the way out, and along the way back; shares of the way out both. */
export interface StepClearances {
  out: readonly ClearMoment[]
  back: readonly ClearMoment[]
}

/** The least clearance in a moment: between two samples of the same things, between what they say; else the nearer one. */
export function clearAt({ out, back }: StepClearances, { share, homeward }: Moment): Clear | undefined {
  const samples = homeward ? back : out
  const next = firstFrom(samples, share)
  const [a, b] = [samples[next - 1], samples[next]]
  if (a === undefined || b === undefined) return undefined
  const done = (share - a.share) / (b.share - a.share)
  if (a.near === undefined || b.near === undefined || !isSamePair(a.near, b.near)) return (done < 0.5 ? a : b).near
  const [p, q] = [a.near, b.near]
  const between = (x: number, y: number): number => x + (y - x) * done
  const point = (k: 0 | 1): Vec3 =>
    [0, 1, 2].map((i) => between(p.ends[k][i as 0], q.ends[k][i as 0])) as unknown as Vec3
  return { ...(done < 0.5 ? p : q), gap: between(p.gap, q.gap), ends: [point(0), point(1)] }
}

const isSamePair = (a: Clear, b: Clear): boolean => a.to === b.to && a.part === b.part && a.check === b.check

/** Index of the first sample that is not before a share, at least 1; past the last where the way goes on without any. */
function firstFrom(samples: readonly ClearMoment[], share: number): number {
  let [low, high] = [1, samples.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if ((samples[middle] as ClearMoment).share < share) low = middle + 1
    else high = middle
  }
  return (samples[0]?.share ?? 0) > share ? samples.length : low
}

/** The least of a way. */
export const leastOf = (samples: readonly ClearMoment[]): ClearMoment | undefined =>
  samples.reduce<ClearMoment | undefined>(
    (best, m) => (m.near !== undefined && m.near.gap < (best?.near?.gap ?? Infinity) ? m : best),
    undefined,
  )

/** Nearer than this they touch, m. */
export const TOUCHING = 1e-3

/** A clearance in words: how much, between what and what, and by which kind of check. */
export function clearText({ gap, part, name, check }: Clear, lengthText: (metres: number) => string): string {
  const by = check === undefined ? '' : ` [${check.split('/')[0]}]`
  if (gap < -TOUCHING) return `${part} strikes ${name}${by}`
  return `${gap < TOUCHING ? `${part} touches ${name}` : `${lengthText(gap)}, ${part} to ${name}`}${by}`
}
