import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Hono } from 'hono'
import { expect, test } from 'vitest'
import { sha256 } from '../sha256.ts'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
const project = { schemaVersion: 1, about: { title: 'A ring' }, settings: { near: 0.9 } }
const rename: Patch = [{ op: 'replace', path: '/about/title', value: 'Another ring' }]

test('the project is told with the revision it stands on', async () => {
  const app = await opened()
  expect(await told(app, '/api/project')).toEqual({ status: 200, body: { revision: 1, document: project } })
})

test('on a server without accounts whoever asks has no role', async () => {
  expect(await told(await opened(), '/api/me')).toEqual({ status: 200, body: { name: 'tester' } })
})

test('a kept change makes a revision, is seen by the next reader and stands in the log', async () => {
  const app = await opened()
  expect(await sent(app, '/api/change', { revision: 1, patch: rename, why: 'misnamed' })).toEqual({
    status: 200,
    body: { revision: 2 },
  })
  expect((await told(app, '/api/project')).body).toMatchObject({
    revision: 2,
    document: { about: { title: 'Another ring' } },
  })
  const { body } = await told(app, '/api/log?after=1')
  expect(body).toEqual({
    changes: [
      {
        revision: 2,
        at: '2031-11-03T07:00:00.000Z',
        by: 'tester',
        why: 'misnamed',
        operations: [{ op: 'replace', path: '/about/title' }],
      },
    ],
  })
})

test.each<[string, Patch]>([
  ['no operation', []],
  ['the value that stands there', [{ op: 'replace', path: '/about/title', value: 'A ring' }]],
  ['a test alone', [{ op: 'test', path: '/about/title', value: 'A ring' }]],
  [
    'there and back',
    [
      { op: 'add', path: '/about/x', value: 1 },
      { op: 'remove', path: '/about/x' },
    ],
  ],
  ['the whole project as it is', [{ op: 'replace', path: '', value: { ...project, about: { title: 'A ring' } } }]],
])('a change that changes nothing is no revision: %s', async (_, patch) => {
  const app = await opened()
  const answer = await sent(app, '/api/change', { revision: 1, patch, why: 'for nothing' })
  expect(answer).toEqual({ status: 200, body: { revision: 1, same: true } })
  expect((await told(app, '/api/log')).body.changes).toHaveLength(1)
})

test('one that changes nothing on an older revision comes back with what others did meanwhile', async () => {
  const app = await opened()
  await sent(app, '/api/change', { revision: 1, patch: rename, why: 'first' })
  const { body } = await sent(app, '/api/change', { revision: 1, patch: [], why: 'second' })
  expect(body).toMatchObject({ revision: 2, same: true, under: [{ revision: 2, why: 'first' }] })
  expect((await told(app, '/api/log')).body.changes).toHaveLength(2)
})

test.each([
  ['a reason', '/why', { patch: rename, why: 'half \ud83d' }],
  ['a value', '/patch/0/value', { patch: [{ op: 'replace', path: '/about/title', value: '\udc00' }] }],
  ['a name in a value', '/patch/0/value/\ud83d', { patch: [{ op: 'add', path: '/bays', value: { '\ud83d': {} } }] }],
  ['a path', '/patch/0/path', { patch: [{ op: 'add', path: '/bays/\ud83d', value: {} }] }],
])('half a character in %s is refused with its place, and not kept as another', async (_, pointer, body) => {
  const app = await opened()
  const answer = await sent(app, '/api/change', { revision: 1, ...body })
  expect(answer).toMatchObject({ status: 400, body: { problems: [{ pointer }] } })
  expect((await told(app, '/api/log')).body.changes).toHaveLength(1)
})

test('half a character is refused in whatever else is recorded', async () => {
  const app = await opened()
  const half = 'x\ud83d'
  for (const [path, body] of [
    ['/api/baselines', { name: 'tender', revision: 1, why: half }],
    ['/api/signatures', { kind: 'record', subject: '/about', role: half, revision: 1 }],
    ['/api/signatures', { kind: 'record', subject: '/about', role: 'engineer', statement: half, revision: 1 }],
    ['/api/signatures/any/withdraw', { why: half }],
  ] as const)
    expect([path, (await sent(app, path, body)).status]).toEqual([path, 400])
})

test('a change on an older revision is refused with what came first', async () => {
  const app = await opened()
  await sent(app, '/api/change', { revision: 1, patch: rename, why: 'first' })
  const late = await sent(app, '/api/change', { revision: 1, patch: rename, why: 'second' })
  expect(late).toMatchObject({ status: 409, body: { revision: 2, changed: [{ why: 'first' }] } })
})

test('a change on a revision that another process has passed is told what came first, kept or not', async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'api-')), 'project.sqlite')
  const store = await openStore(file)
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], by: 'x', why: 'x', at: 'x' })
  const app = server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here) })
  await told(app, '/api/project')
  const other = await openStore(file)
  await other.append({ on: 1, patch: rename, by: 'other', why: 'elsewhere', at: 'x' })
  const stale = { revision: 1, patch: [{ op: 'replace', path: '/about/title', value: 1 }], why: '' }
  expect(await sent(app, '/api/change', stale)).toMatchObject({ status: 409, body: { changed: [{ by: 'other' }] } })
  await other.append({ on: 2, patch: rename, by: 'other', why: 'again', at: 'x' })
  const near: Patch = [{ op: 'replace', path: '/settings/near', value: 0.8 }]
  expect(await sent(app, '/api/change', { revision: 2, patch: near, why: '' })).toMatchObject({
    status: 200,
    body: { revision: 4, under: [{ why: 'again' }] },
  })
  await other.close()
})

test('of changes sent at once on one revision, one is kept', async () => {
  const app = await opened()
  const sends = [1, 2, 3, 4].map((n) =>
    sent(app, '/api/change', {
      revision: 1,
      patch: [{ op: 'replace', path: '/about/title', value: `Ring ${n}` }],
      why: '',
    }),
  )
  const statuses = (await Promise.all(sends)).map((answer) => answer.status)
  expect(statuses.sort()).toEqual([200, 409, 409, 409])
})

test('a change that would leave no sound project is refused whole, with every problem, and nothing is kept', async () => {
  const app = await opened()
  const patch = [
    { op: 'replace', path: '/about/title', value: '' },
    { op: 'add', path: '/settings/tilt', value: 3 },
  ]
  const { status, body } = await sent(app, '/api/change', { revision: 1, patch, why: '' })
  expect(status).toBe(400)
  expect(body.problems.map((p: { pointer: string }) => p.pointer)).toEqual(['/about/title', '/settings/tilt'])
  expect((await told(app, '/api/project')).body.revision).toBe(1)
})

test('a preview says what would change and keeps nothing', async () => {
  const app = await opened()
  const { status, body } = await sent(app, '/api/preview', { patch: rename })
  expect(status).toBe(200)
  expect(body).toMatchObject({ before: { counts: {} }, after: { counts: {} }, changes: [] })
  expect((await told(app, '/api/project')).body).toEqual({ revision: 1, document: project })
})

test.each([
  ['no JSON', '{'],
  ['no patch', '{}'],
  ['a patch that is no list', '{"patch": "x", "revision": 1}'],
  ['an operation that is none', '{"patch": [{"op": "set", "path": "/a"}], "revision": 1}'],
  ['no revision', '{"patch": []}'],
  [
    'levels without end',
    `{"revision": 1, "patch": [{"op": "test", "path": "/about", "value": ${'['.repeat(5000)}${']'.repeat(5000)}}]}`,
  ],
  ['a path into the machinery', '{"patch": [{"op": "add", "path": "/__proto__/x", "value": 1}], "revision": 1}'],
])('%s is refused with a problem', async (_, body) => {
  const app = await opened()
  const answer = await app.request('/api/change', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body,
  })
  expect(answer.status).toBe(400)
  const { problems } = (await answer.json()) as { problems: unknown[] }
  expect(problems.length).toBeGreaterThan(0)
})

test('a request larger than any change is refused before it is read', async () => {
  const app = await opened()
  const body = JSON.stringify({ revision: 1, patch: [], why: 'x'.repeat(5_000_000) })
  const headers = { 'content-type': 'application/json', 'content-length': String(body.length) }
  expect((await app.request('/api/change', { method: 'POST', headers, body })).status).toBe(413)
})

test('a photograph of eleven megabytes is kept whole; one of thirteen is refused with the limit, and nothing else may be so large', async () => {
  const app = await opened()
  const sent = (path: string, megabytes: number) => {
    const body = Buffer.alloc(megabytes * 1024 * 1024, 7)
    const headers = { 'content-type': 'image/jpeg', 'content-length': String(body.length) }
    return app.request(path, { method: 'POST', headers, body })
  }
  const kept = (await (await sent('/api/attachments?name=seal.jpg', 11)).json()) as { hash: string; size: number }
  expect(kept).toMatchObject({ hash: sha256(Buffer.alloc(11 * 1024 * 1024, 7)), size: 11 * 1024 * 1024 })
  const refused = await sent('/api/attachments?name=seal.jpg', 13)
  expect(refused.status).toBe(413)
  expect(await refused.json()).toMatchObject({ problems: [{ expected: 'at most 12 MB (12582912 bytes)' }] })
  expect((await sent('/api/change', 11)).status).toBe(413)
})

test('a page of another site gets nothing, under whatever name it reaches this machine', async () => {
  const app = await opened()
  const foreign = { headers: { origin: 'http://elsewhere.example' } }
  expect((await app.request('/api/project', foreign)).status).toBe(403)
  expect((await app.request('http://elsewhere.example/api/project')).status).toBe(403)
})

test('an unknown address under the API is a problem, not the page', async () => {
  expect(await told(await opened(), '/api/nothing')).toMatchObject({ status: 404, body: { problems: [{}] } })
})

async function opened(): Promise<Hono> {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'api-')), 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], by: 'x', why: 'x', at: 'x' })
  return server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here) })
}

// biome-ignore lint/suspicious/noExplicitAny: what an answer holds is what the test looks at
type Told = { status: number; body: any }

async function told(app: Hono, path: string): Promise<Told> {
  const answer = await app.request(path)
  return { status: answer.status, body: await answer.json() }
}

async function sent(app: Hono, path: string, body: unknown): Promise<Told> {
  const headers = { 'content-type': 'application/json' }
  const answer = await app.request(path, { method: 'POST', headers, body: JSON.stringify(body) })
  return { status: answer.status, body: await answer.json() }
}
