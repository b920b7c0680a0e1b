import { placedSupport } from '../../numeric/body.ts'
import { compose, distance, type Pose } from '../../numeric/vector.ts'
import type { Activity } from '../../programme/index.ts'
import { DAY } from '../civil.ts'
import type { Standing } from '../outline/picture.ts'
import { standing } from '../sheet/subject.ts'
import type { Reading } from './campaign.ts'

/** Lowest and highest point of the piece at an instant: site z, m. */
export interface Height {
  at: number
  low: number
  high: number
}

/** One lift as the plan carries it out. */
export interface LiftRun {
  activity: string
  lift: string
  piece: string
  name: string
  short: string
  kind: 'out' | 'back' | 'turn' | 'move'
  start: number
  finish: number
  /** From rigging to unrigging. */
  rigged: number
  landed: number
  heights: readonly Height[]
  demand: number | undefined
  allowed: number | undefined
  use: number | undefined
  wind: number | undefined
  /** Turning, on two hooks, or over three quarters of what the plan may use. */
  isClose: boolean
  fails: boolean
}

/** A day of the calendar with its lifts. */
export interface LiftDay {
  /** Days from the first local midnight. */
  day: number
  runs: readonly LiftRun[]
}

/** First and last hour of the working day of lifts. */
export interface LiftHours {
  from: number
  to: number
}

const HOISTING: ReadonlySet<Activity['kind']> = new Set(['lift', 'turn', 'lift back', 'turn back'])

/** Days with a lift, in their order; a lift belongs to the day on which it begins. */
export function liftDaysOf(reading: Reading): LiftDay[] {
  const days = new Map<number, LiftRun[]>()
  for (const activity of Object.values(reading.programme.activities)) {
    const run = HOISTING.has(activity.kind) ? runOf(activity, reading) : undefined
    if (run === undefined) continue
    const day = Math.floor(run.start / DAY)
    days.set(day, [...(days.get(day) ?? []), run])
  }
  return [...days]
    .map(([day, runs]) => ({ day, runs: runs.sort((a, b) => a.start - b.start) }))
    .sort((a, b) => a.day - b.day)
}

const CLOSE_USE = 0.75

function runOf(activity: Activity, reading: Reading): LiftRun | undefined {
  const { model, lift } = reading
  const outcome = activity.lift === undefined ? undefined : lift.lifts[activity.lift]
  const when = reading.when(activity.id)
  const typed = outcome === undefined ? undefined : model.project.lifts[outcome.id]
  if (outcome === undefined || when === undefined || typed === undefined) return undefined
  const piece = model.project.pieces[outcome.piece]
  const { demand, allowed } = outcome
  const use = demand.value === undefined || !allowed.value ? undefined : demand.value / allowed.value
  const own = Object.values(reading.programme.activities).filter(
    (a) => a.lift === outcome.id && a.step === activity.step,
  )
  const times = own.flatMap((a) => reading.when(a.id) ?? [])
  return {
    activity: activity.id,
    lift: outcome.id,
    piece: outcome.piece,
    name: piece?.name ?? outcome.piece,
    short: piece?.short ?? piece?.name ?? outcome.piece,
    kind: outcome.kind,
    ...when,
    rigged: Math.min(when.start, ...times.filter((t) => t.finish <= when.start).map((t) => t.start)),
    landed: Math.max(when.finish, ...times.filter((t) => t.start >= when.finish).map((t) => t.finish)),
    heights: heightsOf(outcome.id, when, reading),
    demand: demand.value,
    allowed: allowed.value,
    use,
    wind: outcome.allowableWind.value,
    isClose: typed.tail !== undefined || outcome.kind === 'turn' || (use ?? 0) > CLOSE_USE,
    fails: outcome.checks.some((c) => c.verdict === 'fail'),
  }
}

/**
 * Heights of the piece along its way: at each pose of the order, spread over the hook time by how long each move takes at the
 * speeds of hook and system. Between two poses it is drawn straight.
 */
function heightsOf(id: string, { start, finish }: { start: number; finish: number }, reading: Reading): Height[] {
  const { model, mass, strip } = reading
  const { steps, lifts, systems } = model.project
  const out = strip.steps.filter((s) => s.lift === id)
  const back = strip.steps.filter((s) => steps[s.step]?.back === id)
  const carried = out.length > 0 ? out : back
  const [first, ...others] = carried
  if (first === undefined) return []
  const forward = [...first.poses, ...others.flatMap((s) => s.poses.slice(1))]
  const poses = out.length > 0 ? forward : [...forward].reverse()
  const bodies = standing({ model, mass }, first.parts)
  if (bodies.length === 0) return []
  const bounds = poses.map((pose) => boundsAt(bodies, pose))
  const lift = lifts[id]
  const system = lift === undefined ? undefined : systems[lift.system]
  const hoist = (lift === undefined ? undefined : system?.hooks[lift.hook]?.speed?.value) ?? 1
  const travel = system?.travelSpeed?.value ?? Number.POSITIVE_INFINITY
  const spent = bounds.slice(1).map((b, i) => timeBetween(bounds[i] as Bound, b, hoist, travel))
  const whole = spent.reduce((sum, t) => sum + t, 0)
  let done = 0
  return bounds.map(({ low, high }, i) => {
    if (i > 0) done += spent[i - 1] as number
    return { at: start + (whole > 0 ? done / whole : i / bounds.length) * (finish - start), low, high }
  })
}

interface Bound {
  low: number
  high: number
  x: number
  y: number
}

function boundsAt(bodies: readonly Standing[], by: Pose): Bound {
  const placed = bodies.map(({ body, pose }) => ({ body, pose: compose(by, pose) }))
  const reach = (way: readonly [number, number, number]): number =>
    Math.max(...placed.map((p) => placedSupport(p, way)))
  return {
    low: -reach([0, 0, -1]),
    high: reach([0, 0, 1]),
    x: (reach([1, 0, 0]) - reach([-1, 0, 0])) / 2,
    y: (reach([0, 1, 0]) - reach([0, -1, 0])) / 2,
  }
}

const timeBetween = (a: Bound, b: Bound, hoist: number, travel: number): number =>
  Math.max(Math.abs(b.low - a.low), Math.abs(b.high - a.high)) / hoist + distance([a.x, a.y, 0], [b.x, b.y, 0]) / travel

/** From the first shift's begin to the last one's end, over the calendars that lifts go by. */
export function liftHours({ model, programme }: Reading): LiftHours {
  const typed = model.project.programme
  const calendars = new Set(
    Object.values(programme.activities)
      .filter((a) => HOISTING.has(a.kind) && a.lift !== undefined)
      .map((a) => a.calendar),
  )
  const shifts = [...calendars].flatMap((id) => typed?.calendars[id]?.shifts ?? [])
  const hour = (time: string): number => Number(time.slice(0, 2)) + Number(time.slice(3)) / 60
  const from = Math.floor(Math.min(24, ...shifts.map(([a]) => hour(a))))
  const to = Math.ceil(Math.max(0, ...shifts.map(([a, b]) => (hour(b) > hour(a) ? hour(b) : 24))))
  return to - from >= 4 ? { from, to } : { from: 6, to: 20 }
}
