import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { beforeAll, expect, test } from 'vitest'
import { smallPlan } from '../exchange/exchange.fixture.ts'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

let app: Hono
beforeAll(async () => {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'exchange-')), 'project.sqlite'))
  const value = smallPlan({ dataDate: '2032-03-10' })
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value }], by: 'x', why: 'x', at: 'x' })
  const here = { user: 'tester', clock: () => new Date('2032-03-10T07:00:00Z') }
  app = server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here) })
})

test.each([
  ['programme.csv', 'text/csv'],
  ['look-ahead.csv?weeks=6&units=US', 'text/csv'],
  ['dates.ics', 'text/calendar'],
  ['tables.xlsx', 'application/vnd.openxmlformats'],
])('%s is sent as a file', async (path, type) => {
  const answer = await app.request(`/api/exchange/${path}`)
  expect(answer.status).toBe(200)
  expect(answer.headers.get('content-type')).toContain(type)
  expect(answer.headers.get('content-disposition')).toContain(`filename="${path.split('?')[0]}"`)
  expect((await answer.arrayBuffer()).byteLength).toBeGreaterThan(100)
})

test('the calendar carries the revision as the number of its issue', async () => {
  expect(await (await app.request('/api/exchange/dates.ics')).text()).toContain('SEQUENCE:1\r\n')
})

test.each([
  ['rooms.csv', 404, 'file'],
  ['programme.csv?weeks=0', 400, 'weeks'],
] as const)('%s is refused, and what was expected is said', async (path, status, pointer) => {
  const answer = await app.request(`/api/exchange/${path}`)
  expect(answer.status).toBe(status)
  expect((await answer.json()).problems[0]).toMatchObject({ pointer })
})

test('a table sent in is answered with the patch that it would be, and nothing is kept', async () => {
  const body = 'activity,start,finish\nA,2032-03-01,2032-03-03\nB,3.4.2032,\n'
  const answer = await app.request('/api/exchange/import?of=progress', { method: 'POST', body })
  expect(answer.status).toBe(200)
  const told = await answer.json()
  expect(told).toMatchObject({ revision: 1, taken: 1, same: 0 })
  expect(told.patch.at(-1).path).toBe('/programme/progress/A')
  expect(told.refused[0]).toMatchObject({ row: 3, column: 'start' })
  expect((await (await app.request('/api/project')).json()).revision).toBe(1)
})

test('a table that cannot be read is refused whole', async () => {
  const answer = await app.request('/api/exchange/import', { method: 'POST', body: 'PK none' })
  expect(answer.status).toBe(400)
  expect((await answer.json()).problems[0].found).toContain('archive')
  expect((await app.request('/api/exchange/import?of=hours', { method: 'POST', body: 'x' })).status).toBe(400)
})

test('of two who bring the same rows in at once one is kept, and the other is told what changed', async () => {
  const look = async (start: string) => {
    const body = `activity,start,finish\nA,${start},2032-03-03\n`
    return (await app.request('/api/exchange/import?of=progress', { method: 'POST', body })).json()
  }
  const [one, two] = [await look('2032-03-01'), await look('2032-03-02')]
  const keep = ({ revision, patch }: { revision: number; patch: unknown }, why: string) =>
    app.request('/api/change', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ revision, patch, why }),
    })
  const answers = await Promise.all([keep(one, 'one'), keep(two, 'two')])
  expect(answers.map(({ status }) => status).sort()).toEqual([200, 409])
  const refused = await answers.find(({ status }) => status === 409)?.json()
  expect(refused.changed).toMatchObject([{ revision: 2, why: answers[0]?.status === 200 ? 'one' : 'two' }])
  const { revision, document } = await (await app.request('/api/project')).json()
  expect(revision).toBe(2)
  expect(document.programme.progress.A.start).toBe(answers[0]?.status === 200 ? '2032-03-01' : '2032-03-02')
})
