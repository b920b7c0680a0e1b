import type { Model } from '../model/index.ts'
import { type Stream, stream } from '../numeric/random.ts'
import { normalQuantile, triangularAt } from '../numeric/statistics.ts'
import { addWork, dayLengths, type ProgrammeResult } from '../programme/index.ts'
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
}

const METHOD =
  'day by day: the stage’s mean advance times a lognormal factor with the day’s coefficient of variation; on a share of the days a stoppage, triangular; restarts from the simulation, drawn apart from the drive'

/** Drive forecast to the end of the last stage; undefined when no drive is planned. */
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
  const day = dayLengths(project.programme)(work?.drive?.calendar ?? '')
  const random = stream(seed, 'drive')
  const days = Float64Array.from(simulation.sorted, () => driveDays(drive, random))
  const ends = simulation.sorted.map((restart, run) => addWork(calendar, restart, (days[run] as number) * day))
  const breakthrough = percentilesOf(ends.slice().sort(), ends)
  return {
    runs: days.length,
    seed,
    method: METHOD,
    breakthrough,
    dates: datesOf(solved.zone, breakthrough),
    days: percentilesOf(days.slice().sort(), days),
  }
}

type Drive = NonNullable<NonNullable<Model['project']['programme']>['drive']>

const DAY = 86_400

/** Working days of one drive. */
export function driveDays({ stages, variation, stoppages }: Drive, random: Stream): number {
  const spread = Math.sqrt(Math.log(1 + ((variation?.value ?? 0) as number) ** 2))
  let [days, reached] = [0, 0]
  for (const { to, rate } of stages) {
    const mean = (rate.value as number) * DAY
    while (reached < (to.value as number)) {
      // a lognormal factor of mean one
      const advance = mean * Math.exp(spread * normalQuantile(random.uniform()) - (spread * spread) / 2)
      const left = (to.value as number) - reached
      const stopped = random.uniform() < ((stoppages?.perDay.value ?? 0) as number)
      const lost = stopped && stoppages !== undefined ? triangularAt(random.uniform(), ...stoppages.days) : 0
      days += Math.min(1, left / advance) + lost
      reached = Math.min(to.value as number, reached + advance)
    }
  }
  return days
}
