import { meshesNamed } from '@shieldwright/engine/model/meshesNamed.ts'
import type { Mesh } from '@shieldwright/engine/numeric/mesh.ts'
import { meshOfBytes } from '@shieldwright/engine/numeric/meshBytes.ts'

/** The meshes that a document names, as the host has read them. One it does not have is left out: the model then says so. */
export async function meshesOf(document: unknown): Promise<ReadonlyMap<string, Mesh>> {
  const read = await Promise.all(meshesNamed(document).map(async (hash) => [hash, await meshNamed(hash)] as const))
  return new Map(read.flatMap(([hash, mesh]) => (mesh === undefined ? [] : [[hash, mesh] as const])))
}

async function meshNamed(hash: string): Promise<Mesh | undefined> {
  const response = await fetch(`/api/meshes/${hash}`)
  return response.ok ? meshOfBytes(await response.arrayBuffer()) : undefined
}
