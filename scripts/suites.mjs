import { passedOrFailed, reportedCounts, vitestCounts } from './tally.mjs'

/**
 * A suite: a command that shows its own progress, writes a JSON report if its results are counted from one,
 * and is ended after `minutes`.
 *
 * @typedef {{
 *   name: string,
 *   minutes: number,
 *   command: (report: string) => string[],
 *   count: (ended: import('./tally.mjs').Ended) => import('./tally.mjs').Counts,
 *   needs?: 'chromium',
 * }} Suite
 */

/** What `npm test` runs, in this order. Together they end within half an hour. @type {Suite[]} */
export const suites = [
  { name: 'types', minutes: 4, command: () => ['npm', 'run', '--silent', 'types'], count: passedOrFailed },
  { name: 'lint and format', minutes: 1, command: () => ['npm', 'run', '--silent', 'lint'], count: passedOrFailed },
  { name: 'unit tests', minutes: 10, command: vitest('unit'), count: vitestCounts },
  { name: 'verification', minutes: 4, command: verify, count: reportedCounts },
  { name: 'browser journeys', minutes: 9, command: vitest('journey'), count: vitestCounts, needs: 'chromium' },
]

/**
 * @param {string} project
 * @returns {(report: string) => string[]}
 */
function vitest(project) {
  const run = [process.execPath, 'node_modules/vitest/vitest.mjs', 'run', '--project', project]
  return (report) => [...run, '--reporter=default', '--reporter=json', `--outputFile.json=${report}`]
}

/**
 * @param {string} report
 * @returns {string[]}
 */
function verify(report) {
  return [process.execPath, 'node_modules/tsx/dist/cli.mjs', 'verification/verify.ts', '--report', report]
}
