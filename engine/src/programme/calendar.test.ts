import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  addWork,
  type Calendar,
  calendarOf,
  finishAt,
  intersectionOf,
  startAt,
  subtractWork,
  unbrokenFrom,
  unbrokenUntil,
  unionOf,
  workAt,
} from './calendar.ts'
import { type CalendarRule, calendarFrom, secondsOfDay, stretchOf } from './calendars.ts'
import { dayNumber, elapsedAt, instantOf, localAt, weekdayOf, zoneFrom } from './zone.ts'

const H = 3600
const rule = (text: Partial<CalendarRule>): CalendarRule => ({
  days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
  shifts: [
    ['07:00', '12:00'],
    ['13:00', '16:00'],
  ],
  hoursPerDay: 8,
  holidays: [],
  windLimited: false,
  ...text,
})
const zone = zoneFrom('2026-06-01', 'UTC', 30)
const five = calendarFrom('five', rule({}), zone)
const at = (text: string): number => (Date.parse(`${text}:00Z`) - zone.origin) / 1000
const clock = (t: number): string => instantOf(zone, t).slice(0, 16)

describe('working time (derived by hand, clock-change rule from the IANA time-zone database)', () => {
  test('20 working hours from Thursday 14:00 end on Tuesday at 09:00, and counted back begin there', () => {
    expect(clock(addWork(five, at('2026-06-04T14:00'), 20 * H))).toBe('2026-06-09T09:00')
    expect(clock(subtractWork(five, at('2026-06-09T09:00'), 20 * H))).toBe('2026-06-04T14:00')
  })

  test('with Friday a holiday they end a day later', () => {
    const holiday = calendarFrom('five', rule({ holidays: ['2026-06-05'] }), zone)
    expect(clock(addWork(holiday, at('2026-06-04T14:00'), 20 * H))).toBe('2026-06-10T09:00')
  })

  test('eight hours end with the shift, and the successor starts with the next: one working instant', () => {
    const end = addWork(five, at('2026-06-05T07:00'), 8 * H)
    expect(clock(end)).toBe('2026-06-05T16:00')
    expect(clock(startAt(five, end))).toBe('2026-06-08T07:00')
    expect(workAt(five, end)).toBe(workAt(five, startAt(five, end)))
  })

  test('a lift of six hours that is ready at 14:30 waits for a shift that holds it', () => {
    const lifts = calendarFrom('lift', rule({ shifts: [['07:00', '19:00']] }), zone)
    expect(clock(unbrokenFrom(lifts, at('2026-06-04T14:30'), 6 * H))).toBe('2026-06-05T07:00')
    expect(unbrokenFrom(lifts, 0, 13 * H)).toBe(Number.POSITIVE_INFINITY)
    expect(clock(unbrokenUntil(lifts, at('2026-06-05T11:00'), 6 * H))).toBe('2026-06-04T13:00')
  })

  test('a crew inside a noise window works in both only', () => {
    const window = calendarFrom(
      'noise',
      rule({ days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'], shifts: [['08:00', '18:00']] }),
      zone,
    )
    const both = intersectionOf([five, window])
    expect(clock(startAt(both, at('2026-06-04T07:00')))).toBe('2026-06-04T08:00')
    expect(clock(addWork(both, at('2026-06-04T07:00'), 12 * H))).toBe('2026-06-05T14:00')
  })

  test('a night shift has seven hours when clocks go forward, nine when they go back, eight otherwise', () => {
    const central = zoneFrom('2026-01-01', 'CET', 2)
    const night = (date: string): number => {
      const day = dayNumber(date)
      return (elapsedAt(central, day + 1, 6 * H) - elapsedAt(central, day, 22 * H)) / H
    }
    expect([night('2026-03-28'), night('2026-10-24'), night('2026-06-06')]).toEqual([7, 9, 8])
    expect(instantOf(central, elapsedAt(central, dayNumber('2026-03-28'), 22 * H))).toBe('2026-03-28T21:00:00Z')
    expect(localAt(central, elapsedAt(central, dayNumber('2026-10-25'), 6 * H))).toMatchObject({
      date: '2026-10-25',
      time: '06:00',
    })
  })

  test('the weekday is right', () => {
    expect(weekdayOf(dayNumber('2026-06-04'))).toBe(3)
  })

  test('a typed day takes the whole of its shifts, and an hour of a rate its share of them', () => {
    const long = rule({ shifts: [['07:00', '19:00']], hoursPerDay: 10 })
    expect(secondsOfDay(long)).toBe(12 * H)
    expect(stretchOf(long)).toBeCloseTo(1.2, 12)
  })
})

const stretches = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 1, max: 90_000 })), {
    minLength: 1,
    maxLength: 30,
  })
  .map((gaps) => {
    let t = 0
    return calendarOf(
      'random',
      gaps.map(([gap, length]): [number, number] => {
        const start = t + gap * 1000
        t = start + length
        return [start, t]
      }),
    )
  })
const total = (c: Calendar): number => workAt(c, Number.MAX_SAFE_INTEGER)

describe('laws of working time', () => {
  test('adding and taking away work are each other’s inverse on working time', () => {
    fc.assert(
      fc.property(stretches, fc.nat(200_000), fc.nat(200_000), (c, time, work) => {
        fc.pre(workAt(c, time) + work <= total(c) && work > 0)
        const end = addWork(c, time, work)
        expect(workAt(c, end) - workAt(c, time)).toBeCloseTo(work, 6)
        expect(workAt(c, subtractWork(c, end, work))).toBeCloseTo(workAt(c, time), 6)
        expect(subtractWork(c, end, work)).toBeGreaterThanOrEqual(time - 1e-6)
      }),
    )
  })

  test('a later start never finishes earlier', () => {
    fc.assert(
      fc.property(
        stretches,
        fc.nat(200_000),
        fc.nat(5000),
        fc.integer({ min: 1, max: 50_000 }),
        (c, time, later, work) => {
          expect(addWork(c, time + later, work)).toBeGreaterThanOrEqual(addWork(c, time, work))
        },
      ),
    )
  })

  test('an instant and its alignments are one working instant', () => {
    fc.assert(
      fc.property(stretches, fc.nat(300_000), (c, time) => {
        const next = startAt(c, time)
        if (Number.isFinite(next)) expect(workAt(c, next)).toBeCloseTo(workAt(c, time), 6)
        expect(workAt(c, finishAt(c, time))).toBeCloseTo(workAt(c, time), 6)
        expect(finishAt(c, time)).toBeLessThanOrEqual(time)
      }),
    )
  })

  test('what lies in both and what lies in either add up to both', () => {
    fc.assert(
      fc.property(stretches, stretches, (a, b) => {
        expect(total(intersectionOf([a, b])) + total(unionOf([a, b]))).toBeCloseTo(total(a) + total(b), 4)
      }),
    )
  })
})
