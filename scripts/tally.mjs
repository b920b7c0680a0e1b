/**
 * How a suite's command ended: its exit code (null when it was ended from outside), its report, if it wrote one, and
 * texts of what was thrown outside of every test.
 *
 * @typedef {{ code: number | null, report?: unknown, loose?: unknown }} Ended
 * @typedef {{ passed: number, failed: number }} Counts
 * @typedef {{ numPassedTests: number, numFailedTests: number, testResults: TestFile[] }} VitestReport
 * @typedef {{ status: string, name?: string, message?: string, assertionResults: TestResult[] }} TestFile
 * @typedef {{ status: string, fullName?: string, failureMessages?: string[] }} TestResult
 */

/** Failures told by name before the rest of them is only counted. */
const TOLD = 10

/**
 * A command that is one test by itself.
 *
 * @param {Ended} ended
 * @returns {Counts}
 */
export function passedOrFailed({ code }) {
  return code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 }
}

/**
 * Counts of a vitest JSON report; a file that broke before or beside its tests counts as one failed.
 *
 * @param {Ended} ended
 * @returns {Counts & { reason?: string }} the reason tells each failure by file, name and the first line of its message
 */
export function vitestCounts({ report }) {
  if (!report) return { passed: 0, failed: 0 }
  const { numPassedTests, numFailedTests, testResults } = /** @type {VitestReport} */ (report)
  const failed = numFailedTests + testResults.filter(isBroken).length
  const counts = { passed: numPassedTests, failed }
  return failed > 0 ? { ...counts, reason: told(testResults.flatMap(failuresOf)) } : counts
}

/** @param {string[]} failures */
function told(failures) {
  const rest = failures.length > TOLD ? [`and ${failures.length - TOLD} more`] : []
  return [...failures.slice(0, TOLD), ...rest].map((failure) => `\n    ${failure}`).join('')
}

/**
 * @param {TestFile} file
 * @returns {string[]}
 */
function failuresOf(file) {
  const place = (file.name ?? '').split(/[\\/]/).slice(-3).join('/')
  if (isBroken(file)) return [`${place}: ${firstLine(file.message)}`]
  const failed = file.assertionResults.filter((test) => test.status === 'failed')
  return failed.map((test) => `${place}: ${test.fullName}: ${firstLine(test.failureMessages?.[0])}`)
}

/** @param {string | undefined} text */
function firstLine(text = '') {
  return text.split('\n', 1)[0]
}

/**
 * Counts of a report that is `{ passed, failed }` itself.
 *
 * @param {Ended} ended
 * @returns {Counts}
 */
export function reportedCounts({ report }) {
  const { passed = 0, failed = 0 } = /** @type {Partial<Counts>} */ (report ?? {})
  return { passed, failed }
}

/**
 * A suite's verdict: its counts, where running nothing, or ending badly without a failed test, is itself one failed.
 *
 * @param {Ended} ended
 * @param {(ended: Ended) => Counts & { reason?: string }} count
 * @returns {Counts & { reason?: string }}
 */
export function verdict(ended, count) {
  const counts = count(ended)
  if (counts.failed > 0) return counts
  if (ended.code === null) return { ...counts, failed: 1, reason: 'was ended before it finished' }
  if (counts.passed === 0) return { ...counts, failed: 1, reason: 'ran nothing' }
  if (ended.code !== 0) return { ...counts, failed: 1, reason: badEnd(ended) }
  return counts
}

/** @param {Ended} ended */
function badEnd({ code, loose }) {
  const thrown = Array.isArray(loose) ? `; outside of them: ${loose.join(' · ')}` : ''
  return `ended with code ${code} and no failed test${thrown}`
}

/**
 * @param {Counts[]} all
 * @returns {Counts}
 */
export function total(all) {
  return {
    passed: all.reduce((sum, { passed }) => sum + passed, 0),
    failed: all.reduce((sum, { failed }) => sum + failed, 0),
  }
}

/** @param {Counts} counts */
export function line({ passed, failed }) {
  return `${passed} passed, ${failed} failed`
}

/** @param {TestFile} file */
function isBroken({ status, assertionResults }) {
  return status === 'failed' && assertionResults.every((test) => test.status !== 'failed')
}
