import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { root } from './project.mjs'
import { verdict } from './tally.mjs'

/**
 * Runs one suite to its end or its time limit, output shown as it comes.
 *
 * @param {import('./suites.mjs').Suite} suite
 * @param {NodeJS.ProcessEnv} environment
 * @returns {Promise<import('./tally.mjs').Counts & { reason?: string }>}
 */
export async function runSuite(suite, environment = process.env) {
  const folder = mkdtempSync(join(tmpdir(), 'suite-'))
  const report = join(folder, 'report.json')
  const loose = join(folder, 'loose.json')
  const code = await ended(suite.command(report), suite.minutes, { ...environment, LOOSE_ERRORS: loose })
  const outcome = verdict({ code, report: jsonIn(report), loose: jsonIn(loose) }, suite.count)
  rmSync(folder, { recursive: true })
  return outcome
}

/**
 * Exit code of a command, or null when it was ended by a signal, its time limit, or could not be started.
 *
 * @param {string[]} words
 * @param {number} minutes
 * @param {NodeJS.ProcessEnv} env
 * @returns {Promise<number | null>}
 */
function ended([command = '', ...args], minutes, env) {
  const windows = process.platform === 'win32'
  // A process group of its own, so that what the command started ends with it.
  const options = { cwd: root, env, detached: !windows, shell: windows && command === 'npm' }
  const child = spawn(command, args, { ...options, stdio: ['ignore', 'inherit', 'inherit'] })
  const stop = () => endGroup(child)
  const limit = setTimeout(stop, minutes * 60_000)
  process.on('exit', stop)
  return new Promise((resolve) => {
    const finish = (/** @type {number | null} */ code) => {
      clearTimeout(limit)
      process.off('exit', stop)
      resolve(code)
    }
    child.once('error', () => finish(null))
    child.once('exit', finish)
  })
}

/** @param {import('node:child_process').ChildProcess} child */
function endGroup(child) {
  if (child.pid === undefined || child.exitCode !== null) return
  if (process.platform === 'win32') child.kill()
  else process.kill(-child.pid, 'SIGKILL')
}

/** @param {string} path */
function jsonIn(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return undefined // Not written, or cut short: the suite then counts as having run nothing.
  }
}
