import { mkdtempSync } from 'node:fs'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import type { Hono } from 'hono'
import { sql } from 'kysely'
import { afterEach, describe, expect, test } from 'vitest'
import { sha256 } from '../sha256.ts'
import { attachments } from '../store/attachments.ts'
import { engines, newFile } from '../store/engines.fixture.ts'
import type { Place } from '../store/place.ts'
import { openStore, type Store } from '../store/store.ts'
import { api } from './api.ts'
import { type Listening, listen } from './listen.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

const project = { schemaVersion: 1, about: { title: 'A ring' }, settings: { near: 0.9 } }
const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
const closing: (() => Promise<void>)[] = []

afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close()
})

async function opened(place: Place = newFile()): Promise<{ app: Hono; store: Store }> {
  const store = await openStore(place)
  closing.push(() => store.close())
  if ((await store.current()).revision === 0)
    await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], by: 'x', why: 'x', at: 'x' })
  const folder = mkdtempSync(`${tmpdir()}/uploads-`)
  return { app: server({ page: folder, api: api(liveProject(store, folder), here) }), store }
}

async function listening(app: Hono): Promise<Listening> {
  const open = await listen(app, 0)
  closing.push(open.close)
  return open
}

const attach = (app: Hono, bytes: Uint8Array, query = 'name=seal.jpg') =>
  app.request(`/api/attachments?${query}`, {
    method: 'POST',
    headers: { 'content-type': 'image/jpeg', 'content-length': String(bytes.length) },
    body: Buffer.from(bytes),
  })

const photo = (size: number, of = 7): Uint8Array => new Uint8Array(size).fill(of)

describe.each(engines())('on $name', ({ newPlace }) => {
  test('the same content sent by several at once, to two servers, is kept once and told the same to all', async () => {
    const place = newPlace()
    const [one, two] = [await opened(place), await opened(place)]
    const answers = await Promise.all([1, 2, 3, 4].map((i) => attach(i % 2 ? one.app : two.app, photo(50_000))))
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201, 201])
    const told = await Promise.all(answers.map((answer) => answer.json()))
    expect(new Set(told.map(({ hash }) => hash))).toEqual(new Set([sha256(photo(50_000))]))
    expect(await attachments(one.store.database)).toHaveLength(1)
  })
})

test('bytes that are not those of the hash they were sent with are refused, and nothing is kept', async () => {
  const { app, store } = await opened()
  const refused = await attach(app, photo(9), `name=seal.jpg&hash=${sha256(photo(10))}`)
  expect(refused.status).toBe(400)
  expect((await refused.json()).problems).toMatchObject([
    { pointer: 'hash', found: `9 bytes with the hash ${sha256(photo(9))}` },
  ])
  expect(await attachments(store.database)).toEqual([])
  expect((await attach(app, photo(9), `name=seal.jpg&hash=${sha256(photo(9))}`)).status).toBe(201)
})

test('a file whose sending is cut short is not kept, and the server goes on', async () => {
  const { app, store } = await opened()
  const { address } = await listening(app)
  const { port, host } = new URL(address)
  for (const length of ['content-length: 100000', 'transfer-encoding: chunked']) {
    const body = length.startsWith('content') ? 'x'.repeat(50_000) : `c350\r\n${'x'.repeat(50_000)}\r\n`
    const head = `POST /api/attachments?name=a.jpg HTTP/1.1\r\nhost: ${host}\r\n${length}\r\n\r\n`
    await new Promise<void>((resolve) => {
      const socket = connect(Number(port), '127.0.0.1', () => {
        socket.write(head + body, () => socket.resetAndDestroy())
      })
      socket.once('close', () => resolve())
      socket.once('error', () => undefined)
    })
  }
  expect((await fetch(`${address}/health`)).status).toBe(200)
  const kept = await fetch(`${address}/api/attachments?name=b.jpg`, { method: 'POST', body: 'whole' })
  expect(kept.status).toBe(201)
  expect((await attachments(store.database)).map(({ name }) => name)).toEqual(['b.jpg'])
})

test('a file that comes in pieces and does not say how large it is, is given up at the limit', async () => {
  const { app, store } = await opened()
  const { address } = await listening(app)
  let sent = 0
  const body = new ReadableStream<Uint8Array>({
    pull: (controller) => {
      sent += 65_536
      if (sent > 60 * 1024 * 1024) controller.close()
      else controller.enqueue(photo(65_536))
    },
  })
  const request = fetch(`${address}/api/attachments?name=a.jpg`, {
    method: 'POST',
    body,
    duplex: 'half',
  } as RequestInit)
  // The connection may be closed on one who goes on sending, before the answer is read.
  const status = await request.then((answer) => answer.status).catch(() => 413)
  expect(status).toBe(413)
  expect((await fetch(`${address}/health`)).status).toBe(200)
  expect(await attachments(store.database)).toEqual([])
})

test('on a full disk files and changes are refused as that, nothing is half kept, and what comes after there is room is kept', async () => {
  const { app, store } = await opened()
  const limited = (pages: number) => sql`pragma max_page_count = ${sql.lit(pages)}`.execute(store.database.tables)
  const edit = async (title: string) => {
    const { revision } = await store.current()
    const patch = [{ op: 'replace', path: '/about/title', value: title }]
    const headers = { 'content-type': 'application/json' }
    return app.request('/api/change', { method: 'POST', headers, body: JSON.stringify({ revision, patch }) })
  }
  await limited(1) // No less than there are: every page that is not there yet is one too many.
  const refused = [await attach(app, photo(300_000))]
  let kept = 0
  for (; kept < 300 && refused.length < 2; kept++) {
    const answer = await edit(`Ring ${kept} ${'long '.repeat(20)}`)
    if (answer.status !== 200) refused.push(answer)
  }
  kept -= refused.length - 1
  for (const answer of refused) {
    expect(answer.status).toBe(507)
    expect((await answer.json()).problems).toMatchObject([{ found: 'a disk without room' }])
  }
  expect((await store.logAfter(0)).map(({ revision }) => revision)).toEqual(
    Array.from({ length: kept + 1 }, (_, i) => i + 1),
  )
  expect(await attachments(store.database)).toEqual([])
  expect((await app.request('/api/project')).status).toBe(200)
  await limited(1_000_000)
  expect((await attach(app, photo(300_000))).status).toBe(201)
  expect((await edit('There is room')).status).toBe(200)
  const again = await openStore(store.database.place)
  closing.push(() => again.close())
  expect(await again.current()).toMatchObject({ revision: kept + 2, document: { about: { title: 'There is room' } } })
})

test('a change is kept, and told to be, where the disk has room for it and none for the snapshot after it', async () => {
  const place = newFile()
  const store = await openStore(place, 2)
  closing.push(() => store.close())
  const value = { text: 'long '.repeat(40_000), n: 0 }
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value }], by: 'x', why: 'x', at: 'x' })
  await sql`pragma max_page_count = 1`.execute(store.database.tables)
  const patch = [{ op: 'replace', path: '/n', value: 1 }] as const
  expect(await store.append({ on: 1, patch, by: 'x', why: 'x', at: 'x' })).toEqual({ revision: 2 })
  expect(await store.database.tables.selectFrom('snapshot').select('revision').execute()).toEqual([])
})
