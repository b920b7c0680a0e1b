import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { writeWhole } from './writeWhole.ts'

const demoFolder = fileURLToPath(new URL('../../../examples/recovery', import.meta.url))

/** The demo's project file, as it stands in the repository. */
export const demoProject: string = join(demoFolder, 'project.yaml')

/**
 * Writes the demo recovery into a folder, made if need be. A file of the same name and other content is not overwritten:
 * then nothing is written.
 *
 * @returns paths written, the project file first
 */
export function writeDemo(folder: string): { files: string[] } | { problems: readonly Problem[] } {
  const files = demoFiles().map((from) => ({
    path: join(folder, relative(demoFolder, from)),
    content: readFileSync(from),
  }))
  const taken = files.filter(({ path, content }) => existsSync(path) && !content.equals(readFileSync(path)))
  if (taken.length > 0) {
    const expected = 'nothing, or the demo as it was; choose another folder or move the file away'
    return { problems: taken.map(({ path }) => ({ pointer: path, found: 'a file with other content', expected })) }
  }
  for (const { path, content } of files) writeWhole(path, content)
  return { files: files.map(({ path }) => path) }
}

function demoFiles(): string[] {
  const others = readdirSync(demoFolder, { recursive: true, withFileTypes: true, encoding: 'utf8' })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => path !== demoProject)
  return [demoProject, ...others.sort()]
}
