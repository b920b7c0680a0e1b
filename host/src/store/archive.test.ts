import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { unzipSync, zipSync } from 'fflate'
import { expect, test } from 'vitest'
import { sha256 } from '../sha256.ts'
import { broughtBack } from './archive.fixture.ts'
import { ArchiveTooLarge, archiveOf } from './archive.ts'
import { attachmentOf, keepAttachment } from './attachments.ts'
import { namedRevisions, nameRevision } from './baselines.ts'
import { engines, newFile } from './engines.fixture.ts'
import { openStore, type Store } from './store.ts'

const said = { by: 'tester', why: 'to see', at: '2031-11-03T00:00:00Z' }
const [sqlite, postgres] = engines()
const folder = (): string => mkdtempSync(join(tmpdir(), 'archive-'))

test('a store goes through an archive to the other database and back with nothing lost, byte for byte', async () => {
  const meshes = folder()
  const bytes = new TextEncoder().encode('solid nothing\nendsolid\n')
  const mesh = `${sha256(bytes)}.stl`
  writeFileSync(join(meshes, mesh), bytes)
  const first = await filled(await openStore(sqlite?.newPlace() ?? newFile()), 260)
  const archive = await archiveOf(first, meshes)
  expect(Buffer.compare(await archiveOf(first, meshes), archive)).toBe(0)
  const [second, third] = [await openStore(postgres?.newPlace() ?? newFile()), await openStore(newFile())]
  const elsewhere = folder()
  expect(await broughtBack(second, elsewhere, archive)).toEqual([])
  expect(readFileSync(join(elsewhere, mesh))).toEqual(Buffer.from(bytes))
  const again = await archiveOf(second, elsewhere)
  expect(Buffer.compare(again, archive)).toBe(0)
  expect(await broughtBack(third, folder(), again)).toEqual([])
  expect(await third.current()).toEqual(await first.current())
  expect(await third.at(77)).toEqual(await first.at(77))
  expect(await namedRevisions(third.database)).toMatchObject([{ name: 'tender', revision: 12 }])
  const [{ hash }] = [await keepAttachment(first.database, { ...said, name: 'x', type: 'y' }, PHOTO)]
  expect((await attachmentOf(third.database, hash))?.bytes).toEqual(PHOTO)
  for (const store of [first, second, third]) await store.close()
})

test('a backup that is made while someone writes is whole, and holds everything that was kept before it began', async () => {
  const store = await filled(await openStore(newFile()), 50)
  const other = await openStore(store.database.place)
  let writing = true
  const writer = (async () => {
    for (let on = 50; writing; on++) await other.append({ on, patch: [{ op: 'add', path: '/n', value: on }], ...said })
  })()
  for (let round = 0; round < 5; round++) {
    const least = (await store.current()).revision
    const archive = await archiveOf(store, folder())
    const into = await openStore(newFile())
    expect(await broughtBack(into, folder(), archive)).toEqual([])
    expect((await into.current()).revision).toBeGreaterThanOrEqual(least)
    await into.close()
  }
  writing = false
  await writer
  for (const one of [store, other]) await one.close()
})

test('a file that is named by a change which is kept while a backup is made is in the backup with it', async () => {
  const store = await filled(await openStore(newFile()), 3)
  const bytes = new Uint8Array([1, 2, 3])
  const busy: Store = {
    ...store,
    current: async () => {
      const { hash } = await keepAttachment(store.database, { ...said, name: 'seal.jpg', type: 'image/jpeg' }, bytes)
      await store.append({ on: 3, patch: [{ op: 'add', path: '/photo', value: hash }], ...said })
      return store.current()
    },
  }
  const into = await openStore(newFile())
  expect(await broughtBack(into, folder(), await archiveOf(busy, folder()))).toEqual([])
  const { photo } = (await into.current()).document as { photo: string }
  expect((await attachmentOf(into.database, photo))?.bytes).toEqual(bytes)
  for (const one of [store, into]) await one.close()
})

test('what is too large to be brought back is not packed, and what just fits is', async () => {
  const store = await filled(await openStore(newFile()), 5)
  const held = Object.values(unzipSync(await archiveOf(store, folder()))).reduce((sum, file) => sum + file.length, 0)
  const entries = 100
  await expect(archiveOf(store, folder(), { entries, bytes: held - 1 })).rejects.toThrow(ArchiveTooLarge)
  await expect(archiveOf(store, folder(), { entries: 1, bytes: held })).rejects.toThrow(ArchiveTooLarge)
  const into = await openStore(newFile())
  const bounds = { entries, bytes: held }
  expect(await broughtBack(into, folder(), await archiveOf(store, folder(), bounds), bounds)).toEqual([])
  for (const one of [store, into]) await one.close()
})

test('an archive that was tampered with, cut or blown up brings nothing in', async () => {
  const store = await filled(await openStore(newFile()), 5)
  const archive = await archiveOf(store, folder())
  const files = unzipSync(archive)
  const log = new TextDecoder().decode(files['change.jsonl']).replace('"value":3', '"value":4')
  const bad: Uint8Array[] = [
    zipSync({ ...files, 'change.jsonl': new TextEncoder().encode(log) }),
    zipSync({ ...files, '../../escape.txt': new Uint8Array(3) }),
    archive.slice(0, archive.length - 40),
    new Uint8Array(0),
    zipSync({ 'archive.json': new Uint8Array(1), 'bomb.bin': new Uint8Array(20_000_000) }),
  ]
  for (const [i, bytes] of bad.entries()) {
    const into = await openStore(newFile())
    expect([i, (await broughtBack(into, folder(), bytes, BOUNDS)).length]).toEqual([i, 1])
    expect((await into.current()).revision).toBe(0)
    await into.close()
  }
  expect(await broughtBack(store, folder(), archive)).toMatchObject([{ pointer: '--data' }])
  await store.close()
})

const BOUNDS = { entries: 100, bytes: 10_000_000 }
const PHOTO = new Uint8Array([0xff, 0xd8, 0xff, 0, 1, 2])

async function filled(store: Store, changes: number): Promise<Store> {
  for (let on = 0; on < changes; on++) {
    const patch =
      on === 0 ? [{ op: 'add', path: '', value: { n: 0 } } as const] : [{ op: 'add', path: '/n', value: on } as const]
    await store.append({ on, patch, ...said })
  }
  await nameRevision(store, { name: 'tender', revision: Math.min(12, changes), ...said })
  await keepAttachment(store.database, { ...said, name: 'photo.jpg', type: 'image/jpeg' }, PHOTO)
  return store
}
