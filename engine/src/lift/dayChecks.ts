import { type Answer, found, given, governing, knownOr, largestOf, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { LIFT_CAUTIONS, WIND_CAUTIONS } from './caution.ts'
import { tooMuch, words } from './cure.ts'
import { dayLength, declination } from './day.formulas.ts'
import type { Refuge } from './holding.ts'
import { NONE_ALLOWED } from './hookChecks.ts'
import type { Hull } from './hull.ts'
import { failureHolds, shelterInTime, timeFits } from './kinds.ts'
import { machinesOf } from './machines.ts'
import { type Pick, stretchesOf } from './pick.ts'
import { type LiftStage, stagesOf } from './stages.ts'

/** Whether a lift is over before its shift, daylight and the forecast are. */
export function dayChecks(
  pick: Pick,
  stages: readonly LiftStage[],
  hull: Hull | undefined,
  window: Answer<'s'>,
): Check[] {
  const air = timeToLanded(pick, stages, hull)
  const fits = (
    of: keyof typeof TIME_CURES,
    title: string,
    demand: Answer<'s'>,
    capacity: Answer<'s'>,
    assumptions: readonly string[],
  ) => {
    const needed = withReserve(pick, demand)
    return check({
      kind: timeFits,
      subject: pick.subject,
      of,
      title: `${timeFits.title}: ${title}`,
      demand: needed,
      capacity,
      near: pick.near,
      assumptions,
      cautions: LIFT_CAUTIONS,
      found: tooMuch(needed, capacity, TIME_CURES[of]),
    })
  }
  const { windPolicy, shift, shiftAt, lift } = pick
  return [
    fits('shift', 'shift', air, given('s', shiftAt, shift), [
      'From the load being taken to its being landed; rigging may be done in a shift before.',
    ]),
    ...(lift.lit
      ? []
      : [
          fits('daylight', 'daylight', air, daylightInShift(pick), [
            lift.on === undefined ? 'On the shortest day of the year, for the lift names no day.' : `On ${lift.on}.`,
            'Of the day, what lies within a shift of the lifts, with the sun highest at noon by the clock.',
          ]),
        ]),
    fits('wind', 'forecast', window, knownOr(windPolicy?.sees, 's', '/programme/windPolicy/sees'), [
      'From the point of no return to its being landed; before that point it can go back.',
    ]),
  ]
}

const TIME_CURES = {
  shift: 'faster stages, a place to wait with the load landed, or a longer shift with a second crew',
  daylight: 'faster stages, another day of the year, or light for the whole way (lit)',
  wind: 'faster stages after the point of no return, a place to wait on the way, or a forecast that sees farther',
}

/** Own stages and those of the lifts that go on with it before it is set down. */
function timeToLanded(pick: Pick, stages: readonly LiftStage[], hull: Hull | undefined): Answer<'s'> {
  const all = [...stages, ...pick.after.flatMap((next) => stagesOf(next, hull))]
  return sumOf(
    'Time until the piece is landed',
    's',
    all.map(({ name, time }, i) => ({ label: `${i + 1}. ${name}`, answer: time })),
  )
}

const withReserve = ({ settings }: Pick, time: Answer<'s'>): Answer<'s'> =>
  sumOf('Time that must be there', 's', [
    { label: 'needed', answer: time },
    { label: 'kept in hand', answer: knownOr(settings.liftReserve, 's', '/settings/liftReserve') },
  ])

const DAY = 86_400

/** Longest daylight within a stretch of shifts; all of it where no calendar says when they are. */
function daylightInShift(pick: Pick): Answer<'s'> {
  const light = daylight(pick)
  if (pick.shifts === undefined || light.value === undefined) return light
  const [rise, set] = [(DAY - light.value) / 2, (DAY + light.value) / 2]
  const lit = stretchesOf(pick.shifts).flatMap(([begin, end]) =>
    [0, DAY].map((day) => Math.min(end, set + day) - Math.max(begin, rise + day)),
  )
  return found({
    unit: 's',
    value: Math.max(0, ...lit),
    method: 'longest daylight within a stretch of shifts, the sun highest at noon by the clock',
    inputs: { daylight: light, shifts: given('s', pick.shiftAt, pick.shift) },
    residuals: [],
  })
}

/** From sunrise to sunset on the day of the lift, else on the shortest of the year. */
function daylight({ climate, lift, at }: Pick): Answer<'s'> {
  const phi = knownOr(climate?.latitude, 'rad', '/climate/latitude')
  const winter = (phi.value ?? 0) >= 0 ? 355 : 172
  const n =
    lift.on === undefined ? stated('1', winter, 'shortest day of the year') : given('1', `${at}/on`, dayOfYear(lift.on))
  return dayLength.show({ phi, delta: declination.show({ n }), D: stated('s', DAY, 'a day') })
}

/** Day of the year of a date, 1 on 1 January. */
export function dayOfYear(date: string): number {
  const [year, month, day] = date.split('-').map(Number) as [number, number, number]
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const lengths = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
  return lengths.slice(0, month - 1).reduce((sum, l) => sum + l, day)
}

/** Whether the wind that a forecast shows can be escaped, and what a failure leaves hanging. */
export function holdingChecks(pick: Pick, refuges: readonly Refuge[]): Check[] {
  const named = (failures: readonly Refuge['failure'][]) =>
    refuges
      .filter(({ failure }) => failures.includes(failure))
      .map(({ stage, failure, position, time }) => ({
        label: `stage ${stage + 1}, ${failure}, to ${position === '' ? 'a safe position' : position}`,
        answer: time,
      }))
  const holds = machinesOf(pick).map(({ system, systemAt }) => ({
    at: `${systemAt}/standby/holds`,
    name: system.name,
    value: system.standby?.holds,
  }))
  const letsDown = holds.filter(({ value }) => value === false)
  // one that is known to let the load down fails whatever the other does
  const lost = letsDown.length === 0 && holds.some(({ value }) => value === undefined) ? undefined : letsDown.length
  const failing = named(['power', 'jack or winch'])
  const shelter = largestOf('Longest way to a position out of the wind', 's', named(['weather']))
  const sees = knownOr(pick.windPolicy?.sees, 's', '/programme/windPolicy/sees')
  return [
    check({
      kind: shelterInTime,
      subject: pick.subject,
      demand: shelter,
      capacity: sees,
      near: pick.near,
      found: [
        `${governing(shelter)?.label ?? 'the longest way'} takes ${words(shelter)}, the forecast sees ${words(sees)} ahead: a nearer place to wait, faster stages, or a forecast that sees farther`,
      ],
      assumptions: ['In its seat, wholly below the collar, or landed it is out of the wind.'],
      cautions: WIND_CAUTIONS,
    }),
    check({
      kind: failureHolds,
      subject: pick.subject,
      demand: found({
        unit: '1',
        value: lost,
        method: 'systems that let the load down without power; the time to safety from each stage is known',
        inputs:
          letsDown.length > 0
            ? {}
            : {
                ...Object.fromEntries(
                  holds.map(({ at, name, value }, i) => [
                    i === 0 ? 'lets the load down' : `lets the load down, ${name}`,
                    given('1', at, value === undefined ? undefined : Number(!value)),
                  ]),
                ),
                ...Object.fromEntries(failing.map(({ label, answer }) => [label, answer])),
              },
        residuals: [],
      }),
      capacity: NONE_ALLOWED,
      near: pick.near,
      found: letsDown.map(
        ({ name }) =>
          `${name}: brakes, wedges or locks do not hold the load without power; have them made to hold, or take another machine`,
      ),
      assumptions: ['What the load hangs on meanwhile is held by the machine; nobody goes under it.'],
      cautions: LIFT_CAUTIONS,
    }),
  ]
}
