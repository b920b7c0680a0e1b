import { spawnSync } from 'node:child_process'
import { ran } from './project.mjs'

/**
 * Installs Debian packages where this user may.
 *
 * @param {readonly string[]} packages
 * @returns {boolean} true when they are in place
 */
export function installedFromDebian(packages) {
  const asRoot = rootPrefix()
  if (!asRoot || !answers('apt-get', ['--version'])) return false
  const [first = 'apt-get', ...rest] = [...asRoot, 'apt-get']
  const install = [...rest, 'install', '-y', '--no-install-recommends', ...packages]
  return ran(first, [...rest, 'update']) && ran(first, install)
}

/** @returns {string[] | undefined} words that make a command run as root; undefined where this user may not */
function rootPrefix() {
  const environment = ['env', 'DEBIAN_FRONTEND=noninteractive']
  if (process.getuid?.() === 0) return environment
  return answers('sudo', ['-n', 'true']) ? ['sudo', '-n', ...environment] : undefined
}

/**
 * @param {string} command
 * @param {string[]} args
 */
function answers(command, args) {
  return spawnSync(command, args, { stdio: 'ignore' }).status === 0
}
