import { expect, test } from 'vitest'
import { checkIn, twoLifts } from './programme.fixture.ts'

const KIND = 'programme.rigging.at-once'

test('slings still under the piece that is set down are not there for the next one', () => {
  const short = checkIn(twoLifts(3), KIND)
  expect(short.verdict).toBe('fail')
  expect(short.reasons.join()).toMatch(/Sling sling: 4 taken at once, 3 on hand: .*Crown.*Lock/)
  expect(checkIn(twoLifts(4), KIND).verdict).toBe('pass')
})

test('one spreader does not hang from two hooks', () => {
  const hung = { hours: 3, gear: ['SP'] }
  expect(checkIn(twoLifts(4, { second: hung }), KIND).verdict).toBe('pass')
  const twice = checkIn(twoLifts(4, { first: hung, second: hung }), KIND)
  expect(twice.verdict).toBe('fail')
  expect(twice.reasons.join()).toContain('Spreader SP: 2 taken at once, 1 on hand')
})
