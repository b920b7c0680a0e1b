import { DAY } from '../civil.ts'

/** How closely a stretch of time is drawn. */
export type Pace = 'lift' | 'work' | 'wait' | 'even'

/** Paper that a day of each pace asks for, as parts of one another: a day with a lift needs hours, a day of waiting none. */
const ASKED: Readonly<Record<Pace, number>> = { lift: 2, work: 0.8, wait: 0.3, even: 1 }
/** Least paper for a day of waiting, mm; what is longer than this allows is cut, with its length written in the tear. */
const LEAST_WAIT = 0.15
/** What is left of a stretch that is cut, mm. */
const CUT_WIDTH = 7

/** One stretch at one pace. Seconds from the first local midnight; x in mm. */
export interface Stretch {
  pace: Pace
  from: number
  to: number
  left: number
  right: number
  /** Its weeks are not drawn one by one. */
  cut: boolean
}

/** A time axis in stretches of even pace: never more than three paces, each stretch true to its ruler. */
export interface TimeAxis {
  stretches: readonly Stretch[]
  left: number
  right: number
  from: number
  to: number
  xAt(seconds: number): number
  /** The instant at a place on paper. */
  at(x: number): number
  /** Whether an instant lies on the paper. */
  shows(seconds: number): boolean
}

export interface AxisText {
  /** Days from the start of the programme; parts of a day where one looks closely. */
  from: number
  to: number
  /** Days with a lift. */
  lifts: readonly number[]
  /** Days of work on what was taken out, first and last. */
  works: readonly (readonly [number, number])[]
  left: number
  right: number
  /** One pace for all of it. */
  isEven?: boolean
  /** Least paper for a day of waiting, mm; 0.15 unless said otherwise. */
  leastWait?: number
}

/** Days about a lift that are drawn at its pace, and gaps between them that are too short to change it for. */
const ABOUT = 2
const SHORTEST = 12

export function timeAxis({
  from,
  to,
  lifts,
  works,
  left,
  right,
  isEven = false,
  leastWait = LEAST_WAIT,
}: AxisText): TimeAxis {
  const runs: Run[] = isEven ? [{ pace: 'even', days: to - from }] : merged(pacesOf(from, to, lifts, works))
  const stretches = placedRuns(runs, { from, left, right, leastWait })
  return {
    stretches,
    left,
    right,
    from: from * DAY,
    to: to * DAY,
    xAt: (seconds) => placeIn(stretches, seconds),
    at: (x) => instantAt(stretches, x),
    shows: (seconds) => seconds >= from * DAY && seconds <= to * DAY,
  }
}

function placedRuns(
  runs: readonly Run[],
  { from, left, right, leastWait }: { from: number; left: number; right: number; leastWait: number },
): Stretch[] {
  const asked = (cut: boolean): number =>
    runs.reduce((sum, r) => sum + (cut && r.pace === 'wait' ? 0 : r.days * ASKED[r.pace]), 0)
  const whole = (right - left) / asked(false)
  const waits = runs.filter((r) => r.pace === 'wait')
  const cut = whole * ASKED.wait < leastWait && waits.length > 0 && asked(true) > 0
  const scale = cut ? (right - left - waits.length * CUT_WIDTH) / asked(true) : whole
  let [day, x] = [from, left]
  return runs.map(({ pace, days }): Stretch => {
    const isCut = cut && pace === 'wait'
    const stretch = {
      pace,
      from: day * DAY,
      to: (day + days) * DAY,
      left: x,
      right: x + (isCut ? CUT_WIDTH : days * ASKED[pace] * scale),
      cut: isCut,
    }
    day += days
    x = stretch.right
    return stretch
  })
}

interface Run {
  pace: Pace
  days: number
}

function pacesOf(from: number, to: number, lifts: readonly number[], works: AxisText['works']): Run[] {
  const near = new Set(lifts.flatMap((day) => Array.from({ length: 2 * ABOUT + 1 }, (_, k) => day - ABOUT + k)))
  const paceOf = (day: number): Pace =>
    near.has(day) ? 'lift' : works.some(([first, last]) => day >= first && day <= last) ? 'work' : 'wait'
  const runs: Run[] = []
  for (let day = Math.floor(from); day < to; day++) {
    const last = runs.at(-1)
    const pace = paceOf(day)
    const days = Math.min(to, day + 1) - Math.max(from, day)
    if (last?.pace === pace) last.days += days
    else runs.push({ pace, days })
  }
  return runs
}

const CLOSENESS: readonly Pace[] = ['wait', 'work', 'lift']

/** Short runs take the closer pace of a neighbour, so that the ruler does not change for a few days. */
function merged(runs: readonly Run[]): Run[] {
  const result: Run[] = []
  runs.forEach((run, i) => {
    const beside = [runs[i - 1], runs[i + 1]].flatMap((r) => (r === undefined ? [] : [r.pace]))
    const closest = beside.reduce((best, p) => (CLOSENESS.indexOf(p) > CLOSENESS.indexOf(best) ? p : best), run.pace)
    const pace = run.days < SHORTEST ? closest : run.pace
    const last = result.at(-1)
    if (last?.pace === pace) last.days += run.days
    else result.push({ pace, days: run.days })
  })
  return result
}

/** Where an instant lies on paper. */
export function placeIn(stretches: readonly Stretch[], seconds: number): number {
  const [first, last] = [stretches[0], stretches.at(-1)]
  if (first === undefined || last === undefined) return 0
  const stretch = stretches.find((s) => seconds < s.to) ?? last
  const share = (Math.max(seconds, first.from) - stretch.from) / (stretch.to - stretch.from)
  return Math.min(last.right, stretch.left + share * (stretch.right - stretch.left))
}

/** The instant at a place on paper. */
export function instantAt(stretches: readonly Stretch[], x: number): number {
  const [first, last] = [stretches[0], stretches.at(-1)]
  if (first === undefined || last === undefined) return 0
  const stretch = stretches.find((s) => x < s.right) ?? last
  const share = (Math.min(Math.max(x, first.left), last.right) - stretch.left) / (stretch.right - stretch.left)
  return stretch.from + share * (stretch.to - stretch.from)
}

/** mm that a day takes where the axis is shortest of paper for it. */
export const leastDay = (stretches: readonly Stretch[]): number =>
  Math.min(...stretches.filter((s) => !s.cut).map((s) => weekOf(s) / 7))

/** mm that a week takes in a stretch. */
export const weekOf = ({ from, to, left, right }: Stretch): number => ((right - left) * 7 * DAY) / (to - from)
