import { expect, test } from 'vitest'
import { line, passedOrFailed, reportedCounts, total, verdict, vitestCounts } from './tally.mjs'

const file = (status: string, ...tests: string[]) => ({ status, assertionResults: tests.map((status) => ({ status })) })
type Told = { status: string; name?: string; message?: string; assertionResults: object[] }
const report = (passed: number, failed: number, ...testResults: Told[]) => ({
  numPassedTests: passed,
  numFailedTests: failed,
  testResults,
})

test('passed and failed tests of a report are counted', () => {
  const ended = { code: 1, report: report(2, 1, file('failed', 'passed', 'passed', 'failed')) }
  expect(verdict(ended, vitestCounts)).toMatchObject({ passed: 2, failed: 1 })
})

test('a failure is told by its file, its name and the first line of what it said', () => {
  const failed = {
    status: 'failed',
    fullName: 'a lift too heavy fails',
    failureMessages: ['expected 1.2 to be 1\n at x'],
  }
  const broken = { ...file('failed'), name: '/home/x/engine/src/lift/b.test.ts', message: 'no such module\n at y' }
  const written = report(
    0,
    1,
    { ...file('failed'), name: '/home/x/engine/src/lift/a.test.ts', assertionResults: [failed] },
    broken,
  )
  expect(vitestCounts({ code: 1, report: written }).reason).toBe(
    '\n    src/lift/a.test.ts: a lift too heavy fails: expected 1.2 to be 1\n    src/lift/b.test.ts: no such module',
  )
})

test('of hundreds of failures ten are told and the rest counted', () => {
  const written = report(0, 300, file('failed', ...Array.from({ length: 300 }, () => 'failed')))
  expect(vitestCounts({ code: 1, report: written }).reason?.split('\n').at(-1)).toBe('    and 290 more')
})

test('a file that breaks before its tests counts as one failed', () => {
  const ended = { code: 1, report: report(2, 0, file('passed', 'passed', 'passed'), file('failed')) }
  expect(verdict(ended, vitestCounts)).toMatchObject({ passed: 2, failed: 1 })
})

test.each([
  ['no report', undefined],
  ['an empty report', report(0, 0)],
  ['only skipped tests', report(0, 0, file('passed', 'skipped'))],
])('a suite with %s ran nothing, which is a failure even with code 0', (_name, written) => {
  expect(verdict({ code: 0, report: written }, vitestCounts)).toMatchObject({ failed: 1, reason: 'ran nothing' })
})

test('a suite that passes every test and still ends badly has failed', () => {
  const ended = { code: 1, report: report(3, 0, file('passed', 'passed', 'passed', 'passed')) }
  expect(verdict(ended, vitestCounts)).toMatchObject({ passed: 3, failed: 1 })
})

test('a suite ended from outside has failed', () => {
  expect(verdict({ code: null }, passedOrFailed)).toEqual({ passed: 0, failed: 1 })
  expect(verdict({ code: null, report: { passed: 4, failed: 0 } }, reportedCounts)).toMatchObject({ failed: 1 })
})

test('a report of bare counts is taken as it is', () => {
  expect(verdict({ code: 1, report: { passed: 4, failed: 2 } }, reportedCounts)).toEqual({ passed: 4, failed: 2 })
})

test('suites are summed into one line', () => {
  const sum = total([
    { passed: 1, failed: 0 },
    { passed: 40, failed: 2 },
  ])
  expect(line(sum)).toBe('41 passed, 2 failed')
})
