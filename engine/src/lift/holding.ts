import type { Shaft } from '../model/index.ts'
import type { Pose, Vec3 } from '../numeric/vector.ts'
import { type Answer, found, knownOr, largestOf, sumOf, type Term } from '../working/answer.ts'
import { type Hull, levelsOf } from './hull.ts'
import { machinesOf } from './machines.ts'
import type { Pick } from './pick.ts'
import { stagesOf, type TimedMotion } from './stages.ts'

/** From where going on is the shorter way to safety. */
export interface PointOfNoReturn {
  /** From the load being taken; the end of the stages where the next lift goes on with it before that point. */
  time: Answer<'s'>
  /** Stage in which it lies, and where the hook is then. */
  stage: number | undefined
  at: Vec3 | undefined
  /** The project names it. */
  stated: boolean
  /** From there until the piece is landed, lifts that go on with it included: the wind has to hold so long. */
  window: Answer<'s'>
}

/** Where a piece can stay as long as it has to. */
export interface HoldingPosition {
  name: string
  /** Stretch of time in the plan in which the piece is there, from the load being taken; before it below zero. */
  from: Answer<'s'>
  to: Answer<'s'>
  /** Safe from wind only: it still hangs on the hook. */
  hangs: boolean
}

export type Failure = 'weather' | 'power' | 'jack or winch'

/** What is done when something fails in a stage: the nearest safe position from its worst moment. */
export interface Refuge {
  stage: number
  failure: Failure
  position: string
  /** Until it moves again, where it has stopped of itself, and then to the position. */
  time: Answer<'s'>
  /** What the load hangs on meanwhile; undefined where nobody has said whether it holds. */
  holds: boolean | undefined
}

/** A lift in time, with those between which the piece is not set down: times count from its own load being taken. */
interface Course {
  stages: readonly TimedMotion[]
  /** First and last stage of the lift itself. */
  own: readonly [from: number, to: number]
  /** Ends of the stages, s, and what it takes back from there to the very beginning. */
  ends: readonly number[]
  backs: readonly number[]
  /** Begin of the course, s: below zero by the lifts before. */
  begin: number
  times: Readonly<Record<string, Answer>>
}

/** Point of no return, positions in which the piece can wait, and the nearest of them for each stage and failure. */
export function holdingOf(
  pick: Pick,
  own: readonly TimedMotion[],
  hull: Hull | undefined,
): { pointOfNoReturn: PointOfNoReturn; holdingPositions: HoldingPosition[]; refuges: Refuge[] } {
  const course = courseOf(pick, own, hull)
  const holdingPositions = positionsOf(course, pick, hull)
  return {
    pointOfNoReturn: pointOfNoReturn(course, pick, own),
    holdingPositions,
    refuges: own.flatMap((_, i) => FAILURES.map((failure) => refugeOf(pick, course, holdingPositions, i, failure))),
  }
}

/** Times that are not known are not numbers. */
function courseOf(pick: Pick, own: readonly TimedMotion[], hull: Hull | undefined): Course {
  const before = pick.before.flatMap((other) => stagesOf(other, hull))
  const stages = [...before, ...own, ...pick.after.flatMap((other) => stagesOf(other, hull))]
  const begin = 0 - before.reduce((sum, { time }) => sum + (time.value ?? Number.NaN), 0)
  let [end, back] = [begin, 0]
  const ends: number[] = []
  const backs: number[] = []
  for (const stage of stages) {
    end += stage.time.value ?? Number.NaN
    back += stage.back.value ?? Number.NaN
    ends.push(end)
    backs.push(back)
  }
  const times = Object.fromEntries(
    stages.flatMap(({ name, time, back }, i) => [
      [`stage ${i + 1 - before.length}, ${name}`, time] as const,
      ...(back.value === time.value ? [] : [[`back over stage ${i + 1 - before.length}`, back] as const]),
    ]),
  )
  return { stages, own: [before.length, before.length + own.length - 1], ends, backs, begin, times }
}

const startOf = ({ ends, begin }: Course, i: number): number => (i === 0 ? begin : (ends[i - 1] as number))
const backBefore = ({ backs }: Course, i: number): number => (i === 0 ? 0 : (backs[i - 1] as number))

/** Time back to the very beginning from a moment of a stage. */
function backAt(course: Course, i: number, t: number): number {
  const [from, to] = [startOf(course, i), course.ends[i] as number]
  const share = to > from ? (t - from) / (to - from) : 1
  return backBefore(course, i) + share * ((course.backs[i] as number) - backBefore(course, i))
}

const BALANCE = 'the moment at which going back to where it was taken takes as long as going on until it is landed'

/** Point of no return of a lift: as the project says, else where the way back takes as long as the way on. */
function pointOfNoReturn(course: Course, pick: Pick, own: readonly TimedMotion[]): PointOfNoReturn {
  const end = course.ends[course.own[1]] ?? 0
  const said = pick.lift.noReturn
  const time =
    said ?? found({ unit: 's', value: balance(course), method: BALANCE, inputs: course.times, residuals: [] })
  const stage = own.findIndex((s) => (s.end.value ?? Number.NaN) >= (time.value ?? Number.NaN) - 1e-9)
  const last = course.ends.at(-1)
  return {
    time,
    stage: stage < 0 ? undefined : stage,
    at: stage < 0 ? undefined : placeIn(own[stage] as TimedMotion, time.value as number),
    stated: said !== undefined,
    window: found({
      unit: 's',
      value:
        last === undefined || time.value === undefined
          ? undefined
          : windowFrom(course, Math.min(time.value, end), said !== undefined),
      method:
        'from the point of no return to the end of the last stage; where the project sets that point later than the way back is shorter, the way back from it',
      inputs: { 'point of no return': time, ...course.times },
      residuals: [],
    }),
  }
}

/** Until a point of no return that is stated it goes back: the forecast must see the longer of the way on and the way back from there, s. */
const windowFrom = (course: Course, time: number, isStated: boolean): number =>
  Math.max(0, (course.ends.at(-1) as number) - time, isStated ? backOf(course, time) : 0)

function placeIn({ from, to, start, time }: TimedMotion, t: number): Vec3 | undefined {
  if (from === undefined || to === undefined || start.value === undefined || time.value === undefined) return undefined
  const share = time.value === 0 ? 1 : Math.min(1, Math.max(0, (t - start.value) / time.value))
  return [0, 1, 2].map(
    (k) => (from[k] as number) + share * ((to[k] as number) - (from[k] as number)),
  ) as unknown as Vec3
}

/** Where back = on, within the lift itself; its beginning or its end where that moment lies in another. */
function balance(course: Course): number | undefined {
  const last = course.ends.at(-1)
  if (last === undefined || Number.isNaN(last) || Number.isNaN(course.backs.at(-1))) return undefined
  const [first, final] = course.own
  for (let i = first; i <= final; i++) {
    const [from, to] = [startOf(course, i), course.ends[i] as number]
    const [a, b] = [backBefore(course, i) - (last - from), (course.backs[i] as number) - (last - to)]
    if (a >= 0) return Math.max(0, from)
    if (b >= 0) return Math.max(0, from + (to - from) * (-a / (b - a)))
  }
  return course.ends[final]
}

/** Positions in which the piece may wait: where it was taken, wholly in the shaft, and landed. */
function positionsOf(course: Course, pick: Pick, hull: Hull | undefined): HoldingPosition[] {
  const last = course.ends.at(-1)
  if (last === undefined) return []
  const at = (value: number, method: string): Answer<'s'> =>
    found({ unit: 's', value: Number.isNaN(value) ? undefined : value, method, inputs: course.times, residuals: [] })
  const begin = at(course.begin, 'the load is taken')
  const landed = at(last, 'end of the last stage')
  const [taken, down] = namesOf(pick)
  const sheltered = shelterOf(course, pick, hull).map(
    ([from, to]): HoldingPosition => ({
      name: 'hung low in the shaft',
      from: at(from, 'its highest point passes below the collar'),
      to: at(to, 'its highest point passes the collar'),
      hangs: true,
    }),
  )
  const low = lowOverBayOf(course, pick, hull).map(
    ([from, to]): HoldingPosition => ({
      name: 'hung low over the bay',
      from: at(from, 'its lowest point comes within the height over the bay that the project sets'),
      to: at(to, 'its lowest point leaves that height, or the stage ends'),
      hangs: true,
    }),
  )
  return [
    { name: taken, from: begin, to: begin, hangs: false },
    ...sheltered,
    ...low,
    { name: down, from: landed, to: landed, hangs: false },
  ]
}

const passesShaft = (pick: Pick): boolean => [pick, ...pick.before, ...pick.after].some(({ inShaft }) => inShaft)

/** Where it is taken, and where it comes to rest. */
const namesOf = (pick: Pick): readonly [taken: string, down: string] => {
  if (pick.homeward) return ['on the bay', 'in its place']
  return [passesShaft(pick) ? 'in its seat' : 'where it lay', 'landed']
}

/** Stretch of time in which the whole piece is below the collar: out of the wind. */
function shelterOf(course: Course, pick: Pick, hull: Hull | undefined): [number, number][] {
  const { shaft } = pick
  if (!passesShaft(pick) || shaft === undefined || hull === undefined) return []
  return spanWhere(course, (pose) => below(hull, pose, shaft))
}

/** Stretch of time in which it hangs over its bay no higher than the project lets it wait there. */
function lowOverBayOf(course: Course, pick: Pick, hull: Hull | undefined): [number, number][] {
  const { bay, settings } = pick
  const [height, level] = [settings.lowOverBay?.value, bay?.level.value]
  if (bay === undefined || hull === undefined || height === undefined || level === undefined) return []
  const overBay = ({ motion: { from, to } }: TimedMotion): boolean => isOver(bay, from) && isOver(bay, to)
  return spanWhere(course, (pose) => level + height - levelsOf(hull, pose).low, overBay)
}

function isOver({ centre, size }: NonNullable<Pick['bay']>, at: Vec3 | undefined): boolean {
  if (at === undefined) return false
  return ([0, 1] as const).every((k) => Math.abs(at[k] - (centre[k].value as number)) <= (size[k].value as number) / 2)
}

/** First to last moment at which something that changes evenly over a stage is not below zero. */
function spanWhere(
  course: Course,
  of: (pose: Pose) => number,
  counts: (stage: TimedMotion) => boolean = () => true,
): [number, number][] {
  const spans = course.stages.flatMap((stage, i): [number, number][] => {
    const { poses } = stage.motion
    if (poses === undefined || !counts(stage)) return []
    const [from, to] = poses.map(of) as [number, number]
    return spanBelow(from, to, startOf(course, i), course.ends[i] as number)
  })
  if (spans.length === 0) return []
  return [[Math.min(...spans.map(([a]) => a)), Math.max(...spans.map(([, b]) => b))]]
}

/** Depth of the highest point under the collar, m. */
const below = (hull: Hull, pose: Pose, { collar }: Shaft): number =>
  (collar.value as number) - levelsOf(hull, pose).high

/** The part of a stage in which a depth that changes evenly is above zero. */
function spanBelow(from: number, to: number, start: number, end: number): [number, number][] {
  if (from < 0 && to < 0) return []
  if (from >= 0 && to >= 0) return [[start, end]]
  const crossing = start + ((end - start) * from) / (from - to)
  return from >= 0 ? [[start, crossing]] : [[crossing, end]]
}

const FAILURES: readonly Failure[] = ['weather', 'power', 'jack or winch']

/**
 * The nearest safe position from the worst moment of a stage. Weather: at once, to any of them. Power, jack or winch: the load
 * stands until it moves again, then goes to where it no longer hangs.
 */
function refugeOf(
  pick: Pick,
  course: Course,
  positions: readonly HoldingPosition[],
  stage: number,
  failure: Failure,
): Refuge {
  const wanted = failure === 'weather' ? positions : positions.filter(({ hangs }) => !hangs)
  const worst = farthest(course, course.own[0] + stage, wanted)
  const way = found({
    unit: 's',
    value: worst?.time,
    method: `longest way from any moment of the stage to the nearest safe position: ${worst?.position ?? 'not known'}`,
    inputs: course.times,
    residuals: [],
  })
  const standbys = machinesOf(pick).map(({ system, systemAt }) => ({
    name: system.name,
    at: `${systemAt}/standby`,
    standby: system.standby,
  }))
  const position = worst?.position ?? ''
  if (failure === 'weather') return { stage, failure, position, time: way, holds: true }
  const field = failure === 'power' ? 'power' : 'unit'
  return {
    stage,
    failure,
    position,
    time: sumOf(`Until it is safe after a failure: ${failure}`, 's', [
      {
        label: 'until it moves again',
        answer: longest(
          standbys.map(({ name, at, standby }) => ({
            label: name,
            answer: knownOr(standby?.[field], 's', `${at}/${field}`),
          })),
        ),
      },
      { label: position, answer: way },
    ]),
    holds: allHold(standbys.map(({ standby }) => standby?.holds)),
  }
}

const longest = (times: readonly Term<'s'>[]): Answer<'s'> =>
  times.length === 1 ? (times[0] as Term<'s'>).answer : largestOf('The slower of the machines', 's', times)

/** Whether every machine holds: no, where one does not; not known, where one is not. */
const allHold = (holds: readonly (boolean | undefined)[]): boolean | undefined =>
  holds.includes(false) ? false : holds.includes(undefined) ? undefined : true

interface Far {
  time: number
  position: string
}

/** Of all moments of a stage the one from which the nearest position is the farthest. Times are straight in pieces. */
function farthest(course: Course, i: number, positions: readonly HoldingPosition[]): Far | undefined {
  const [from, to] = [startOf(course, i), course.ends[i] as number]
  const nearest = (t: number): Far | undefined => {
    const all = positions.map((p) => ({ time: wayTo(course, i, t, p), position: p.name }))
    if (all.length === 0 || all.some(({ time }) => Number.isNaN(time))) return undefined
    return all.reduce((best, one) => (one.time < best.time ? one : best))
  }
  const ends = positions.flatMap((p) => [p.from.value, p.to.value]).filter((t): t is number => t !== undefined)
  const breaks = [from, to, ...ends.filter((t) => t > from && t < to)].sort((a, b) => a - b)
  const moments = [...breaks, ...breaks.slice(1).map((b, k) => crossing(course, i, breaks[k] as number, b, positions))]
  const all = moments.map(nearest)
  if (all.includes(undefined)) return undefined
  return (all as Far[]).reduce((worst, one) => (one.time > worst.time ? one : worst))
}

/** Where the way back to what lies behind takes as long as the way on to what lies ahead. */
function crossing(course: Course, i: number, a: number, b: number, positions: readonly HoldingPosition[]): number {
  const least = (t: number, ahead: boolean): number =>
    Math.min(
      ...positions
        .filter((p) => (ahead ? (p.from.value ?? 0) >= b : (p.to.value ?? 0) <= a))
        .map((p) => wayTo(course, i, t, p)),
    )
  const [atA, atB] = [least(a, false) - least(a, true), least(b, false) - least(b, true)]
  return Number.isFinite(atA) && Number.isFinite(atB) && atA < 0 && atB > 0 ? a + ((b - a) * -atA) / (atB - atA) : b
}

function wayTo(course: Course, i: number, t: number, { from, to }: HoldingPosition): number {
  const [a, b] = [from.value ?? Number.NaN, to.value ?? Number.NaN]
  if (t < a) return a - t
  if (t <= b) return 0
  return backAt(course, i, t) - backOf(course, b)
}

/** Time back to the very beginning from any moment of the course. */
function backOf(course: Course, t: number): number {
  const i = course.ends.findIndex((end) => t <= end)
  return i < 0 ? (course.backs.at(-1) ?? 0) : backAt(course, i, Math.max(t, course.begin))
}
