import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { meshesNamed } from '@shieldwright/engine/model/meshesNamed.ts'
import { expect, test } from 'vitest'
import { sha256 } from '../sha256.ts'
import { readDocument } from './readDocument.ts'
import { readProjectFile } from './readProject.ts'

test('JSON and YAML of the same content read alike', () => {
  const [json, yaml] = [fileOf('{"a": {"b": [1, "412 t"]}}'), fileOf('a:\n  b: [1, 412 t]\n')]
  expect(readDocument(json)).toEqual({ document: { a: { b: [1, '412 t'] } } })
  expect(readDocument(yaml)).toEqual(readDocument(json))
})

test.each([
  ['a brace that never closes', '{"a": '],
  ['bytes that are no text', Buffer.from([0x7b, 0xff, 0xfe, 0x00])],
  ['aliases that multiply', `a: &a [x, x, x, x, x, x, x, x, x]\n${billionLaughs()}`],
  ['levels without end', '['.repeat(5000)],
  ['one name twice', 'a: 1\na: 2\n'],
  ['a name of the machinery', '{"__proto__": {"polluted": true}}'],
])('%s gives a problem that says which file', (_, content) => {
  const path = fileOf(content)
  const read = readDocument(path)
  expect(read).toHaveProperty('problems')
  expect((read as { problems: readonly { pointer: string }[] }).problems[0]?.pointer).toMatch(/^$|\/project|^\//)
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
})

test('a folder, and nothing at all, are not project files', () => {
  const folder = mkdtempSync(join(tmpdir(), 'project-'))
  expect(readDocument(folder)).toHaveProperty('problems')
  expect(readDocument(join(folder, 'none.yaml'))).toHaveProperty('problems')
})

test('a mesh beside the file is found by the hash of its content, and refused when its content is another', async () => {
  const tetrahedron = stl()
  const hash = sha256(tetrahedron)
  const document = { parts: { p: { solids: [{ shape: 'mesh', file: hash }] } } }
  const path = fileOf(JSON.stringify(document), { [`${hash}.stl`]: tetrahedron })
  const read = (await readProjectFile(path)) as { meshes: ReadonlyMap<string, unknown> }
  expect([...read.meshes.keys()]).toEqual([hash])
  const changed = fileOf(JSON.stringify(document), { [`${hash}.stl`]: `${tetrahedron} ` })
  expect(await readProjectFile(changed)).toHaveProperty('problems')
})

test('a name that is no hash reaches no file', () => {
  const document = { parts: { p: { solids: [{ shape: 'mesh', file: '../../etc/passwd' }] } } }
  expect(meshesNamed(document)).toEqual([])
})

function billionLaughs(): string {
  const names = 'abcdefghij'.split('')
  return names
    .slice(1)
    .map((n, i) => `${n}: &${n} [${`*${names[i]}, `.repeat(9).slice(0, -2)}]`)
    .join('\n')
}

function fileOf(content: string | Uint8Array, beside: Readonly<Record<string, string>> = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'project-'))
  mkdirSync(folder, { recursive: true })
  for (const [name, text] of Object.entries(beside)) writeFileSync(join(folder, name), text)
  const path = join(folder, 'project.yaml')
  writeFileSync(path, content)
  return path
}

function stl(): string {
  const [o, x, y, z] = ['0 0 0', '1 0 0', '0 1 0', '0 0 1']
  const facets = [
    [o, y, x],
    [o, x, z],
    [o, z, y],
    [x, y, z],
  ]
  const lines = facets.map(
    (f) => `facet normal 0 0 0\nouter loop\n${f.map((v) => `vertex ${v}`).join('\n')}\nendloop\nendfacet`,
  )
  return `solid t\n${lines.join('\n')}\nendsolid t\n`
}
