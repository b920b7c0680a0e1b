import type { Stream } from '../numeric/random.ts'
import { normalQuantile, triangularAt } from '../numeric/statistics.ts'
import { type Drive, learningOf, reachesOf } from '../programme/index.ts'

type Three = readonly [number, number, number]

/** The drive as mean working days against distance, and what chance does to them. */
export interface Course {
  /** Distances from the shaft, m, and mean working days up to each: full rate of its reach, longer while the crew learns. */
  at: Float64Array
  due: Float64Array
  /** Mean working days at which an intervention falls due, and what each takes. */
  stops: readonly { due: number; days: Three }[]
  /** Standard deviation of the logarithm of a day's advance. */
  spread: number
  pace: Three
  stoppage: { perDay: number; days: Three } | undefined
  /** Working days that a day of driving takes, maintenance in it. */
  perDay: number
}

const DAY = 86_400
const STEP = 2
const SAME_PACE: Three = [1, 1, 1]

/** The course of a drive; the address of what is missing where it cannot be told. */
export function courseOf(
  drive: Drive,
): { course: Course; missing?: undefined } | { course?: undefined; missing: string } {
  const reaches = reachesOf(drive)
  const unknown = reaches.find(({ advance }) => advance.value === undefined)
  if (unknown !== undefined) return { missing: unknown.pointer }
  const length = reaches.at(-1)?.to ?? 0
  const factors = learningOf(drive, length)
  if (factors === undefined) return { missing: '/programme/drive/ring' }
  const ring = drive.ring?.value ?? STEP
  const at = placesOf(reaches, length, ring)
  const due = new Float64Array(at.length)
  for (let k = 1, r = 0; k < at.length; k++) {
    const [from, to] = [at[k - 1] as number, at[k] as number]
    while (from >= (reaches[r]?.to as number)) r++
    const perMetre = 1 / ((reaches[r]?.advance.value as number) * DAY)
    due[k] = (due[k - 1] as number) + (to - from) * perMetre * (factors[Math.floor((from + to) / 2 / ring)] ?? 1)
  }
  const { stoppages } = drive
  return {
    course: {
      at,
      due,
      stops: interventionsOf(drive, length).map(({ x, days }) => ({ due: dueAt({ at, due }, x), days })),
      spread: Math.sqrt(Math.log(1 + ((drive.variation?.value ?? 0) as number) ** 2)),
      pace: drive.pace ?? SAME_PACE,
      stoppage:
        stoppages === undefined ? undefined : { perDay: stoppages.perDay.value as number, days: stoppages.days },
      perDay: 1 / (1 - (drive.maintenance?.value ?? 0)),
    },
  }
}

/** Ends of reaches and of rings, in order. */
function placesOf(reaches: readonly { to: number }[], length: number, ring: number): Float64Array {
  const places = new Set([0, ...reaches.map(({ to }) => to)])
  for (let n = 1; n * ring < length; n++) places.add(n * ring)
  return Float64Array.from([...places].sort((a, b) => a - b))
}

function interventionsOf({ interventions }: Drive, length: number): { x: number; days: Three }[] {
  const all = Object.values(interventions).flatMap(({ every, days }) => {
    const step = every.value as number
    return Array.from({ length: Math.ceil(length / step) - 1 }, (_, i) => ({ x: (i + 1) * step, days }))
  })
  return all.sort((a, b) => a.x - b.x)
}

/** Mean working days up to a distance, straight between the course's places. */
export function dueAt({ at, due }: Pick<Course, 'at' | 'due'>, x: number): number {
  let k = 1
  while (k < at.length - 1 && (at[k] as number) < x) k++
  const [from, to] = [at[k - 1] as number, at[k] as number]
  return (due[k - 1] as number) + ((x - from) / (to - from)) * ((due[k] as number) - (due[k - 1] as number))
}

/**
 * One drive, day by day: the mean advance times a lognormal factor of mean one, over the pace of this run; on a share of the
 * days a stoppage; interventions where they fall due.
 *
 * @param marks mean working days, rising, at which the day is wanted
 * @param reached working days at each mark, filled here
 */
export function driveOnce(course: Course, marks: Float64Array, reached: Float64Array, random: Stream): void {
  const { spread, stops, stoppage, perDay } = course
  const pace = triangularAt(random.uniform(), ...course.pace)
  let [days, done, mark, stop] = [0, 0, 0, 0]
  const stopsBefore = (due: number): number => {
    let lost = 0
    for (; (stops[stop]?.due ?? Number.POSITIVE_INFINITY) < due; stop++)
      lost += triangularAt(random.uniform(), ...(stops[stop] as Course['stops'][number]).days)
    return lost
  }
  while (mark < marks.length) {
    const advance = Math.exp(spread * normalQuantile(random.uniform()) - (spread * spread) / 2) / pace
    const stopped = stoppage !== undefined && random.uniform() < stoppage.perDay
    const next = done + advance
    let lost = 0
    for (; mark < marks.length && (marks[mark] as number) <= next; mark++) {
      lost += stopsBefore(marks[mark] as number)
      reached[mark] = days + lost + (Math.max(0, (marks[mark] as number) - done) / advance) * perDay
    }
    lost += stopsBefore(next)
    days += perDay + lost + (stopped && stoppage !== undefined ? triangularAt(random.uniform(), ...stoppage.days) : 0)
    done = next
  }
}
