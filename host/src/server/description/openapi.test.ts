import { describe, expect, test } from 'vitest'
import { demoProject } from '../../project/demo.ts'
import { readDocument } from '../../project/readDocument.ts'
import { engines } from '../../store/engines.fixture.ts'
import { answerTo, type Description, describedApp, fuzzed, type MadeUp } from './fuzz.fixture.ts'
import { openApi } from './openapi.ts'

test('every route of the server is described, and nothing is described that is no route', async () => {
  const app = await describedApp({ schemaVersion: 1, about: { title: 'x' } })
  const routes = app.routes
    .filter(({ method, path }) => method !== 'ALL' && !path.includes('*'))
    .map(({ method, path }) => `${method} ${path.replace(/\/:(\w+)(\{.*\})?/, '/{$1}').replace(/\/$/, '')}`)
  const described = Object.entries(openApi().paths as Description['paths']).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
  )
  expect(described.sort()).toEqual([...new Set(routes)].sort())
})

test('each answer to what is asked of the demo is as described', async () => {
  const read = readDocument(demoProject)
  const document = 'document' in read ? (read.document as { lifts: object }) : { lifts: {} }
  const app = await describedApp(document)
  const [lift] = Object.keys(document.lifts)
  const checks = (await (await app.request('/api/derived')).json()).checks as { id: string }[]
  const check = encodeURIComponent(checks[0]?.id ?? '')
  const patch = [{ op: 'replace', path: '/about/title', value: 'Renamed' }]
  const signature = { kind: 'lift-sheet', subject: lift, role: 'engineer', revision: 2 }
  const asks: [string, string, unknown?][] = [
    ['GET', '/health'],
    ['GET', '/sign-in'],
    ['POST', '/sign-out'],
    ['GET', '/api/openapi.json'],
    ['GET', '/api/audit'],
    ['GET', '/api/me'],
    ['GET', '/api/project'],
    ['POST', '/api/preview', { patch }],
    ['POST', '/api/change', { patch, revision: 1 }],
    ['POST', '/api/change', { patch, revision: 1 }],
    ['GET', '/api/derived'],
    ['GET', '/api/summary'],
    ['GET', `/api/working?check=${check}`],
    ['GET', '/api/log'],
    ['GET', '/api/log?values=yes'],
    ['GET', '/api/changes'],
    ['GET', '/api/report'],
    ['GET', '/api/report/site/plan.pdf'],
    ['GET', `/api/report/lift/${lift}.pdf`],
    ['GET', `/api/report/lift/${lift}.svg?page=1`],
    ['GET', `/api/report/rigging/${lift}.svg`],
    ['GET', '/api/report/bolt-up/all.pdf'],
    ['GET', '/api/report/order/order.svg'],
    ['GET', '/api/report/programme/programme.svg'],
    ['GET', '/api/report/on-site.html'],
    ['GET', '/api/report/tags/tags.svg?base=https://office:8443/'],
    ['GET', '/api/report/campaign.svg'],
    ['GET', '/api/exchange/programme.csv'],
    ['GET', '/api/exchange/tables.xlsx'],
    ['POST', '/api/exchange/import?of=progress', 'activity,start\nA,x\n'],
    ['POST', '/api/exchange/ticks', noTicks],
    ['POST', '/api/jobs', { kind: 'simulate' }],
    ['GET', '/api/jobs/job-1'],
    ['GET', '/api/jobs/job-1/events'],
    ['DELETE', '/api/jobs/job-1'],
    ['POST', '/api/jobs', { kind: 'book', of: '1', since: 'now' }],
    ['GET', '/api/jobs/job-2/book.pdf'],
    ['POST', '/api/jobs/job-2/issue', {}],
    ['POST', '/api/baselines', { name: 'tender', revision: 1 }],
    ['GET', '/api/baselines'],
    ['GET', '/api/compare?from=1&to=now'],
    ['POST', '/api/signatures', signature],
    ['GET', '/api/signatures'],
    ['POST', '/api/attachments?name=photo.png', 'bytes'],
    ['GET', '/api/attachments'],
    ['GET', '/api/verification?stage=mass'],
  ]
  const refused: string[] = []
  for (const [method, url, sent] of asks) {
    const path = pathOf(method, url)
    const isText = typeof sent === 'string'
    const body = sent === undefined || isText ? sent : JSON.stringify(sent)
    const request: MadeUp = { method, path, url, body, type: isText ? 'text/csv' : body && 'application/json' }
    const { status, fault } = await answerTo(app, request)
    expect([method, url, fault]).toEqual([method, url, undefined])
    if (status >= 400) refused.push(`${status} ${path}`)
  }
  // The second of two changes of one place, and a book that this desk, which makes none, does not have.
  expect(refused).toEqual(['409 /api/change', '404 /api/jobs/{id}/book.pdf', '404 /api/jobs/{id}/issue'])
})

describe.each(engines())('on $name', ({ newPlace }) => {
  test('requests made up from the description, and spoilt, are never answered with a fault of the server', async () => {
    const answered = await fuzzed(250, newPlace())
    // It reached what lies behind the first refusals.
    expect(answered[200]).toBeGreaterThan(40)
    expect(answered[400]).toBeGreaterThan(20)
  })
})

/** The described path that an address is of. */
/** A file of ticks in which nothing is ticked, of the project as it is called by then. */
const noTicks = JSON.stringify({
  form: 'shieldwright on-site ticks',
  version: 1,
  project: 'Renamed',
  content: 'a'.repeat(64),
  scope: 'the shift',
  issued: '2032-10-19',
  exported: '2032-10-19T07:41+02:00',
  ticks: [],
})

function pathOf(method: string, url: string): string {
  const [address = ''] = url.split('?')
  const fits = (path: string) => new RegExp(`^${path.replace(/\{\w+\}/g, '[^/]+')}$`).test(address)
  const paths = openApi().paths as Description['paths']
  const found = Object.keys(paths).find((path) => fits(path) && paths[path]?.[method.toLowerCase()] !== undefined)
  if (found === undefined) throw new Error(`${method} ${url} is not described`)
  return found
}
