import type { Activity, ProgrammeResult, Scheduled } from '../../programme/index.ts'
import { textWidth } from '../fontWidth.ts'
import { shortened } from '../paper/border.ts'

/** Where an activity stands: seconds of the plan, mm of its bar and its label. */
export interface Bar {
  activity: Activity
  dates: Scheduled
  left: number
  right: number
  label: string
  labelAt: number
  /** Dates of the baseline, where there is one. */
  was?: { left: number; right: number }
}

/** Activities of one phase in lanes: bars share a lane where neither they nor their labels meet. */
export interface Band {
  phase: string
  /** Calendar that most of its activities work on. */
  calendar: string
  lanes: readonly (readonly Bar[])[]
}

export const LABEL_SIZE = 2
const LONGEST_LABEL = 52
const SHORTEST_BAR = 0.6
const AIR = 0.8
const BETWEEN = 2.2

export interface Span {
  left: number
  right: number
  x: (seconds: number) => number
}

/** An activity with its dates. */
export interface Dated {
  activity: Activity
  dates: Scheduled
}

/** Every activity that has dates, by start. */
export const datedOf = ({ activities, plan }: ProgrammeResult): Dated[] =>
  Object.values(activities)
    .flatMap((activity) => {
      const dates = plan[activity.id]
      return dates === undefined ? [] : [{ activity, dates }]
    })
    .sort((a, b) => a.dates.start - b.dates.start || a.dates.finish - b.dates.finish)

/** Bands in the order in which their first activities start. */
export function bandsOf(
  dated: readonly Dated[],
  { slippage }: ProgrammeResult,
  span: Span,
  days: (dated: Dated) => string,
): Band[] {
  const phases = new Map<string, Bar[]>()
  for (const { activity, dates } of dated) {
    const phase = phaseOf(activity)
    const was = slippage?.slips[activity.id]?.baseline
    const bar = barOf(activity, dates, was, span, days({ activity, dates }))
    phases.set(phase, [...(phases.get(phase) ?? []), bar])
  }
  return [...phases].map(([phase, bars]) => ({ phase, calendar: commonest(bars), lanes: lanesOf(bars) }))
}

/** Derived activities without a phase go by what they do. */
const phaseOf = ({ phase, kind }: Activity): string => (phase === '' ? kind : phase)

function barOf(
  activity: Activity,
  dates: Scheduled,
  was: { start: number; finish: number } | undefined,
  { left, right, x }: Span,
  days: string,
): Bar {
  const [from, to] = [x(dates.start), Math.max(x(dates.finish), x(dates.start) + SHORTEST_BAR)]
  const words = [activity.id, activity.name, days].filter((w) => w !== '').join('  ')
  const label = shortened(words, LABEL_SIZE, LONGEST_LABEL)
  const width = textWidth(label, { size: LABEL_SIZE, weight: 400, tabular: false })
  const isRight = to + AIR + width <= right
  const labelAt = isRight ? to + AIR : Math.max(left, from - AIR - width)
  return {
    activity,
    dates,
    left: from,
    right: to,
    label,
    labelAt,
    ...(was === undefined
      ? {}
      : { was: { left: x(was.start), right: Math.max(x(was.finish), x(was.start) + SHORTEST_BAR) } }),
  }
}

/** Room beside what drives for the numbers of its links, mm. */
const NUMBER_ROOM = 3

/** The paper that a bar takes with its label, its baseline and the numbers of its links. */
function taken({ dates, left, right, label, labelAt, was }: Bar): readonly [number, number] {
  const end = labelAt + textWidth(label, { size: LABEL_SIZE, weight: 400, tabular: false })
  const beside = dates.planCritical ? NUMBER_ROOM : 0
  return [Math.min(left - beside, labelAt, was?.left ?? left), Math.max(right + beside, end, was?.right ?? right)]
}

function lanesOf(bars: readonly Bar[]): Bar[][] {
  const lanes: { bars: Bar[]; taken: (readonly [number, number])[] }[] = []
  for (const bar of bars) {
    const [from, to] = taken(bar)
    const free = lanes.find((lane) => lane.taken.every(([a, b]) => to + BETWEEN <= a || b + BETWEEN <= from))
    if (free === undefined) lanes.push({ bars: [bar], taken: [[from, to]] })
    else {
      free.bars.push(bar)
      free.taken.push([from, to])
    }
  }
  return lanes.map((lane) => lane.bars)
}

function commonest(bars: readonly Bar[]): string {
  const counts = new Map<string, number>()
  for (const { activity } of bars) counts.set(activity.calendar, (counts.get(activity.calendar) ?? 0) + 1)
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best), ['', 0])[0]
}
