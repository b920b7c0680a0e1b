import type { LiftResult } from '../lift/index.ts'
import type { Climate, Model, Programme } from '../model/index.ts'
import { type Activity, localAt, type ProgrammeResult } from '../programme/index.ts'
import { type Answer, found, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { windWindow } from './kinds.ts'
import { daysLost } from './wind.formulas.ts'
import { stoppingMean } from './wind.ts'
import { calmShare, roundTheClock, windowChance } from './window.ts'

/** Wind on one lift of the plan. */
export interface WindowResult {
  /** Activity that carries it out. */
  activity: string
  lift: string
  /** Hourly mean at the mast that stops it. */
  limit: Answer<'m/s'>
  /** Whole hours of calm it needs: from its point of no return until it is landed, by lifts that go on with it too. */
  hours: number
  needed: Answer<'s'>
  /**
   * Share of calm hours in the shift, chance of a window on a working day, and mean hours to the end of a window were there
   * no shifts; January first, empty when unknown.
   */
  months: readonly { share: number; chance: number; roundTheClock: number }[]
  /** Month of the planned start, 1 … 12. */
  month: number
  /** Chance in that month, and working days lost on average before a window opens. */
  chance: Answer<'1'>
  daysLost: Answer<'1'>
}

const HOUR = 3600
const LIFT_KINDS: ReadonlySet<Activity['kind']> = new Set(['lift', 'turn', 'lift back', 'turn back'])

/** Wind windows of every lift of the plan that waits for wind, each worked again only when its wind, its time or its climate has changed. */
export function windowsOf(model: Model, lifts: LiftResult, programme: ProgrammeResult, memory: Memory): WindowResult[] {
  const typed = model.project.programme
  if (typed === undefined) return []
  return Object.values(programme.activities).flatMap((activity) => {
    const { lift, calendar, kind, state } = activity
    if (
      lift === undefined ||
      state === 'done' ||
      !LIFT_KINDS.has(kind) ||
      typed.calendars[calendar]?.windLimited !== true
    )
      return []
    const { climate, systems, shaft, ground } = model.project
    const outcome = lifts.lifts[lift]
    const wind = [outcome?.allowableWind, outcome?.pointOfNoReturn.window, model.project.lifts[lift]]
    const from = [
      ...wind,
      activity,
      programme.plan[activity.id],
      programme.solved,
      climate,
      systems,
      shaft,
      ground,
      typed,
    ]
    return [
      memory.once(`risk/window-of/${activity.id}`, from, () =>
        windowOf(model, typed, lifts, programme, { ...activity, lift }, memory),
      ),
    ]
  })
}

function windowOf(
  model: Model,
  typed: Programme,
  lifts: LiftResult,
  { plan, solved }: ProgrammeResult,
  activity: Activity & { lift: string },
  memory: Memory,
): WindowResult {
  const { climate } = model.project
  const limit = stoppingMean(model, lifts.lifts, activity.lift)
  const needed = knownOr(lifts.lifts[activity.lift]?.pointOfNoReturn?.window, 's', pointerOf('lifts', activity.lift))
  const hours = Math.max(1, Math.ceil((needed.value ?? 0) / HOUR))
  const start = plan[activity.id]?.start
  const month = solved === undefined || start === undefined ? 1 : localAt(solved.zone, start).month
  const shift = shiftOf(typed, activity.calendar)
  const months =
    climate === undefined || limit.value === undefined || needed.value === undefined
      ? []
      : memory.once(`risk/window/${limit.value}/${hours}/${shift.from}/${shift.hours}`, [climate], () =>
          monthly(climate, limit.value as number, shift, hours),
        )
  const chance = found({
    unit: '1',
    value: months[month - 1]?.chance,
    method: `chance of ${hours} calm hours in a row between ${shift.from}:00 and ${shift.from + shift.hours}:00, two states by the hour`,
    inputs: { limit, needed, ...climateInputs(climate, month) },
    residuals: [],
  })
  return {
    activity: activity.id,
    lift: activity.lift,
    limit,
    hours,
    needed,
    months,
    month,
    chance,
    daysLost: daysLost.show({ p: chance }),
  }
}

function monthly(climate: Climate, limit: number, shift: { from: number; hours: number }, needed: number) {
  return Array.from({ length: 12 }, (_, m) => {
    const at = { month: m + 1, ...shift }
    return {
      share: calmShare(climate, limit, at),
      chance: windowChance(climate, limit, at, needed),
      roundTheClock: roundTheClock(climate, limit, m + 1, needed),
    }
  })
}

/** Whole hours of the first shift of a calendar, with those that follow on without a break. */
export function shiftOf({ calendars }: Programme, calendar: string): { from: number; hours: number } {
  const shifts = [...(calendars[calendar]?.shifts ?? [])].sort()
  const minutes = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3))
  const [first] = shifts
  if (first === undefined) return { from: 0, hours: 24 }
  let end = minutes(first[1])
  for (const [from, to] of shifts.slice(1)) if (minutes(from) <= end) end = Math.max(end, minutes(to))
  const start = minutes(first[0])
  const length = end > start ? end - start : end + 1440 - start
  return { from: Math.ceil(start / 60), hours: Math.floor(length / 60) }
}

function climateInputs(climate: Climate | undefined, month: number): Record<string, Answer> {
  const typed = climate?.months[month - 1]
  const at = pointerOf('climate', 'months', month - 1)
  return {
    scale: knownOr(typed?.scale, 'm/s', `${at}/scale`),
    shape: knownOr(typed?.shape, '1', `${at}/shape`),
    persistence: knownOr(climate?.persistence, '1', '/climate/persistence'),
  }
}

/** Each lift's chance of a window against the least that the project accepts. */
export function windowCheck(model: Model, window: WindowResult, name: string): Check {
  const lost = window.daysLost.value
  return check({
    kind: windWindow,
    subject: { pointer: pointerOf('lifts', window.lift), id: window.lift, name },
    of: window.activity,
    demand: knownOr(model.project.programme?.windowChance, '1', '/programme/windowChance'),
    capacity: window.chance,
    near: model.near,
    found:
      lost === undefined
        ? []
        : [`about ${lost.toFixed(1)} working days lost before a window opens, in month ${window.month}`],
    assumptions: ['wind by the hour, first-order persistence; days taken each for itself'],
    cautions: ['The wind measured and forecast on the day decides, and the person who may stop the lift.'],
  })
}
