import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'

/** Folder of the whole project, with a trailing separator. */
export const root = fileURLToPath(new URL('../', import.meta.url))

/**
 * Runs a command in the project's folder with its output shown.
 *
 * @param {string} command
 * @param {string[]} args
 * @returns {boolean} true when it ended with code 0
 */
export function ran(command, args) {
  console.error(`> ${command} ${args.join(' ')}`)
  const shell = process.platform === 'win32'
  return spawnSync(command, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'], shell }).status === 0
}
