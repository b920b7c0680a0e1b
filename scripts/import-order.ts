import { isBuiltin } from 'node:module'
import { posix } from 'node:path'
import ts from 'typescript'

/** The engine's folders from left to right: a file imports from its own folder and from those to its left. */
export const folderOrder = [
  'numeric',
  'working',
  'model',
  'mass',
  'strip',
  'lift',
  'ground',
  'programme',
  'risk',
  'report',
] as const

/** A source file; `path` is relative to engine/src, with forward slashes. */
export type SourceFile = { path: string; text: string }

/** An import or call that the one-way line forbids. */
export type Breach = { path: string; found: string; reason: string }

/**
 * Imports that break the one-way line: to the right, out of the engine, or of a package the engine does not depend on.
 * Tests may use any package, yet keep the order and never reach into host or web.
 *
 * @param packages names of the packages that the engine depends on
 * @returns every breach, in file order; empty when the line holds
 */
export function importBreaches(files: readonly SourceFile[], packages: readonly string[]): Breach[] {
  return files.flatMap(({ path, text }) =>
    importsOf(text).flatMap((found) => {
      const reason = found.startsWith('.') ? relativeBreach(path, found) : packageBreach(path, found, packages)
      return reason ? [{ path, found, reason }] : []
    }),
  )
}

/** Uses of the clock or of unseeded chance outside tests: a stage is given both, it never takes them. */
export function impureCalls(files: readonly SourceFile[]): Breach[] {
  const impure = /\bMath\.random\b|\bDate\.now\b|\bnew Date\(\s*\)|\bTemporal\.Now\b/g
  return files
    .filter(({ path }) => !isTest(path))
    .flatMap(({ path, text }) =>
      [...text.matchAll(impure)].map(([found]) => ({ path, found, reason: 'takes the clock or chance by itself' })),
    )
}

function importsOf(text: string): string[] {
  return ts.preProcessFile(text, true, true).importedFiles.map((file) => file.fileName)
}

function relativeBreach(path: string, found: string): string | undefined {
  const target = posix.join(posix.dirname(path), found)
  if (target.startsWith('..')) return leavesEngine(path, target)
  const from = rank(path)
  const to = rank(target)
  if (from < 0) return `folder is not in the order ${folderOrder.join(' ')}`
  if (to < 0) return `imports from a folder that is not in the order ${folderOrder.join(' ')}`
  return to > from ? 'imports from its right' : undefined
}

function leavesEngine(path: string, target: string): string | undefined {
  if (/^(\.\.\/)+(host|web)\//.test(target)) return 'reaches into host or web'
  return isTest(path) ? undefined : 'leaves the engine'
}

function packageBreach(path: string, found: string, packages: readonly string[]): string | undefined {
  if (found.startsWith('@shieldwright/')) return 'imports a workspace by name'
  if (isTest(path)) return undefined
  if (isBuiltin(found)) return 'imports from Node'
  return packages.some((name) => found === name || found.startsWith(`${name}/`))
    ? undefined
    : 'imports a package that the engine does not depend on'
}

/** Place in the order; files at the root of engine/src stand to the right of every folder; −1 for an unknown folder. */
function rank(path: string): number {
  const [folder, ...rest] = path.split('/')
  return rest.length === 0 ? folderOrder.length : folderOrder.indexOf(folder as (typeof folderOrder)[number])
}

function isTest(path: string): boolean {
  return /\.(test|fixture)\.ts$/.test(path)
}
