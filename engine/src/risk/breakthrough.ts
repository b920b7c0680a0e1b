import type { Model } from '../model/index.ts'
import { stream } from '../numeric/random.ts'
import { quantileOf } from '../numeric/statistics.ts'
import { addWork, dayLengths, type ProgrammeResult } from '../programme/index.ts'
import { type Course, courseOf, driveOnce, dueAt } from './driveRun.ts'
import { datesOf, type Percentiles, percentilesOf, type SimulationResult } from './result.ts'

/** When the drive breaks through, on top of a simulated restart. Elapsed seconds from the start of the programme. */
export interface BreakthroughResult {
  runs: number
  seed: number
  method: string
  breakthrough: Percentiles
  dates: Readonly<Record<keyof Percentiles, string>>
  /** Working days of the drive. */
  days: Percentiles
  /** The same at the end of each reach. */
  reaches: readonly { to: number; reached: Percentiles; dates: BreakthroughResult['dates'] }[]
  /** For a drawing of distance over time: elapsed seconds at even distances, m. */
  course: readonly { at: number; p10: number; p50: number; p80: number }[]
}

const METHOD =
  'day by day: the reach’s mean advance, longer while the crew learns, times a lognormal factor with the day’s coefficient of variation, over a pace drawn once; stoppages on a share of the days, interventions where they fall due, maintenance as a share; restarts from the simulation, drawn apart from the drive'

/** Places of the drawing. */
const PLACES = 24
/** Runs that are driven: enough for the percentiles, and memory does not grow with the simulation. */
const MOST_RUNS = 5000

/** Drive forecast to the end of the last reach; undefined when no drive is planned or what it rests on is not given. */
export function forecastBreakthrough(
  simulation: SimulationResult,
  { solved }: ProgrammeResult,
  { project }: Model,
  { seed }: { seed: number },
): BreakthroughResult | undefined {
  const { drive, work } = project.programme ?? {}
  const calendar = solved?.calendars.get(work?.drive?.calendar ?? '')
  if (project.programme === undefined || drive === undefined || solved === undefined || calendar === undefined)
    return undefined
  const { course } = courseOf(drive)
  if (course === undefined) return undefined
  const length = course.at.at(-1) as number
  const ends = drive.stages.map(({ to }) => to.value as number)
  const places = [...new Set([...Array.from({ length: PLACES }, (_, i) => ((i + 1) / PLACES) * length), ...ends])].sort(
    (a, b) => a - b,
  )
  const restarts = evenly(simulation.sorted, MOST_RUNS)
  const days = drivenDays(course, places, restarts.length, seed)
  const day = dayLengths(project.programme)(work?.drive?.calendar ?? '')
  const times = days.map((row) => row.map((d, run) => addWork(calendar, restarts[run] as number, d * day)))
  const sorted = times.map((row) => row.slice().sort())
  const percentiles = (x: number): Percentiles => {
    const k = places.indexOf(x)
    return percentilesOf(sorted[k] as Float64Array, times[k] as Float64Array)
  }
  const last = days[places.length - 1] as Float64Array
  return {
    runs: restarts.length,
    seed,
    method: METHOD,
    breakthrough: percentiles(length),
    dates: datesOf(solved.zone, percentiles(length)),
    days: percentilesOf(last.slice().sort(), last),
    reaches: ends.map((to) => ({ to, reached: percentiles(to), dates: datesOf(solved.zone, percentiles(to)) })),
    course: [courseAt(0, restarts), ...places.map((at, k) => courseAt(at, sorted[k] as Float64Array))],
  }
}

const courseAt = (at: number, sorted: Float64Array): BreakthroughResult['course'][number] => ({
  at,
  p10: quantileOf(sorted, 0.1),
  p50: quantileOf(sorted, 0.5),
  p80: quantileOf(sorted, 0.8),
})

/** At most so many of a sorted sample, evenly over its ranks. */
const evenly = (sorted: Float64Array, most: number): Float64Array =>
  sorted.length <= most
    ? sorted
    : Float64Array.from({ length: most }, (_, i) => sorted[Math.floor(((i + 0.5) / most) * sorted.length)] as number)

/** Working days at each place, place by place and run by run. */
function drivenDays(course: Course, places: readonly number[], runs: number, seed: number): Float64Array[] {
  const marks = Float64Array.from(places, (x) => dueAt(course, x))
  const random = stream(seed, 'drive')
  const days = places.map(() => new Float64Array(runs))
  const reached = new Float64Array(places.length)
  for (let run = 0; run < runs; run++) {
    driveOnce(course, marks, reached, random)
    for (let k = 0; k < reached.length; k++) (days[k] as Float64Array)[run] = reached[k] as number
  }
  return days
}
