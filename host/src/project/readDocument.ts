import { readFileSync, statSync } from 'node:fs'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { parseDocument } from 'yaml'
import { largestProjectFile } from './limits.ts'

export type DocumentRead = { document: unknown } | { problems: readonly Problem[] }

/** Aliases that one YAML file may expand, so that a small file cannot grow into a large one. */
const MOST_ALIASES = 100
const DEEPEST = 64

/**
 * The plain data of a JSON or YAML file; what it holds is not looked at.
 *
 * @param path file of the project
 * @returns the document, or what keeps it from being read, with line and column where there is one
 */
export function readDocument(path: string): DocumentRead {
  const stat = statSync(path, { throwIfNoEntry: false })
  if (stat === undefined) return fileProblem(path, 'nothing', 'a project file', 'recovery/project.yaml')
  if (!stat.isFile()) return fileProblem(path, 'something that is not a file', 'a project file')
  if (stat.size > largestProjectFile) {
    return fileProblem(path, `a file of ${stat.size} bytes`, `at most ${largestProjectFile} bytes`)
  }
  return documentOf(readFileSync(path, 'utf8'), path)
}

/** The plain data of JSON or YAML text; `name` stands in the problems. */
export function documentOf(text: string, name: string): DocumentRead {
  const parsed = /^\s*[{[]/.test(text) ? jsonOf(text) : undefined
  const read = parsed === undefined ? yamlOf(text, name) : { document: parsed.value }
  if ('problems' in read) return read
  return isTooDeep(read.document, DEEPEST)
    ? fileProblem(name, `more than ${DEEPEST} levels`, 'a flatter document')
    : read
}

function jsonOf(text: string): { value: unknown } | undefined {
  try {
    return { value: JSON.parse(text) }
  } catch {
    return undefined // YAML in flow style begins alike; its reader says where the fault is.
  }
}

function yamlOf(text: string, name: string): DocumentRead {
  const parsed = parseDocument(text, { uniqueKeys: true, merge: false })
  const [fault] = parsed.errors
  if (fault !== undefined) {
    const at = fault.linePos?.[0]
    const place = at === undefined ? name : `${name}:${at.line}:${at.col}`
    return fileProblem(place, (fault.message.split('\n', 1)[0] as string).replace(/ at line .*$/, ''), 'JSON or YAML')
  }
  try {
    return { document: parsed.toJS({ maxAliasCount: MOST_ALIASES }) }
  } catch (error) {
    return fileProblem(name, (error as Error).message, 'JSON or YAML without aliases that multiply')
  }
}

/** Looks one level deeper than allowed and no further. */
function isTooDeep(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return false
  return levels === 0 || Object.values(value).some((inner) => isTooDeep(inner, levels - 1))
}

const fileProblem = (pointer: string, found: string, expected: string, example?: string): { problems: Problem[] } => ({
  problems: [{ pointer, found, expected, ...(example === undefined ? {} : { example }) }],
})
