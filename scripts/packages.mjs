import { statSync } from 'node:fs'
import { join } from 'node:path'
import { ran, root } from './project.mjs'

/**
 * Installs the locked packages when they are absent or older than the lock file.
 *
 * @returns {boolean} true when they are in place
 */
export function packagesInstalled() {
  return areCurrent(root) || ran('npm', ['ci', '--ignore-scripts', '--include=dev'])
}

/**
 * True when the record that npm leaves at the end of an installation is no older than the lock file.
 *
 * @param {string} folder
 */
export function areCurrent(folder) {
  const installed = changedAt(join(folder, 'node_modules', '.package-lock.json'))
  const locked = changedAt(join(folder, 'package-lock.json'))
  return installed !== undefined && locked !== undefined && installed >= locked
}

/** @param {string} path */
function changedAt(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs
}
