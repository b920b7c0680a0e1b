import type { Programme } from '../model/index.ts'
import { ALWAYS, type Calendar, calendarOf } from './calendar.ts'
import { dayNumber, elapsedAt, localAt, weekdayOf, type Zone } from './zone.ts'

export type CalendarRule = Programme['calendars'][string]

/** How far working time is written out; no recovery takes so long. */
export const HORIZON_YEARS = 12

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const
const HOUR = 3600
const DAY = 86_400

/** A calendar's working stretches from its days, shifts and holidays in the zone. */
export function calendarFrom(id: string, rule: CalendarRule, zone: Zone): Calendar {
  const shifts = shiftsOf(rule)
  if (worksAlways(rule, shifts)) return { ...ALWAYS, id }
  const isOpen = openDays(rule)
  const stretches: [number, number][] = []
  // a shift past midnight that began on the day before reaches into the first day
  for (let day = zone.firstDay - 1; day < zone.firstDay + HORIZON_YEARS * 366; day++) {
    if (!isOpen(day)) continue
    for (const [start, end] of shifts) {
      stretches.push([Math.max(0, elapsedAt(zone, day, start)), elapsedAt(zone, day, end)])
    }
  }
  return calendarOf(id, stretches)
}

/** How far the next shift is looked for: longer holidays end a look-ahead too. */
const DAYS_AHEAD = 21

/** Start and end of the shift that holds an instant, else of the next to begin, elapsed seconds; undefined when there is none soon. */
export function shiftAround(rule: CalendarRule, zone: Zone, now: number): readonly [number, number] | undefined {
  const today = dayNumber(localAt(zone, now).date)
  const isOpen = openDays(rule)
  for (let day = today - 1; day <= today + DAYS_AHEAD; day++) {
    if (!isOpen(day)) continue
    for (const [from, to] of shiftsOf(rule)) {
      const end = elapsedAt(zone, day, to)
      if (end > now) return [elapsedAt(zone, day, from), end]
    }
  }
  return undefined
}

/** Whether a calendar works on a day: its weekday, no holiday, inside the spans it works in alone. */
function openDays(rule: CalendarRule): (day: number) => boolean {
  const holidays = new Set(rule.holidays.map(dayNumber))
  const spans = rule.only?.map(([first, last]) => [dayNumber(first), dayNumber(last)] as const)
  const works = DAYS.map((day) => rule.days.includes(day))
  return (day) =>
    works[weekdayOf(day)] === true &&
    !holidays.has(day) &&
    (spans?.some(([first, last]) => first <= day && day <= last) ?? true)
}

const worksAlways = (rule: CalendarRule, shifts: readonly [number, number][]): boolean =>
  rule.days.length >= 7 && rule.holidays.length === 0 && rule.only === undefined && shiftSeconds(shifts) >= DAY

/** Shifts of a day as seconds after midnight, in rising order; one that passes midnight ends after 24:00. */
function shiftsOf({ shifts }: CalendarRule): [number, number][] {
  return shifts
    .map(([start, end]): [number, number] => {
      const [from, to] = [secondOf(start), secondOf(end)]
      return [from, to > from ? to : to + DAY]
    })
    .sort((a, b) => a[0] - b[0])
}

const secondOf = (time: string): number => Number(time.slice(0, 2)) * HOUR + Number(time.slice(3)) * 60

const shiftSeconds = (shifts: readonly [number, number][]): number =>
  shifts.reduce((sum, [start, end]) => sum + end - start, 0)

/** Clock seconds that one typed working day takes on a calendar: its shifts; its productive hours where they are longer. */
export const secondsOfDay = (rule: CalendarRule): number =>
  Math.max(shiftSeconds(shiftsOf(rule)), rule.hoursPerDay * HOUR)

/** Clock seconds in the shifts for each second of productive time. */
export const stretchOf = (rule: CalendarRule): number => secondsOfDay(rule) / (rule.hoursPerDay * HOUR)
