import { existsSync, mkdtempSync, readdirSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { unzipSync, zipSync } from 'fflate'
import { sql } from 'kysely'
import { beforeAll, describe, expect, test } from 'vitest'
import { sha256 } from '../sha256.ts'
import { broughtBack, bytesOf, forged, wordsOf } from './archive.fixture.ts'
import { archiveOf } from './archive.ts'
import { keepAttachment } from './attachments.ts'
import { nameRevision } from './baselines.ts'
import { newFile } from './engines.fixture.ts'
import { archived } from './restore.ts'
import { openStore } from './store.ts'

const said = { by: 'tester', why: 'to see', at: '2031-11-03T00:00:00Z' }
const PHOTO = new Uint8Array([0xff, 0xd8, 0xff, 0, 1, 2])
const folder = (): string => mkdtempSync(join(tmpdir(), 'restore-'))
const SIGNED = { id: 's1', kind: 'record', subject: '/n', role: 'engineer', revision: 1, statement: '' } as const
const EMPTY = { basis: '{}', figures: '{}', document: '', withdraws: '', at: said.at, by: said.by }

let archive: Uint8Array = new Uint8Array()

beforeAll(async () => {
  const store = await openStore(newFile())
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: { n: 0 } }], ...said })
  for (const on of [1, 2]) await store.append({ on, patch: [{ op: 'replace', path: '/n', value: on }], ...said })
  await nameRevision(store, { name: 'tender', revision: 2, ...said })
  await keepAttachment(store.database, { ...said, name: 'photo.jpg', type: 'image/jpeg' }, PHOTO)
  await store.database.tables
    .insertInto('signature')
    .values({ ...SIGNED, ...EMPTY })
    .execute()
  archive = await archiveOf(store, folder())
  await store.close()
})

const problemsOf = (bytes: Uint8Array): readonly Problem[] => {
  const read = archived(bytes, { entries: 100, bytes: 1_000_000 })
  return 'problems' in read ? read.problems : []
}

/** The archive with the words of one of its files changed. */
const rewritten = (name: string, change: (words: string) => string): Uint8Array =>
  forged(archive, (files) => {
    files[name] = bytesOf(change(wordsOf(files[name])))
  })

/** The archive with one line more in one of its files, made of its last. */
const oneMore = (name: string, change: (row: Record<string, unknown>) => object): Uint8Array =>
  rewritten(name, (words) => `${words}${JSON.stringify(change(JSON.parse(words.trim().split('\n').at(-1) ?? '')))}\n`)

test('the archive as it was written is taken, or the tests below would refuse for another reason', () => {
  expect(problemsOf(archive)).toEqual([])
  expect(problemsOf(forged(archive, () => undefined))).toEqual([])
})

describe('a line of an archive is refused by file, number and what was due', () => {
  test.each<[string, () => Uint8Array, string, RegExp]>([
    [
      'no JSON',
      () => rewritten('change.jsonl', (w) => w.replace(/\n.*\n/, '\nnot JSON at all\n')),
      'change.jsonl, line 2',
      /^no JSON: "not JSON/,
    ],
    ['cut short', () => rewritten('audit.jsonl', () => '{"id":"a1","at":'), 'audit.jsonl, line 1', /^no JSON/],
    ['a list', () => rewritten('baseline.jsonl', () => '[1,2]\n'), 'baseline.jsonl, line 1', /^a list of 2/],
    ['null', () => rewritten('change.jsonl', () => 'null\n'), 'change.jsonl, line 1', /^null/],
    [
      'without what is due',
      () => oneMore('attachment.jsonl', ({ size: _, ...row }) => row),
      'attachment.jsonl, line 2/size',
      /^nothing/,
    ],
    [
      'with a number as text',
      () => oneMore('baseline.jsonl', (row) => ({ ...row, name: 'b', revision: '2' })),
      'baseline.jsonl, line 2/revision',
      /^"2"/,
    ],
    [
      'with more than is due',
      () => rewritten('audit.jsonl', () => '{"id":"a","at":"","by":"","what":"","about":"","role":"approver"}'),
      'audit.jsonl, line 1',
      /role/,
    ],
    [
      'with half a character',
      () => rewritten('change.jsonl', (w) => w.replace('"to see"', '"\\ud83d"')),
      'change.jsonl, line 1/why',
      /half a character in "\\ud83d"/,
    ],
    [
      'with a patch that does not apply',
      () => rewritten('change.jsonl', (w) => w.replace('"path":"/n","value":2', '"path":"/absent","value":2')),
      'change.jsonl, line 3, patch at /absent',
      /nothing/,
    ],
    [
      'with a patch of no operations',
      () => rewritten('change.jsonl', (w) => w.replace('"op":"replace"', '"op":"rename"')),
      'change.jsonl, line 2, patch at /n',
      /rename/,
    ],
    [
      'with a revision left out',
      () => rewritten('change.jsonl', (w) => w.replace('"revision":2', '"revision":3')),
      'change.jsonl, line 2',
      /^revision 3$/,
    ],
    [
      'with a name of a revision that is not there',
      () => oneMore('baseline.jsonl', (row) => ({ ...row, name: 'b', revision: 9 })),
      'baseline.jsonl, line 2',
      /^revision 9$/,
    ],
    [
      'of a name that an earlier one has',
      () => oneMore('baseline.jsonl', (row) => row),
      'baseline.jsonl, line 2',
      /"tender", which line 1 has/,
    ],
    [
      'of an attachment that is told twice',
      () => oneMore('attachment.jsonl', (row) => row),
      'attachment.jsonl, line 2',
      /which line 1 has/,
    ],
    [
      'of an attachment of another size',
      () => rewritten('attachment.jsonl', (w) => w.replace('"size":6', '"size":7')),
      'attachment.jsonl, line 1',
      /a size of 7, and a file of 6 bytes/,
    ],
    [
      'that signs a document which is not there',
      () => oneMore('signature.jsonl', (row) => ({ ...row, id: 's2', document: 'a'.repeat(64) })),
      'signature.jsonl, line 2',
      /a{64}, which is not there/,
    ],
    [
      'that withdraws what nobody signed',
      () => oneMore('signature.jsonl', (row) => ({ ...row, id: 's2', withdraws: 's7' })),
      'signature.jsonl, line 2',
      /"s7"/,
    ],
    [
      'that signs with a basis that is no JSON',
      () => oneMore('signature.jsonl', (row) => ({ ...row, id: 's2', basis: '{' })),
      'signature.jsonl, line 2/basis',
      /"\{"/,
    ],
  ])('%s', (_, bytes, pointer, found) => {
    const [problem] = problemsOf(bytes())
    expect(problem?.pointer).toBe(pointer)
    expect(problem?.found).toMatch(found)
    expect(problem?.expected).not.toBe('')
  })

  test('and every one of them is told, not the first alone', () => {
    const three = rewritten('change.jsonl', () => 'a\nb\nc\n')
    expect(problemsOf(three).map(({ pointer }) => pointer)).toEqual([1, 2, 3].map((n) => `change.jsonl, line ${n}`))
    expect(problemsOf(three)[0]?.example).toContain('"patch"')
  })
})

describe('a file of an archive is refused by its name', () => {
  const HASH = sha256(PHOTO)
  test.each<[string, () => Uint8Array, string]>([
    [
      'an attachment that is missing',
      () => forged(archive, (files) => delete files[`attachments/${HASH}`]),
      'attachment.jsonl, line 1',
    ],
    ['an attachment of which no line tells', () => rewritten('attachment.jsonl', () => ''), `attachments/${HASH}`],
    [
      'an attachment that is not what its name says',
      () =>
        forged(archive, (files) => {
          files[`attachments/${HASH}`] = bytesOf('other!')
        }),
      `attachments/${HASH}`,
    ],
    [
      'a mesh that is not what its name says',
      () =>
        forged(archive, (files) => {
          files[`meshes/${HASH}.stl`] = bytesOf('x')
        }),
      `meshes/${HASH}.stl`,
    ],
    [
      'a way out of the folder',
      () =>
        forged(archive, (files) => {
          files['meshes/../../escape.txt'] = bytesOf('x')
        }),
      'meshes/../../escape.txt',
    ],
    [
      'a way from the root',
      () =>
        forged(archive, (files) => {
          files['/etc/cron.d/job'] = bytesOf('x')
        }),
      '/etc/cron.d/job',
    ],
    ['a table that is missing', () => forged(archive, (files) => delete files['signature.jsonl']), 'signature.jsonl'],
    [
      'a table in bytes that are no text',
      () =>
        forged(archive, (files) => {
          files['audit.jsonl'] = new Uint8Array([0xff, 0xfe])
        }),
      'audit.jsonl',
    ],
    [
      'other bytes than its hash says',
      () => zipSync({ ...unzipSync(archive), 'change.jsonl': bytesOf('{}') }),
      'change.jsonl',
    ],
    [
      'a list of hashes that is missing',
      () => zipSync({ 'archive.json': bytesOf('{"form":1,"revision":3}') }),
      'archive.json',
    ],
    ['a later form', () => zipSync({ 'archive.json': bytesOf('{"form":2,"revision":3,"files":{}}') }), 'archive.json'],
    ['no archive.json', () => zipSync({ 'other.txt': bytesOf('x') }), 'archive.json'],
    ['an archive cut short', () => archive.slice(0, archive.length - 40), ''],
    ['an archive with a hole in the middle', () => archive.slice().fill(0, 200, 400), ''],
    ['nothing', () => new Uint8Array(), ''],
    ['an archive that unpacks to too much', () => zipSync({ 'bomb.bin': new Uint8Array(2_000_000) }), ''],
  ])('%s', (_, bytes, pointer) => {
    const problems = problemsOf(bytes())
    expect(problems.map((p) => p.pointer)).toContain(pointer)
    expect(problems.every(({ found, expected }) => found !== '' && expected !== '')).toBe(true)
  })

  test('two files of one name', () => {
    const twice = zipSync({ ...unzipSync(archive), 'audit.jsonk': bytesOf('') })
    const [same, other] = ['audit.jsonl', 'audit.jsonk'].map((name) => Buffer.from(name)) as [Buffer, Buffer]
    const bytes = Buffer.from(twice)
    for (let at = bytes.indexOf(other); at >= 0; at = bytes.indexOf(other)) same.copy(bytes, at)
    expect(problemsOf(new Uint8Array(bytes))).toContainEqual(
      expect.objectContaining({ pointer: 'audit.jsonl', found: 'two files of this name' }),
    )
  })
})

test('an archive of deep nesting is refused in the time of any other', () => {
  const deep = `${'['.repeat(200_000)}${']'.repeat(200_000)}`
  const bytes = rewritten('change.jsonl', (w) => w.replace('"value":1', `"value":${deep}`))
  expect(problemsOf(bytes)).toMatchObject(
    [{ pointer: 'change.jsonl, line 2, patch at /n', found: /deep nesting/ }].map(({ pointer }) => ({ pointer })),
  )
})

test('where the disk is full in the middle nothing of the archive is left, and it goes in once there is room', async () => {
  const store = await openStore(newFile())
  const meshes = folder()
  const mesh = bytesOf('solid nothing\nendsolid\n')
  const large = forged(archive, (files) => {
    files[`meshes/${sha256(mesh)}.stl`] = mesh
    const photo = new Uint8Array(900_000).fill(7)
    files[`attachments/${sha256(photo)}`] = photo
    const row = { hash: sha256(photo), name: 'b.jpg', type: 'image/jpeg', size: photo.length, at: said.at, by: said.by }
    files['attachment.jsonl'] = bytesOf(`${wordsOf(files['attachment.jsonl'])}${JSON.stringify(row)}\n`)
  })
  await sql`pragma max_page_count = 100`.execute(store.database.tables)
  await expect(broughtBack(store, meshes, large)).rejects.toMatchObject({ code: 'SQLITE_FULL' })
  expect((await store.current()).revision).toBe(0)
  expect(readdirSync(meshes)).toEqual([])
  await sql`pragma max_page_count = 100000`.execute(store.database.tables)
  expect(await broughtBack(store, meshes, large)).toEqual([])
  expect((await store.current()).document).toEqual({ n: 2 })
  expect(existsSync(join(meshes, `${sha256(mesh)}.stl`))).toBe(true)
  await store.close()
})
