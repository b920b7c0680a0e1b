import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Hono } from 'hono'
import { expect, test } from 'vitest'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
const project = { schemaVersion: 1, about: { title: 'A ring' }, settings: { near: 0.9 }, ends: { a: { name: 'a' } } }
const rename: Patch = [{ op: 'replace', path: '/about/title', value: 'Another ring' }]
const nearer: Patch = [{ op: 'replace', path: '/settings/near', value: 0.95 }]

test('a change made on an older revision is kept on top of one that it does not meet', async () => {
  const app = await opened()
  await sent(app, { revision: 1, patch: rename, why: 'misnamed' })
  const second = await sent(app, { revision: 1, patch: nearer, why: 'agreed' })
  expect(second).toMatchObject({
    status: 200,
    body: { revision: 3, under: [{ revision: 2, why: 'misnamed', patch: rename }] },
  })
  expect((await told(app, '/api/project')).document).toMatchObject({
    about: { title: 'Another ring' },
    settings: { near: 0.95 },
  })
})

test('a change that meets another is refused with what the other wrote, when and by whom', async () => {
  const app = await opened()
  await sent(app, { revision: 1, patch: rename, why: 'misnamed' })
  const second = await sent(app, { revision: 1, patch: [{ op: 'remove', path: '/about' }], why: 'gone' })
  expect(second).toMatchObject({
    status: 409,
    body: { revision: 2, changed: [{ by: 'tester', at: '2031-11-03T07:00:00.000Z', patch: rename }], problems: [] },
  })
})

test('a change made before more others than are read at once is held against every one of them', async () => {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'changes-')), 'project.sqlite'))
  const said = { by: 'x', why: 'x', at: 'x' }
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], ...said })
  const others = Array.from(
    { length: 1000 },
    (_, i): Patch => [{ op: 'replace', path: '/ends/a/name', value: `a${i}` }],
  )
  await Promise.all([...others, rename].map((patch, i) => store.append({ on: i + 1, patch, ...said })))
  const app = server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here) })
  const mine: Patch = [{ op: 'replace', path: '/about/title', value: 'My ring' }]
  const late = await sent(app, { revision: 1, patch: mine, why: 'from a page that slept' })
  expect(late).toMatchObject({ status: 409, body: { revision: 1002 } })
  expect(late.body.changed.at(-1)).toMatchObject({ revision: 1002, patch: rename })
  expect((await told(app, '/api/project')).document.about.title).toBe('Another ring')
  expect((await sent(app, { revision: 1, patch: nearer, why: 'agreed' })).status).toBe(200)
  await store.close()
})

test('two changes that do not meet and are no project together are refused with what is wrong', async () => {
  const app = await opened()
  const settings: Patch = [{ op: 'remove', path: '/ends/a' }]
  await sent(app, { revision: 1, patch: settings, why: 'first' })
  const patch = [
    {
      op: 'add',
      path: '/services',
      value: { s: { kind: 'hose', medium: 'oil', from: 'a', to: 'a', timeOff: '1 min', timeOn: '1 min' } },
    },
  ]
  const second = await sent(app, { revision: 1, patch, why: 'second' })
  expect(second.status).toBe(409)
  expect(second.body.problems.map((p: { pointer: string }) => p.pointer)).toContain('/services/s/from')
  expect((await told(app, '/api/project')).revision).toBe(2)
})

test('the log gives what takes a change back, and what it found and left', async () => {
  const app = await opened()
  await sent(app, { revision: 1, patch: rename, why: 'misnamed' })
  const { changes, you } = await told(app, '/api/log?after=1&values=yes')
  expect(you).toBe('tester')
  expect(changes).toMatchObject([
    {
      patch: rename,
      inverse: [{ op: 'replace', path: '/about/title', value: 'A ring' }],
      touched: [{ pointer: '/about/title', before: 'A ring', after: 'Another ring' }],
    },
  ])
  const whole = await told(app, '/api/log?values=yes')
  expect(whole.changes[0].inverse).toBeUndefined()
})

test('a page that follows is told which engine the host runs, what it missed, and what comes', async () => {
  const app = await opened()
  await sent(app, { revision: 1, patch: rename, why: 'misnamed' })
  const answer = await app.request('/api/changes?after=1')
  const events = eventsOf(answer)
  expect(await events.next()).toMatchObject({ value: ['joined', { revision: 2, engine: ENGINE_VERSION }] })
  expect(await events.next()).toMatchObject({ value: ['change', { revision: 2, why: 'misnamed', patch: rename }] })
  await sent(app, { revision: 2, patch: nearer, why: 'agreed' })
  expect(await events.next()).toMatchObject({ value: ['change', { revision: 3, by: 'tester', patch: nearer }] })
  await events.return(undefined)
})

async function* eventsOf(answer: Response): AsyncGenerator<[string, unknown]> {
  const reader = (answer.body as ReadableStream<Uint8Array>).getReader()
  const decoder = new TextDecoder()
  let text = ''
  try {
    for (;;) {
      const { value, done } = await reader.read()
      if (done) return
      text += decoder.decode(value, { stream: true })
      for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
        const lines = text.slice(0, end).split('\n')
        text = text.slice(end + 2)
        const field = (name: string) => lines.find((l) => l.startsWith(`${name}: `))?.slice(name.length + 2) ?? ''
        yield [field('event'), JSON.parse(field('data'))]
      }
    }
  } finally {
    await reader.cancel()
  }
}

async function opened(): Promise<Hono> {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'changes-')), 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], by: 'x', why: 'x', at: 'x' })
  return server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here) })
}

// biome-ignore lint/suspicious/noExplicitAny: what an answer holds is what the test looks at
type Body = any

const told = async (app: Hono, path: string): Promise<Body> => (await app.request(path)).json()

async function sent(app: Hono, body: unknown): Promise<{ status: number; body: Body }> {
  const headers = { 'content-type': 'application/json' }
  const answer = await app.request('/api/change', { method: 'POST', headers, body: JSON.stringify(body) })
  return { status: answer.status, body: await answer.json() }
}
