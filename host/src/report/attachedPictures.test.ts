import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { model } from '@shieldwright/engine/model/index.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { expect, test } from 'vitest'
import { linesOf, type Picture, pngFile } from '../paper/png.fixture.ts'
import { sha256 } from '../sha256.ts'
import { picturesInFolder } from './attachedPictures.ts'

const picture: Picture = {
  ...{ width: 3, height: 2, depth: 4, colour: 0, isInterlaced: true, filters: [0] },
  points: [[0], [3], [6], [9], [12], [15]],
}

test('an interlaced PNG of four bits a point, narrower than a pass, is printed', async () => {
  const { state, pictures } = await attached(pngFile(picture))
  expect([state, pictures.size]).toEqual(['printed', 1])
})

test('one that is cut short is not', async () => {
  const { state, pictures } = await attached(pngFile(picture, linesOf(picture).subarray(0, -1)))
  expect([state, pictures.size]).toEqual(['not a JPEG or PNG that can be read', 0])
})

test('a file that is not what its name says is as if it were not there', async () => {
  const { state } = await attached(pngFile(picture), 'a'.repeat(64))
  expect(state).toBeUndefined()
})

async function attached(file: Uint8Array, hash = sha256(file)) {
  const folder = mkdtempSync(join(tmpdir(), 'pictures-'))
  writeFileSync(join(folder, `${hash}.png`), file)
  const inspections = { one: { what: 'Raceway', kind: 'bearing', attachments: [{ hash }] } }
  const document = { schemaVersion: 1, about: { title: 'Small' }, inspections }
  expect(model(document, freshMemory()).problems).toEqual([])
  const { files, pictures } = await picturesInFolder([document], folder)
  return { state: files.get(hash), pictures }
}
