import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../../../', import.meta.url))

/** Folder of the built page. */
export const builtPage: string = join(root, 'web', 'dist')

/** True when the page is there; it is built first where it has not been, so that serving it needs no second command. */
export function isPageBuilt(): boolean {
  if (existsSync(join(builtPage, 'index.html'))) return true
  const build = [join(root, 'node_modules/vite/bin/vite.js'), 'build', 'web', '--logLevel', 'warn']
  process.stderr.write('building the page\n')
  return spawnSync(process.execPath, build, { cwd: root, stdio: ['ignore', 2, 2] }).status === 0
}
