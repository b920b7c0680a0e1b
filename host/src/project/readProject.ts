import { dirname } from 'node:path'
import type { Meshes } from '@shieldwright/engine'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { readDocument } from './readDocument.ts'
import { readMeshes } from './readMeshes.ts'

/** A project as it lies in files. */
export interface ProjectFile {
  document: unknown
  meshes: Meshes
}

export type ProjectRead = ProjectFile | { problems: readonly Problem[] }

/** A project file's document with the meshes that lie beside it. */
export async function readProjectFile(path: string): Promise<ProjectRead> {
  const read = readDocument(path)
  if ('problems' in read) return read
  const { meshes, problems } = await readMeshes(read.document, dirname(path))
  return problems.length > 0 ? { problems } : { ...read, meshes }
}
