import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { startDerivation } from '@shieldwright/engine'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { describe, expect, test } from 'vitest'
import { sha256 } from '../sha256.ts'
import { boxGlb } from './gltf.fixture.ts'
import { readProjectFile } from './readProject.ts'

type Raw = Record<string, unknown>

/** Checks of parts that are one glTF box of 1 × 2 × 4 m, each moved forward by so much, beside drawn ones. */
async function checksOf(forward: Readonly<Record<string, number>>, drawn: Raw = {}): Promise<readonly Check[]> {
  const folder = mkdtempSync(join(tmpdir(), 'gltf-'))
  const glb = await boxGlb([0, 0, 0], [1, 2, 4])
  const file = sha256(glb)
  writeFileSync(join(folder, `${file}.glb`), glb)
  const mesh = (x: number) => ({
    name: 'Box',
    material: 'steel',
    solids: [{ shape: 'mesh', file, scale: '1 m', axes: 'machine', at: [`${x} m`, '0 m', '0 m'] }],
  })
  const path = join(folder, 'project.json')
  const materials = { steel: { density: '7850 kg/m3' } }
  const parts = { ...Object.fromEntries(Object.entries(forward).map(([id, x]) => [id, mesh(x)])), ...drawn }
  const project = emptyProject() as Raw
  const settings = { ...(project.settings as Raw), overlapTolerance: '2 mm' }
  writeFileSync(path, JSON.stringify({ ...project, settings, materials, parts }))
  const read = await readProjectFile(path)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  const { stages, problems } = startDerivation(read.document, read.meshes).derived
  if (stages === undefined) throw new Error(JSON.stringify(problems))
  return stages.strip.checks.filter(({ kind }) => kind === 'strip.part.overlap' || kind === 'strip.part.surface')
}

const failing = (checks: readonly Check[]): string[] =>
  checks.filter(({ verdict }) => verdict === 'fail').map(({ subject }) => subject.id)

describe('parts that are glTF meshes', () => {
  test('side by side they touch, and nothing is wrong', async () => {
    const checks = await checksOf({ a: 0, b: 1 })
    expect(failing(checks)).toEqual([])
    expect(checks.filter(({ kind }) => kind === 'strip.part.surface').map(({ verdict }) => verdict)).toEqual([
      'pass',
      'pass',
    ])
  })

  test('copies in one place are one fault that names them all', async () => {
    const [fault, ...others] = (await checksOf({ a: 0, b: 0, c: 0 })).filter(({ verdict }) => verdict === 'fail')
    expect(others).toEqual([])
    expect(fault?.reasons).toEqual(['"a", "b", "c" coincide: the same shape in the same place 3 times'])
  })

  test('pushed into each other, or into a drawn box, both say so', async () => {
    expect(failing(await checksOf({ a: 0, b: 0.7 }))).toEqual(['a', 'b'])
    const box = { shape: 'box', centre: ['1.4 m', '1 m', '2 m'], size: ['1 m', '1 m', '1 m'] }
    expect(failing(await checksOf({ a: 0 }, { d: { name: 'Drawn', material: 'steel', solids: [box] } }))).toEqual([
      'a',
      'd',
    ])
  })
})
