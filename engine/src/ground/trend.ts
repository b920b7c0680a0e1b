import type { Instrument } from '../model/index.ts'
import { dayOf, epochOf } from '../model/index.ts'
import { type Answer, type Found, found } from '../working/answer.ts'

/** Readings, last of all, through which the line of the trend is laid; fewer than the least say nothing of a trend. */
const MOST = 5
const LEAST = 3

const MS = 1000

export interface Reading {
  /** Moment as written. */
  on: string
  /** ms since 1970. */
  at: number
  answer: Answer
}

/** Readings in the order of time. */
export function readingsOf({ readings }: Instrument, zone: string): Reading[] {
  return Object.entries(readings)
    .map(([on, answer]) => ({ on, at: epochOf(on, zone, 'first'), answer }))
    .sort((a, b) => a.at - b.at)
}

/** The straight line through the last readings. */
export interface Trend {
  readings: readonly Reading[]
  /** Unit of the instrument a second. */
  speed: number
  /** Of the line, not of the instrument, at the moment of the last reading. */
  value: number
}

/**
 * Line of least squares through the last five readings, three at least; undefined where there are fewer, or all at one moment.
 * What moves by leaps, or faster and faster, is not a line: the engineer looks at the readings.
 */
export function trendOf(readings: readonly Reading[]): Trend | undefined {
  const last = readings.slice(-MOST)
  const end = last.at(-1)
  if (end === undefined || last.length < LEAST) return undefined
  const t = last.map(({ at }) => (at - end.at) / MS)
  const y = last.map(({ answer }) => answer.value as number)
  const [meanT, meanY] = [mean(t), mean(y)]
  const spread = sum(t.map((x) => (x - meanT) ** 2))
  if (spread === 0) return undefined
  const speed = sum(t.map((x, i) => (x - meanT) * ((y[i] as number) - meanY))) / spread
  return { readings: last, speed, value: meanY - speed * meanT }
}

const sum = (all: readonly number[]): number => all.reduce((s, x) => s + x, 0)
const mean = (all: readonly number[]): number => sum(all) / all.length

/** The line at a time after the last reading, s: with both sums that least squares make zero, so that anyone can recompute them. */
export function aheadOf({ readings, speed, value }: Trend, notice: Answer<'s'>): Found {
  const end = readings.at(-1) as Reading
  const off = readings.map(({ at, answer }) => {
    const t = (at - end.at) / MS
    return { t, d: (answer.value as number) - (value + speed * t) }
  })
  const { unit } = end.answer
  const size = Math.max(...readings.map(({ answer }) => Math.abs(answer.value as number)), Number.MIN_VALUE)
  const span = Math.max(...off.map(({ t }) => Math.abs(t)))
  return found({
    unit,
    value: notice.value === undefined ? undefined : value + speed * notice.value,
    method: 'line of least squares through the last readings, drawn on by the notice',
    inputs: { notice, ...Object.fromEntries(readings.map(({ on, answer }) => [on, answer])) },
    residuals: [
      { title: 'sum of the deviations', value: sum(off.map(({ d }) => d)), unit, tolerance: 1e-9 * size },
      {
        title: 'sum of deviation times time, over the time spanned',
        value: sum(off.map(({ t, d }) => t * d)) / span,
        unit,
        tolerance: 1e-9 * size,
      },
    ],
  })
}

/** The day on which the line comes to a level, within ten years; undefined where it is past it, or goes the other way. */
export function reachedOn({ readings, speed, value }: Trend, level: number, zone: string): string | undefined {
  const seconds = (level - value) / speed
  return seconds >= 0 && seconds < FAR ? dayOf((readings.at(-1) as Reading).at + seconds * MS, zone) : undefined
}

const FAR = 10 * 365 * 86_400
