import { existsSync, readFileSync, statSync } from 'node:fs'
import { extname, join } from 'node:path'
import type { Meshes } from '@shieldwright/engine'
import { fileProblem, type MeshRead, readStl } from '@shieldwright/engine/mass/index.ts'
import { meshesNamed } from '@shieldwright/engine/model/meshesNamed.ts'
import type { Mesh } from '@shieldwright/engine/numeric/mesh.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { sha256 } from '../sha256.ts'
import { readGltf } from './readGltf.ts'

/** The meshes that could be read, and what keeps the others from it. */
export interface MeshesRead {
  meshes: Meshes
  problems: readonly Problem[]
}

const LARGEST_MESH = 256 * 1024 * 1024

/** Formats that a mesh may lie in, each by the ending of its name. */
const READERS: Readonly<Record<string, (bytes: Uint8Array, name: string) => MeshRead | Promise<MeshRead>>> = {
  stl: readStl,
  glb: readGltf,
  gltf: readGltf,
}

/**
 * The meshes that a document's parts and changes name, from files in a folder: each is named by the SHA-256 of its bytes, in
 * hex, and by its format. One that is not there is left out; the model says where it is missing.
 *
 * @param known meshes read before: what is named by its content is not read twice
 */
export async function readMeshes(document: unknown, folder: string, known: Meshes = new Map()): Promise<MeshesRead> {
  const meshes = new Map<string, Mesh>()
  const problems: Problem[] = []
  for (const hash of meshesNamed(document)) {
    const mesh = known.get(hash)
    const path = mesh === undefined ? meshPath(folder, hash) : undefined
    if (mesh !== undefined) meshes.set(hash, mesh)
    if (path === undefined) continue
    const read = await meshIn(path, hash)
    if ('problems' in read) problems.push(...read.problems)
    else meshes.set(hash, read.mesh)
  }
  return { meshes, problems }
}

/** Where a mesh lies in a folder, whatever its format; undefined when it is not there. */
export const meshPath = (folder: string, hash: string): string | undefined =>
  Object.keys(READERS)
    .map((format) => join(folder, `${hash}.${format}`))
    .find((path) => existsSync(path))

async function meshIn(path: string, hash: string): Promise<MeshRead> {
  const { size } = statSync(path)
  if (size > LARGEST_MESH) return fileProblem(path, `a file of ${size} bytes`, `at most ${LARGEST_MESH} bytes`)
  const bytes = readFileSync(path)
  const found = sha256(bytes)
  if (found !== hash) return fileProblem(path, `content with the hash ${found}`, 'the content that its name says')
  const read = READERS[extname(path).slice(1)] as (typeof READERS)[string]
  return read(bytes, path)
}
