import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { ran, root } from './project.mjs'

const built = 'web/dist/index.html'
const sources = ['web/src', 'web/public', 'web/index.html', 'web/vite.config.ts', 'engine/src', 'package-lock.json']

/**
 * Builds the web page when any of its sources is newer than the last build.
 *
 * @returns {boolean} true when the built page is current
 */
export function pageBuilt() {
  const at = changedAt(join(root, built))
  if (at >= Math.max(...sources.map((source) => newest(join(root, source))))) return true
  return ran(process.execPath, ['node_modules/vite/bin/vite.js', 'build', 'web', '--logLevel', 'warn'])
}

/**
 * Latest change of a file, or of anything in a folder, milliseconds; −1 where nothing is.
 *
 * @param {string} path
 */
export function newest(path) {
  const isFolder = statSync(path, { throwIfNoEntry: false })?.isDirectory()
  const inside = isFolder ? readdirSync(path, { recursive: true, encoding: 'utf8' }) : []
  return Math.max(changedAt(path), ...inside.map((name) => changedAt(join(path, name))))
}

/** @param {string} path */
function changedAt(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? -1
}
