/**
 * How a suite's command ended: its exit code (null when it was ended from outside), its report, if it wrote one, and
 * texts of what was thrown outside of every test.
 *
 * @typedef {{ code: number | null, report?: unknown, loose?: unknown }} Ended
 * @typedef {{ passed: number, failed: number }} Counts
 * @typedef {{ numPassedTests: number, numFailedTests: number, testResults: TestFile[] }} VitestReport
 * @typedef {{ status: string, assertionResults: { status: string }[] }} TestFile
 */

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
 * @returns {Counts}
 */
export function vitestCounts({ report }) {
  if (!report) return { passed: 0, failed: 0 }
  const { numPassedTests, numFailedTests, testResults } = /** @type {VitestReport} */ (report)
  return { passed: numPassedTests, failed: numFailedTests + testResults.filter(isBroken).length }
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
 * @param {(ended: Ended) => Counts} count
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
