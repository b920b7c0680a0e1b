import { passedOrFailed, reportedCounts, vitestCounts } from './tally.mjs'

/**
 * A suite: a command that shows its own progress, writes a JSON report if its results are counted from one,
 * and is ended after `minutes`.
 *
 * @typedef {{
 *   name: string,
 *   minutes: number,
 *   command: (report: string) => string[],
 *   count: (ended: import('./tally.mjs').Ended) => import('./tally.mjs').Counts & { reason?: string },
 *   needs?: 'chromium',
 * }} Suite
 */

/** What `npm test` runs, in this order. Together they end within eighty-five minutes. @type {Suite[]} */
export const suites = [
  { name: 'types', minutes: 6, command: () => ['npm', 'run', '--silent', 'types'], count: passedOrFailed },
  { name: 'lint and format', minutes: 2, command: () => ['npm', 'run', '--silent', 'lint'], count: passedOrFailed },
  { name: 'unit tests', minutes: 39, command: vitest('unit'), count: vitestCounts },
  { name: 'verification', minutes: 4, command: verify, count: reportedCounts },
  { name: 'browser journeys', minutes: 34, command: vitest('journey'), count: vitestCounts, needs: 'chromium' },
]

/**
 * @param {string} project
 * @returns {(report: string) => string[]}
 */
function vitest(project) {
  const run = [process.execPath, 'node_modules/vitest/vitest.mjs', 'run', '--project', project]
  const reporters = ['--reporter=default', '--reporter=json', '--reporter=./scripts/loose-errors.mjs']
  return (report) => [...run, ...reporters, `--outputFile.json=${report}`]
}

/**
 * @param {string} report
 * @returns {string[]}
 */
function verify(report) {
  return [process.execPath, 'node_modules/tsx/dist/cli.mjs', 'verification/verify.ts', '--report', report]
}
