import { expect, test } from 'vitest'
import { punchOf } from './punchList.fixture.ts'

const closedOn = (on: string) => ({ closed: { by: 'inspector', on } })
const verdict = (...asked: Parameters<typeof punchOf>) => punchOf(...asked).map((c) => c.verdict)

test('an item that blocks is open until it is closed, and one for later is not asked about', () => {
  expect(verdict({})).toEqual(['open'])
  expect(verdict(closedOn('2033-02-03'))).toEqual(['pass'])
  expect(verdict({ blocks: 'nothing' })).toEqual([])
})

test('a test read while its item stands fails it, and the reading that found it does not', () => {
  expect(verdict({}, '2033-02-01')).toEqual(['open'])
  expect(verdict({}, '2033-02-02')).toEqual(['fail'])
  expect(verdict(closedOn('2033-02-03'), '2033-02-02', '2033-02-04')).toEqual(['fail'])
  expect(verdict(closedOn('2033-02-03'), '2033-02-01', '2033-02-03')).toEqual(['pass'])
})

test('an item closed before it was found, or of a test that is not there, is refused at its place', () => {
  expect(() => punchOf(closedOn('2033-01-31'))).toThrow('/punchList/P1/closed/on')
  expect(() => punchOf({ tests: ['T9'] })).toThrow('/punchList/P1/tests/0')
})
