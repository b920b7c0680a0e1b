import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { blockOnTwoLegs } from '@shieldwright/engine/report/sheet/sheet.fixture.ts'
import type { Hono } from 'hono'
import { beforeAll, expect, test } from 'vitest'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

let app: Hono
beforeAll(async () => {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'papers-')), 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: blockOnTwoLegs() }], by: 'x', why: 'x', at: 'x' })
  const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
  app = server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here) })
})

test.each([
  'site/plan.pdf',
  'site/sections.pdf?paper=A2',
  'rigging/block-out.pdf?units=US',
  'order/order.pdf?paper=Letter',
  'lift/block-out.pdf',
  'lift/block-out.pdf?paper=A4',
])('%s is a PDF', async (path) => {
  const answer = await app.request(`/api/report/${path}`)
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'application/pdf'])
  expect(
    Buffer.from(await answer.arrayBuffer())
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-')
})

test('what is printed on a document is told beforehand', async () => {
  const told = await (await app.request('/api/report')).json()
  expect(told).toEqual({ revision: 1, contentHash: expect.stringMatching(/^[0-9a-f]{64}$/), date: '2031-11-03' })
  const sheet = await (await app.request('/api/report/site/plan.svg')).text()
  expect(sheet).toContain(told.contentHash.slice(0, 12))
})

test.each(['site/plan.svg?step=S1', 'site/sections.svg', 'rigging/block-out.svg', 'lift/block-out.svg?page=2'])(
  '%s is a page as SVG, with the revision on it',
  async (path) => {
    const answer = await app.request(`/api/report/${path}`)
    expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'image/svg+xml'])
    const text = await answer.text()
    expect(text.startsWith('<svg ')).toBe(true)
    expect(text).toContain('revision 1')
  },
)

test.each([
  ['site/roof.pdf', 404, 'file'],
  ['rigging/no-such-lift.pdf', 404, 'file'],
  ['site/plan.pdf?paper=A9', 400, 'paper'],
  ['site/plan.pdf?step=S9', 404, 'step'],
  ['site/plan.svg?page=9', 404, 'page'],
  ['order/order.pdf?paper=A1', 400, 'paper'],
  ['lift/block-out.pdf?paper=A1', 400, 'paper'],
  ['lift/no-such-lift.pdf', 404, 'file'],
  ['bolt-up/S1.pdf', 404, 'file'],
] as const)('%s is refused, and what was expected is said', async (path, status, pointer) => {
  const answer = await app.request(`/api/report/${path}`)
  expect(answer.status).toBe(status)
  const { problems } = await answer.json()
  expect(problems[0]).toMatchObject({ pointer, found: expect.any(String), expected: expect.any(String) })
})

test('the restart cannot be printed where there is no plan to simulate, and another name is refused', async () => {
  for (const name of ['restart', 'other']) {
    const answer = await app.request(`/api/report/risk/${name}.pdf`)
    expect(answer.status).toBe(404)
    expect(await answer.json()).toMatchObject({ problems: [{ pointer: 'file' }] })
  }
})
