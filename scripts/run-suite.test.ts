import { existsSync } from 'node:fs'
import { expect, test } from 'vitest'
import { runSuite } from './run-suite.mjs'
import { passedOrFailed, reportedCounts } from './tally.mjs'

const node = (script: string, ...args: string[]) => [process.execPath, '-e', script, ...args]

test('a suite is counted from the report it wrote, and the report is cleared away', async () => {
  let written = ''
  const write = `require('node:fs').writeFileSync(process.argv[1], '{"passed":3,"failed":1}'); process.exitCode = 1`
  const command = (report: string) => {
    written = report
    return node(write, report)
  }
  expect(await runSuite({ name: 's', minutes: 1, command, count: reportedCounts })).toEqual({ passed: 3, failed: 1 })
  expect(existsSync(written)).toBe(false)
})

test('what a suite throws outside of its tests is told', async () => {
  const write = `const { writeFileSync } = require('node:fs')
    writeFileSync(process.argv[1], '{"passed":3,"failed":0}')
    writeFileSync(process.env.LOOSE_ERRORS, '["Error: nobody waited for this"]')
    process.exitCode = 1`
  const suite = { name: 's', minutes: 1, command: (report: string) => node(write, report), count: reportedCounts }
  expect((await runSuite(suite)).reason).toBe(
    'ended with code 1 and no failed test; outside of them: Error: nobody waited for this',
  )
})

test('a suite that writes no report ran nothing', async () => {
  const outcome = await runSuite({ name: 's', minutes: 1, command: () => node(''), count: reportedCounts })
  expect(outcome).toEqual({ passed: 0, failed: 1, reason: 'ran nothing' })
})

test('a suite that outlasts its minutes is ended and has failed', async () => {
  const command = () => node('setTimeout(() => {}, 60_000)')
  const outcome = await runSuite({ name: 's', minutes: 0.005, command, count: passedOrFailed })
  expect(outcome).toMatchObject({ passed: 0, failed: 1 })
})

test('a command that does not exist has failed', async () => {
  const command = () => ['no-such-command-here']
  expect(await runSuite({ name: 's', minutes: 1, command, count: passedOrFailed })).toMatchObject({ failed: 1 })
})
