import { expect, test } from 'vitest'
import { checkIn, withPapers } from './programme.fixture.ts'

const KIND = 'programme.papers.in-date'
const permit = (on: string, until?: string) => ({
  permitToLoad: { by: 'coordinator', on, ...(until === undefined ? {} : { until }) },
})

// its work in the shaft comes first: the plan has the lift from Monday 2031-11-03 to Tuesday the fourth
test.each([
  ['holds on just these days', '2031-11-04', permit('2031-11-03', '2031-11-04'), 'pass'],
  ['has no end', '2031-11-04', permit('2031-10-01'), 'pass'],
  ['certificate ends the day before', '2031-11-03', permit('2031-10-01'), 'fail'],
  ['permit begins on the second day', '2031-11-30', permit('2031-11-04'), 'fail'],
  ['permit ended the day before', '2031-11-30', permit('2031-10-01', '2031-11-03'), 'fail'],
  [
    'may be taken away before the lift',
    '2031-11-30',
    { ...permit('2031-10-01'), permitToUnload: { by: 'coordinator', on: '2031-11-03' } },
    'fail',
  ],
  ['permit not given yet', '2031-11-30', {}, 'open'],
])('a paper that %s', (_, certificateUntil, work, verdict) => {
  expect(checkIn(withPapers({ certificateUntil }, work), KIND).verdict).toBe(verdict)
})

test('a certificate that ran out is a fault whatever else is missing, named with both days', () => {
  const made = checkIn(withPapers({ certificateUntil: '2031-10-31' }, {}), KIND)
  expect(made.verdict).toBe('fail')
  expect(made.reasons.join(' ')).toMatch(
    /Sling \(sling\): its certificate ends on 2031-10-31, the plan has the lift until 2031-11-04/,
  )
})

test('a lift that the plan does not have is open, by the day that it could state', () => {
  const made = checkIn(withPapers({ certificateUntil: '2031-12-31' }, permit('2031-10-01'), { order: [] }), KIND)
  expect(made.verdict).toBe('open')
  expect(JSON.stringify(made.demand)).toContain('/lifts/crown-out/on')
})
