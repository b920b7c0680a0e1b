import type { Mesh } from '@shieldwright/engine/numeric/mesh.ts'
import { meshBytes } from '@shieldwright/engine/numeric/meshBytes.ts'
import { afterEach, expect, test, vi } from 'vitest'
import { meshesOf } from './meshes.ts'

afterEach(() => vi.unstubAllGlobals())

const documentOf = (...files: string[]) => ({
  parts: Object.fromEntries(files.map((file) => [file, { solids: [{ shape: 'mesh', file }] }])),
})

test('the meshes that a project names come from the host, each once; one it does not have is left out', async () => {
  const mesh: Mesh = { vertices: [[0, 0, 1 / 3]], triangles: [[0, 0, 0]], axes: 'y up' }
  const [kept, lost] = ['a'.repeat(64), 'b'.repeat(64)]
  const asked: string[] = []
  vi.stubGlobal('fetch', async (address: string) => {
    asked.push(address)
    return address.endsWith(kept) ? new Response(meshBytes(mesh)) : new Response('', { status: 404 })
  })
  expect(await meshesOf(documentOf(kept, lost))).toEqual(new Map([[kept, mesh]]))
  expect(asked).toEqual([`/api/meshes/${kept}`, `/api/meshes/${lost}`])
  expect(await meshesOf(documentOf('../../secret'))).toEqual(new Map())
  expect(asked).toHaveLength(2)
})
