import { existsSync, readFileSync, statSync } from 'node:fs'
import { readText } from '@shieldwright/engine/model/text.ts'
import { brokenText } from '@shieldwright/engine/working/plain.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

export type DocumentRead = { document: unknown } | { problems: readonly Problem[] }

/** Bytes of a project file: far above any real project, far below what would choke the machine. */
const LARGEST_FILE = 32 * 1024 * 1024

/**
 * The plain data of a JSON or YAML file; whether it makes a project is not looked at. A problem with the whole file has the
 * file's path where its pointer would be.
 */
export function readDocument(path: string): DocumentRead {
  const stat = existsSync(path) ? statSync(path) : undefined
  if (stat === undefined) return fileProblem(path, 'nothing', 'a project file', 'recovery/project.yaml')
  if (!stat.isFile()) return fileProblem(path, 'something that is not a file', 'a project file')
  if (stat.size > LARGEST_FILE)
    return fileProblem(path, `a file of ${stat.size} bytes`, `at most ${LARGEST_FILE} bytes`)
  const text = decoded(readFileSync(path))
  return text === undefined ? fileProblem(path, 'bytes that are not UTF-8', 'text in UTF-8') : documentOf(text, path)
}

/** The plain data of JSON or YAML text; `name` says in a problem which text it is. */
export function documentOf(text: string, name: string): DocumentRead {
  const read = readText(text)
  const broken = read.problems.length > 0 ? undefined : brokenText(read.document)
  const problems = broken === undefined ? read.problems : [broken]
  if (problems.length === 0) return { document: read.document }
  return { problems: problems.map((p) => ({ ...p, pointer: p.pointer === '' ? name : p.pointer })) }
}

function decoded(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return undefined
  }
}

const fileProblem = (pointer: string, found: string, expected: string, example?: string): { problems: Problem[] } => ({
  problems: [{ pointer, found, expected, ...(example === undefined ? {} : { example }) }],
})
