import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'
import { installedFromDebian } from './debian.mjs'

const names = ['chromium', 'chromium-browser', 'google-chrome']
const debianPackages = ['chromium', 'fonts-dejavu-core', 'poppler-utils']

/** What to do where no Chromium is found and none can be installed. */
export const chromiumAdvice = [
  'The browser journeys need Chromium, and none was found.',
  `On Debian or Ubuntu, as root: apt-get update && apt-get install -y --no-install-recommends ${debianPackages.join(' ')}`,
  'Elsewhere: install Chromium and set CHROMIUM_PATH to its executable, such as CHROMIUM_PATH=/opt/chromium/chromium npm test',
].join('\n')

/**
 * The Chromium to drive: CHROMIUM_PATH if set, else the first known name on the search path.
 *
 * @param {Record<string, string | undefined>} environment
 * @returns {string | undefined} undefined when there is none; a CHROMIUM_PATH that cannot be run is not replaced by another
 */
export function chromiumPath(environment = process.env) {
  const { CHROMIUM_PATH: chosen, PATH: path = '' } = environment
  if (chosen) return isExecutable(chosen) ? chosen : undefined
  const folders = ['/usr/bin', ...path.split(delimiter).filter(Boolean)]
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(isExecutable)
}

/**
 * Finds Chromium, or installs Debian's where this user may.
 *
 * @returns {string | undefined} its path, or undefined after saying what to do
 */
export function chromiumInstalled() {
  const mayInstall = !process.env.CHROMIUM_PATH
  const path = chromiumPath() ?? (mayInstall && installedFromDebian(debianPackages) ? chromiumPath() : undefined)
  if (!path) console.error(chromiumAdvice)
  return path
}

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}
