import { expect, test } from 'vitest'
import { modelOf, programmeFor, programmeOf, task } from './programme.fixture.ts'
import { shiftsAt } from './shift.ts'

const HOUR = 3600
const calendars = {
  day: { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], shifts: [['07:00', '15:00']], hoursPerDay: 8 },
  two: {
    days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'],
    shifts: [
      ['06:00', '15:00'],
      ['15:00', '24:00'],
    ],
    hoursPerDay: 18,
  },
  night: { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], shifts: [['19:00', '07:00']], hoursPerDay: 12 },
}
// begins on Monday 3 November 2031
const document = {
  programme: programmeOf({
    calendars,
    activities: {
      A: task({ calendar: 'day', days: [8, 8, 8] }),
      B: task({ calendar: 'two', days: [0.75, 0.75, 0.75] }),
      C: task({ calendar: 'two', days: [1, 1, 1], after: [{ to: 'B' }] }),
      N: task({ calendar: 'night', days: [2, 2, 2] }),
    },
  }),
}
const result = programmeFor(document)
const typed = modelOf(document).project.programme as NonNullable<ReturnType<typeof modelOf>['project']['programme']>
const at = (day: number, hour: number) =>
  shiftsAt(result, typed, (day * 24 + hour) * HOUR).map(({ calendar, start, end, isUnderWay, work }) => [
    `${calendar} ${isUnderWay ? 'now' : 'next'} ${start / HOUR}-${end / HOUR}`,
    ...work.map(({ id, from, until, finish }) => `${id} ${from / HOUR}-${until / HOUR}${finish <= end ? ' ends' : ''}`),
  ])

test('each calendar has the shift under way with the hours of its work, a shift of two each on its own', () => {
  expect(at(0, 10)).toEqual([
    ['two now 6-15', 'B 6-15'],
    ['day now 7-15', 'A 7-15'],
    ['night next 19-31', 'N 19-31'],
  ])
  expect(at(0, 20)).toEqual([
    ['two now 15-24', 'B 15-19.5 ends', 'C 19.5-24'],
    ['night now 19-31', 'N 19-31'],
    ['day next 31-39', 'A 31-39'],
  ])
})

test('a night shift that began yesterday is still under way before dawn', () => {
  expect(at(1, 3).find(([line]) => line?.startsWith('night'))).toEqual(['night now 19-31', 'N 19-31'])
})

test('what has ended is in it no more', () => {
  expect(at(3, 10)).toEqual([['day now 79-87', 'A 79-87']])
})

test('on a day of rest it is the next shift; when all is done there is none', () => {
  expect(at(5, 12)).toEqual([['day next 175-183', 'A 175-183']])
  expect(at(30, 12)).toEqual([])
})

test('a curfew that leaves an activity no hour of a shift keeps it out', () => {
  const late = { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], shifts: [['16:00', '22:00']], hoursPerDay: 6 }
  const held = {
    programme: programmeOf({
      calendars: { ...calendars, late },
      activities: { B: task({ calendar: 'two', days: [0.75, 0.75, 0.75], within: ['late'] }) },
    }),
  }
  const of = (hour: number) => shiftsAt(programmeFor(held), typed, hour * HOUR).flatMap(({ work }) => work)
  expect(of(10)).toEqual([])
  expect(of(20).map(({ from, until }) => [from / HOUR, until / HOUR])).toEqual([[16, 22]])
})

test('a shift that ends when it starts says neither a whole day nor none, and is refused with what to write', () => {
  const whole = { ...calendars.day, shifts: [['07:00', '07:00']] }
  const said = () => programmeFor({ programme: programmeOf({ calendars: { ...calendars, day: whole } }) })
  expect(said).toThrow(/calendars\/day\/shifts\/0.*another time than it starts; day and night are two shifts/)
})
