import { blockOnTwoLegs } from '@shieldwright/engine/report/sheet/sheet.fixture.ts'
import type { Hono } from 'hono'
import { describe, expect, test } from 'vitest'
import { smallPlan } from '../exchange/exchange.fixture.ts'
import { describedApp } from './description/fuzz.fixture.ts'

const SCRIPT = '"><script>alert(1)</script><img src=x onerror=alert(1)>'
const FORMULA = '=HYPERLINK("https://elsewhere.example")'

/** A project in which everything that has a name, a title or a note bears this one. */
const namedAll = (value: unknown, name: string): unknown => {
  if (typeof value !== 'object' || value === null) return value
  if (Array.isArray(value)) return value.map((item) => namedAll(item, name))
  const entries = Object.entries(value).map(([key, inner]) => [
    key,
    ['name', 'title', 'note'].includes(key) && typeof inner === 'string' ? name : namedAll(inner, name),
  ])
  return Object.fromEntries(entries)
}

/** A shift that tells of its day, an item that is not closed and a risk, in what people wrote. */
const written = (words: string) => ({
  diary: {
    day: {
      on: '2031-11-04',
      shift: ['07:00', '17:00'],
      by: words,
      lost: [{ time: '2 h', cause: words }],
      plant: [{ what: words, state: 'worked', note: words }],
      actions: [{ what: words, owner: words, due: '2031-11-05' }],
    },
  },
  punchList: { P1: { what: words, found: { by: words, on: '2031-11-03' }, blocks: 'restart' } },
})

const project = (name: string) => ({
  ...(namedAll({ ...smallPlan(), ...blockOnTwoLegs() }, name) as object),
  ...written(name),
})

describe('a script in a name', () => {
  test.each([
    'site/plan.svg',
    'site/sections.svg',
    'rigging/block-out.svg',
    'lift/block-out.svg?page=1',
    'lift/block-out.svg?page=2',
    'order/order.svg',
    'daily/last.svg',
    'dossier/dossier.svg',
    'stakeholders/stakeholders.svg',
  ])('is text on %s', async (path) => {
    const app = await describedApp(project(SCRIPT))
    const answer = await app.request(`/api/report/${path}`)
    expect(answer.status).toBe(200)
    const svg = await answer.text()
    expect(svg).not.toMatch(/<script|<img|<[a-z]+[^>]*\son\w+=/i)
    // Should a browser be sent there all the same, it may run nothing.
    expect(answer.headers.get('content-security-policy')).toContain("script-src 'self'")
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
  })

  test('is on a drawing, or this test would look at nothing', async () => {
    const app = await describedApp(project(SCRIPT))
    expect(await (await app.request('/api/report/lift/block-out.svg')).text()).toContain('&lt;script')
  })

  test.each([
    'lift/block-out.pdf',
    'rigging/block-out.pdf',
    'site/plan.pdf',
    'order/order.pdf',
    'daily/last.pdf',
    'dossier/dossier.pdf',
    'stakeholders/stakeholders.pdf',
  ])('makes no action and no form in %s', async (path) => {
    const app = await describedApp(project(SCRIPT))
    const answer = await app.request(`/api/report/${path}`)
    expect(answer.status).toBe(200)
    const pdf = Buffer.from(await answer.arrayBuffer()).toString('latin1')
    expect(pdf).not.toMatch(/\/(JavaScript|JS|OpenAction|AA|Launch|SubmitForm|AcroForm)\b/)
  })
})

test('a formula in a name is text in every table that is sent', async () => {
  const app = await describedApp(project(FORMULA))
  const seen: string[] = []
  for (const name of ['programme', 'masses', 'look-ahead']) {
    const answer = await app.request(`/api/exchange/${name}.csv`)
    expect([name, answer.status]).toEqual([name, 200])
    const csv = await answer.text()
    expect(csv).not.toMatch(/(^|[\r\n,]"?)=/)
    seen.push(csv)
  }
  expect(seen.join()).toContain("'=HYPERLINK")
})

test('a page among the attachments is saved and never shown, and a name with a way in it is refused', async () => {
  const app = await describedApp(smallPlan())
  const kept = await attach(app, 'page.html', 'text/html', '<script>alert(1)</script>')
  expect(kept.status).toBe(201)
  const { hash } = await kept.json()
  const shown = await app.request(`/api/attachments/${hash}`)
  expect(shown.headers.get('content-type')).toBe('application/octet-stream')
  expect(shown.headers.get('content-disposition')).toMatch(/^attachment;/)
  const ways = ['../page.html', '..', '/etc/passwd', 'a\\b', 'a\r\nset-cookie: session=x', 'nul\0', '']
  for (const name of ways) expect([name, (await attach(app, name, 'text/plain', 'x')).status]).toEqual([name, 400])
})

test.each(['/api/meshes/', '/api/attachments/', '/api/report/site/', '/api/exchange/', '/'])(
  'no way out of a folder is found behind %s',
  async (under) => {
    const app = await describedApp(smallPlan())
    for (const way of ['../../etc/passwd', '..%2f..%2fetc%2fpasswd', '%2e%2e/%2e%2e/etc/passwd', '....//etc/passwd']) {
      const answer = await app.request(`${under}${way}`)
      expect([400, 404]).toContain(answer.status)
      expect(await answer.text()).not.toContain('root:')
    }
  },
)

test('a request that does not say how large it is is given up where it passes the limit', async () => {
  const app = await describedApp(smallPlan())
  let sent = 0
  const endless = new ReadableStream<Uint8Array>({
    pull: (controller) => {
      sent += 65_536
      if (sent > 1e9) controller.close()
      else controller.enqueue(new Uint8Array(65_536).fill(32))
    },
  })
  const request = new Request('http://localhost/api/change', {
    method: 'POST',
    body: endless,
    duplex: 'half',
  } as RequestInit)
  expect((await app.request(request)).status).toBe(413)
  expect(sent).toBeLessThan(6 * 1024 * 1024)
})

test.each(['x', '', '-1', '1e3', '0x10'])(
  'a request that says "%s" of its length is within no limit',
  async (length) => {
    const app = await describedApp(smallPlan())
    const headers = { 'content-type': 'application/json', 'content-length': length }
    const body = `{"revision":1,"patch":[],"why":"${' '.repeat(5 * 1024 * 1024)}"}`
    const answer = await app.request('/api/change', { method: 'POST', headers, body })
    expect(answer.status).toBe(413)
  },
)

const attach = (app: Hono, name: string, type: string, body: string) =>
  app.request(`/api/attachments?name=${encodeURIComponent(name)}`, {
    method: 'POST',
    headers: { 'content-type': type, 'content-length': String(body.length) },
    body,
  })
