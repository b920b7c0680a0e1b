import { createHash } from 'node:crypto'
import { existsSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Meshes } from '@shieldwright/engine'
import { readStl } from '@shieldwright/engine/mass/index.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

export type MeshesRead = { meshes: Meshes } | { problems: readonly Problem[] }

const LARGEST_MESH = 256 * 1024 * 1024

/**
 * The meshes that a document's parts name, from STL files in a folder: each is named by the SHA-256 of its bytes, in hex.
 * One that is not there is left out; the model says where it is missing.
 */
export function readMeshes(document: unknown, folder: string): MeshesRead {
  const reads = meshesNamed(document)
    .map((hash) => ({ hash, path: meshPath(folder, hash) }))
    .filter(({ path }) => existsSync(path))
    .map(({ hash, path }) => ({ hash, read: meshIn(path, hash) }))
  const problems = reads.flatMap(({ read }) => ('problems' in read ? read.problems : []))
  if (problems.length > 0) return { problems }
  return { meshes: new Map(reads.flatMap(({ hash, read }) => ('mesh' in read ? [[hash, read.mesh] as const] : []))) }
}

/** Where a mesh lies in a folder. */
export const meshPath = (folder: string, hash: string): string => join(folder, `${hash}.stl`)

/** Content hashes that a document names, each once. What is not of a hash's form names no file. */
export function meshesNamed(document: unknown): string[] {
  const parts = Object.values(fieldOf(document, 'parts') ?? {})
  const solids = parts.flatMap((part) => Object.values(fieldOf(part, 'solids') ?? {}))
  const files = solids.map((solid) => (fieldOf(solid, 'file') as unknown) ?? '')
  return [...new Set(files.filter((file): file is string => typeof file === 'string' && /^[0-9a-f]{64}$/.test(file)))]
}

function fieldOf(value: unknown, name: string): object | undefined {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, name)) return undefined
  return (value as Record<string, object>)[name]
}

function meshIn(path: string, hash: string): ReturnType<typeof readStl> {
  const { size } = statSync(path)
  if (size > LARGEST_MESH) return fileProblem(path, `a file of ${size} bytes`, `at most ${LARGEST_MESH} bytes`)
  const bytes = readFileSync(path)
  const found = createHash('sha256').update(bytes).digest('hex')
  if (found !== hash) return fileProblem(path, `content with the hash ${found}`, 'the content that its name says')
  return readStl(bytes, path)
}

const fileProblem = (pointer: string, found: string, expected: string): { problems: Problem[] } => ({
  problems: [{ pointer, found, expected }],
})
