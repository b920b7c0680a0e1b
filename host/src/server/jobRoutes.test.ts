import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Hono } from 'hono'
import { afterEach, expect, test } from 'vitest'
import { type JobDesk, jobDesk } from '../jobs/desk.ts'
import { jobResults } from '../jobs/results.ts'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

const project = {
  schemaVersion: 1,
  about: { title: 'One activity' },
  programme: {
    start: '2031-11-03',
    restart: 'A',
    calendars: { days: { days: ['Mon', 'Tue', 'Wed'], shifts: [['07:00', '17:00']], hoursPerDay: 10 } },
    activities: { A: { name: 'Resume', calendar: 'days', days: [1, 2, 6] } },
  },
}

let desk: JobDesk
afterEach(() => desk.close())

test('a simulation is started, followed to its end and told with dates', async () => {
  const app = await opened()
  const started = await sent(app, { kind: 'simulate', runs: 400, seed: 7 })
  expect(started).toMatchObject({ status: 202, body: { state: 'running', revision: 1 } })
  const states = await followed(app, started.body.id)
  const last = states.at(-1)
  expect(last).toMatchObject({ state: 'done', result: { runs: 400, seed: 7 } })
  expect(last.result.restart.p50).toMatch(/^2031-11-/)
  expect(last.result.restart.p10 <= last.result.restart.p90).toBe(true)
  expect((await told(app, `/api/jobs/${started.body.id}`)).body).toEqual(last)
})

test('the same asked again is answered at once, and with the same', async () => {
  const app = await opened()
  const request = { kind: 'simulate', runs: 300, seed: 8 }
  const { body } = await sent(app, request)
  const made = (await followed(app, body.id)).at(-1)
  const again = await sent(app, { seed: 8, runs: 300, kind: 'simulate' })
  expect(again).toMatchObject({ status: 200, body: { state: 'done', result: made.result } })
  expect((await sent(app, { ...request, seed: 9 })).status).toBe(202)
})

test('a job that is cancelled ends as that', async () => {
  const app = await opened()
  const { body } = await sent(app, { kind: 'simulate', runs: 1_000_000 })
  await app.request(`/api/jobs/${body.id}`, { method: 'DELETE' })
  expect((await followed(app, body.id)).at(-1)).toMatchObject({ state: 'cancelled' })
})

test('no more jobs run at once than may', async () => {
  const app = await opened()
  const statuses = []
  for (let i = 0; i < 3; i++) statuses.push((await sent(app, { kind: 'simulate', runs: 1_000_000 })).status)
  expect(statuses).toEqual([202, 202, 429])
})

test.each([
  ['an unknown kind', { kind: 'divine' }],
  ['no kind', {}],
  ['half a run', { kind: 'simulate', runs: 10.5 }],
  ['more runs than anyone waits for', { kind: 'simulate', runs: 1e12 }],
  ['a target that is no id', { kind: 'order', targets: [3] }],
])('%s is refused', async (_, body) => {
  expect(await sent(await opened(), body)).toMatchObject({ status: 400, body: { problems: [{}] } })
})

test('a job that was never started is unknown', async () => {
  const app = await opened()
  for (const path of ['/api/jobs/job-0', '/api/jobs/job-0/events']) expect((await told(app, path)).status).toBe(404)
})

async function opened(): Promise<Hono> {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'api-')), 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], by: 'x', why: 'x', at: 'x' })
  desk = jobDesk(jobResults(store.database))
  const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
  return server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here, desk) })
}

// biome-ignore lint/suspicious/noExplicitAny: what an answer holds is what the test looks at
type Told = { status: number; body: any }

async function told(app: Hono, path: string): Promise<Told> {
  const answer = await app.request(path)
  return { status: answer.status, body: await answer.json() }
}

async function sent(app: Hono, body: unknown): Promise<Told> {
  const headers = { 'content-type': 'application/json' }
  const answer = await app.request('/api/jobs', { method: 'POST', headers, body: JSON.stringify(body) })
  return { status: answer.status, body: await answer.json() }
}

/** Every state that the stream of events told, to its end. */
async function followed(app: Hono, id: string): Promise<Told['body'][]> {
  const text = await (await app.request(`/api/jobs/${id}/events`)).text()
  return [...text.matchAll(/^data: (.*)$/gm)].map(([, data]) => JSON.parse(data as string))
}
