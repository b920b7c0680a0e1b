import { expect, test } from 'vitest'
import { dateIn, slipPatch, workingDays } from './slip.ts'

const day = (text: string): number => Date.parse(text)

test('dates are taken as they are written, and none that the calendar does not have', () => {
  expect(dateIn('2033-02-01')).toBe(day('2033-02-01'))
  expect(dateIn(' 1 Feb 2033 ')).toBe(day('2033-02-01'))
  expect(dateIn('Tue 1 February 2033')).toBe(day('2033-02-01'))
  expect(dateIn('30 Feb 2033')).toBeUndefined()
  expect(dateIn('in March')).toBeUndefined()
})

test('working days leave out weekends and holidays, and count back as they count on', () => {
  const office = { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'], holidays: ['2032-12-27'] }
  // Thu 23 Dec 2032 to Thu 30 Dec 2032: Fri, Tue, Wed, Thu
  expect(workingDays(day('2032-12-23'), day('2032-12-30'), office)).toBe(4)
  expect(workingDays(day('2032-12-30'), day('2032-12-23'), office)).toBe(-4)
  expect(workingDays(day('2032-12-23'), day('2032-12-30'), undefined)).toBe(7)
})

const programme = {
  calendars: { all: { days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] } },
  activities: { B060: { calendar: 'all', days: [345, 385, 470] } },
}

test('a bearing promised a month later takes a month longer, at its least, likely and greatest', () => {
  expect(slipPatch(programme, 'B060', day('2033-01-14') + 61_200_000, day('2033-02-14'))).toEqual([
    { op: 'replace', path: '/programme/activities/B060/days', value: [376, 416, 501] },
    { op: 'add', path: '/programme/activities/B060/finishBy', value: '2033-02-14' },
  ])
})

test('a promise before the order is refused in words', () => {
  expect(slipPatch(programme, 'B060', day('2033-01-14'), day('2031-12-01'))).toContain(
    'before it can have been ordered',
  )
})
