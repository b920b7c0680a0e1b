import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { manyPieces } from '@shieldwright/engine/report/campaign/campaign.fixture.ts'
import { blockOnTwoLegs } from '@shieldwright/engine/report/sheet/sheet.fixture.ts'
import type { Hono } from 'hono'
import { expect, test } from 'vitest'
import { openStore } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'

async function serving(document: unknown): Promise<Hono> {
  const store = await openStore(join(mkdtempSync(join(tmpdir(), 'campaign-')), 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: document }], by: 'x', why: 'x', at: 'x' })
  const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
  return api(liveProject(store, tmpdir()), here)
}

test('the campaign diagram is there as PDF and as SVG, on the paper asked for', async () => {
  const app = await serving(manyPieces({ count: 3, years: 1 }))
  const pdf = await app.request('/report/campaign.pdf?paper=A3')
  expect([pdf.status, pdf.headers.get('content-type')]).toEqual([200, 'application/pdf'])
  const svg = await app.request('/report/campaign.svg?paper=A1&units=US')
  expect([svg.status, svg.headers.get('content-type')]).toEqual([200, 'image/svg+xml'])
  expect(await svg.text()).toContain('viewBox="0 0 841 594"')
})

test('a simulated restart is printed as it is handed in', async () => {
  const app = await serving(manyPieces({ count: 3, years: 1 }))
  const [p50, p80] = [Date.UTC(2031, 10, 8), Date.UTC(2031, 10, 12)]
  const svg = await app.request(`/report/campaign.svg?simulated=${p50},${p50},${p80},${p80}`)
  expect(await svg.text()).toContain('even chance 8 Nov 2031, four in five 12 Nov 2031')
})

test.each(['paper=A9', 'simulated=1,2,3', 'simulated=4,3,2,1'])(
  '%s is refused, and what was expected is said',
  async (query) => {
    const app = await serving(manyPieces({ count: 3, years: 1 }))
    const answer = await app.request(`/report/campaign.pdf?${query}`)
    expect(answer.status).toBe(400)
    const { problems } = await answer.json()
    expect(problems[0]).toMatchObject({ pointer: query.split('=')[0], expected: expect.any(String) })
  },
)

test('without a programme there is no campaign, and what it needs is said', async () => {
  const answer = await (await serving(blockOnTwoLegs())).request('/report/campaign.pdf')
  expect(answer.status).toBe(404)
  expect((await answer.json()).problems[0].expected).toContain('a programme')
})
