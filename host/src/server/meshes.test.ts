import { existsSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import { meshIntegrals } from '@shieldwright/engine/numeric/mesh.ts'
import { meshOfBytes } from '@shieldwright/engine/numeric/meshBytes.ts'
import { expect, test } from 'vitest'
import { boxGlb } from '../project/gltf.fixture.ts'
import { sha256 } from '../sha256.ts'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { begun } from './begin.ts'
import { liveProject } from './live.ts'

const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }

test('a glTF mesh beside a project file goes into the store with it, is weighed, and is handed to the page as triangles', async () => {
  const data = mkdtempSync(join(tmpdir(), 'meshes-'))
  const glb = await boxGlb([0, 0, 0], [1, 2, 4])
  const hash = sha256(glb)
  writeFileSync(join(data, `${hash}.glb`), glb)
  const solids = [{ shape: 'mesh', file: hash, scale: '1 m', axes: 'y up' }]
  const project = {
    ...(emptyProject() as object),
    materials: { steel: { density: '7850 kg/m3' } },
    parts: { block: { name: 'Block', material: 'steel', solids } },
  }
  writeFileSync(join(data, 'project.json'), JSON.stringify(project))
  const store = await openStore(join(data, 'project.sqlite'))
  expect(await begun(store, { file: join(data, 'project.json'), data }, here)).toEqual([])
  expect(existsSync(join(data, 'meshes', `${hash}.glb`))).toBe(true)
  const live = liveProject(store, join(data, 'meshes'))
  const { stages } = (await live.now()).derivation.derived
  expect(stages?.mass.machine.net.value).toBeCloseTo(8 * 7850, 6)
  // Up to z = 2 m, left to y = 1 m, forward to x = 4 m: by the axes of glTF.
  expect(stages?.mass.machine.boundsMachine.max.map((x) => Math.round(x))).toEqual([4, 1, 2])
  const routes = api(live, here)
  const sent = await routes.request(`/meshes/${hash}`)
  expect(meshIntegrals(meshOfBytes(await sent.arrayBuffer())).volume).toBeCloseTo(8, 12)
  for (const other of ['0'.repeat(64), '..%2f..%2fproject.json'])
    expect((await routes.request(`/meshes/${other}`)).status).toBe(404)
  await store.close()
})
