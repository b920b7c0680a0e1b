import { chromiumAdvice, chromiumInstalled } from './chromium.mjs'
import { packagesInstalled } from './packages.mjs'
import { postgresInstalled } from './postgres.mjs'
import { runSuite } from './run-suite.mjs'
import { suites } from './suites.mjs'
import { line, total } from './tally.mjs'

for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.on(signal, () => process.exit(1))

const results = packagesInstalled() ? await runAll(suites) : [failure('installation', 'npm ci failed')]
for (const { name, seconds, reason, ...counts } of results) {
  console.log(`${name.padEnd(20)}${line(counts)} in ${seconds.toFixed(0)} s${reason ? `: ${reason}` : ''}`)
}
const sum = total(results)
process.exitCode = sum.failed === 0 ? 0 : 1
console.log(line(sum))

/** @param {import('./suites.mjs').Suite[]} wanted */
async function runAll(wanted) {
  const chromium = chromiumInstalled()
  postgresInstalled() // Its tests say themselves where it is missing.
  const done = []
  for (const suite of wanted) {
    console.log(`\n== ${suite.name}`)
    const isMissing = suite.needs === 'chromium' && !chromium
    done.push(isMissing ? failure(suite.name, chromiumAdvice) : await timed(suite, { CHROMIUM_PATH: chromium }))
  }
  return done
}

/**
 * @param {import('./suites.mjs').Suite} suite
 * @param {NodeJS.ProcessEnv} environment
 */
async function timed(suite, environment) {
  const start = performance.now()
  const outcome = await runSuite(suite, { ...process.env, ...environment })
  return { name: suite.name, seconds: (performance.now() - start) / 1000, ...outcome }
}

/**
 * @param {string} name
 * @param {string} reason
 * @returns {{ name: string, seconds: number, passed: number, failed: number, reason?: string }}
 */
function failure(name, reason) {
  return { name, seconds: 0, passed: 0, failed: 1, reason }
}
