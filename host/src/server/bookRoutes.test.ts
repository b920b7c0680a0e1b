import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { manyPieces } from '@shieldwright/engine/report/campaign/campaign.fixture.ts'
import { everyRecord } from '@shieldwright/engine/report/dossier/dossier.fixture.ts'
import type { Hono } from 'hono'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type JobDesk, jobDesk } from '../jobs/desk.ts'
import { jobResults } from '../jobs/results.ts'
import { pngFile } from '../paper/png.fixture.ts'
import { sha256 } from '../sha256.ts'
import { openStore, type Store } from '../store/store.ts'
import { api } from './api.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

const RUNS = 60

describe('campaign books of one project, one after the other', () => {
  let app: Hono
  let desk: JobDesk
  let store: Store
  beforeAll(async () => {
    store = await openStore(join(mkdtempSync(join(tmpdir(), 'book-')), 'project.sqlite'))
    const patch = [{ op: 'add', path: '', value: manyPieces({ count: 2, years: 1 }) }] as const
    await store.append({ on: 0, patch, by: 'x', why: 'x', at: 'x' })
    desk = jobDesk(jobResults(store.database))
    const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
    app = server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here, desk) })
  })
  afterAll(async () => {
    await desk.close()
    await store.close()
  })

  test('the first is issue A, compared with nothing; as a job it is told without its bytes', async () => {
    const asked = await sent(app, '/api/jobs', { kind: 'book', runs: RUNS })
    expect(asked).toMatchObject({ status: 202, body: { state: 'running', request: { letter: 'A', revision: '1' } } })
    expect(asked.body.request.since).toBeUndefined()
    expect((await app.request(`/api/jobs/${asked.body.id}/book.pdf`)).status).toBe(404)
    const states = await followed(app, asked.body.id)
    const last = states.at(-1)
    expect(last).toMatchObject({ state: 'done', result: { sheets: expect.any(Number) } })
    expect(last.result.pdf).toBeUndefined()
    const steps = states.flatMap(({ progress }) => (progress === undefined ? [] : [progress.done / progress.of]))
    expect(steps).toEqual([...steps].sort((a, b) => a - b))
    expect(steps.every((share) => share >= 0 && share < 1)).toBe(true)
    const { bytes, pages, words } = await fileOf(app, asked.body.id)
    expect(pages).toBe(last.result.sheets)
    expect(sha256(bytes)).toBe(last.result.file)
    expect(words).toContain('first issue')
  })

  test('put on record it is an edit of the project, and its file is kept', async () => {
    const { body } = await sent(app, '/api/jobs', { kind: 'book', runs: RUNS })
    expect(body.state).toBe('done')
    const put = await sent(app, `/api/jobs/${body.id}/issue`, { note: 'for the lift meeting' })
    expect(put).toMatchObject({ status: 200, body: { letter: 'A', revision: 2 } })
    const { document } = (await told(app, '/api/project')).body
    expect(document.issuedBooks).toEqual({
      A: {
        on: '2031-11-03',
        by: 'tester',
        revision: 1,
        content: body.result.content,
        sheets: body.result.sheets,
        file: body.result.file,
        note: 'for the lift meeting',
      },
    })
    expect((await told(app, '/api/log?after=1')).body.changes).toMatchObject([{ why: 'campaign book issued as A' }])
    const file = await app.request(`/api/attachments/${body.result.file}`)
    expect(sha256(new Uint8Array(await file.arrayBuffer()))).toBe(body.result.file)
    // The same book does not go out twice.
    expect(await sent(app, `/api/jobs/${body.id}/issue`, {})).toMatchObject({ status: 409, body: { problems: [{}] } })
  })

  test('the next is issue B: compared with what went out as A, whatever was kept in between', async () => {
    const patch = [{ op: 'replace', path: '/parts/PART1/mass/value', value: '31.7 t' }]
    expect((await sent(app, '/api/change', { revision: 2, patch, why: 'weighed' })).status).toBe(200)
    const asked = await sent(app, '/api/jobs', { kind: 'book', runs: RUNS })
    expect(asked.body.request).toMatchObject({
      letter: 'B',
      revision: '3',
      since: { name: 'issue A', revision: 1 },
    })
    expect((await followed(app, asked.body.id)).at(-1)).toMatchObject({ state: 'done' })
    const { words } = await fileOf(app, asked.body.id)
    expect(words).toContain('What changed since issue A')
    expect(words).toMatch(/now: [^|]*31\.7/)
  })

  test('two kept revisions are compared, by number and by name; one with itself has not changed', async () => {
    await sent(app, '/api/baselines', { name: 'tender', revision: 1, why: '' })
    const asked = await sent(app, '/api/jobs', { kind: 'book', of: '2', since: 'tender', runs: RUNS })
    expect(asked.body).toMatchObject({ revision: 2, request: { revision: '2', since: { name: 'tender, revision 1' } } })
    expect((await followed(app, asked.body.id)).at(-1)).toMatchObject({ state: 'done' })
    const { words } = await fileOf(app, asked.body.id)
    expect(words).toContain('Nothing: every sheet says what it said.')
    expect(words).not.toContain('31.7')
  })

  test.each([
    ['/of', { of: '99' }],
    ['/of', { of: 'no such name' }],
    ['/since', { since: 'C' }],
    ['/since', { since: '' }],
    ['/units', { units: 'yards' }],
    ['/runs', { runs: 1 }],
  ])('at %s what is not there is refused: %j', async (pointer, words) => {
    const answer = await sent(app, '/api/jobs', { kind: 'book', ...words })
    expect(answer).toMatchObject({ status: 400, body: { problems: [{ pointer }] } })
  })

  test('cancelled it ends as that, with no file and nothing to put on record', async () => {
    const { body } = await sent(app, '/api/jobs', { kind: 'book', runs: 1_000_000 })
    await app.request(`/api/jobs/${body.id}`, { method: 'DELETE' })
    expect((await followed(app, body.id)).at(-1)).toMatchObject({ state: 'cancelled' })
    expect((await app.request(`/api/jobs/${body.id}/book.pdf`)).status).toBe(404)
    expect((await sent(app, `/api/jobs/${body.id}/issue`, {})).status).toBe(404)
  })

  test('its dossier has the signatures and photographs of the store, and what came of them since the issue before is marked', async () => {
    const { body } = await told(app, '/api/project')
    const points = [[40], [80], [120], [160]]
    const file = pngFile({ width: 2, height: 2, depth: 8, colour: 0, isInterlaced: false, filters: [0], points })
    const headers = { 'content-type': 'image/png' }
    const kept = { method: 'POST', headers, body: Buffer.from(file) }
    const { hash } = await (await app.request('/api/attachments?name=seat.png', kept)).json()
    const { seep } = (everyRecord() as { punchList: { seep: object } }).punchList
    const patch = [{ op: 'add', path: '/punchList', value: { seep: { ...seep, attachments: [{ hash }] } } }]
    const { revision } = (await sent(app, '/api/change', { revision: body.revision, patch, why: 'found' })).body
    const made = async (asked: object) => {
      const { id } = (await sent(app, '/api/jobs', { kind: 'book', since: null, runs: RUNS, ...asked })).body
      expect((await followed(app, id)).at(-1)).toMatchObject({ state: 'done' })
      return fileOf(app, id)
    }
    expect((await made({})).words).toContain('Nothing is signed.')
    const asked = { kind: 'record', subject: '/punchList/seep', role: 'machine engineer', revision }
    expect((await sent(app, '/api/signatures', asked)).status).toBe(201)
    const signed = await made({})
    expect(signed.words).toMatch(/record \/punchList\/seep +tester, machine engineer +3 Nov 2031 +stands/)
    expect(Buffer.from(signed.bytes).includes('/Subtype /Image')).toBe(true)
    const other = [{ op: 'replace', path: '/punchList/seep/what', value: 'Lid seeps at the key' }]
    const moved = (await sent(app, '/api/change', { revision, patch: other, why: 'seen again' })).body
    const { words } = await made({ since: String(revision) })
    expect(words).toMatch(/Commissioning dossier: changed +was: [^|]*stands[^|]* now: [^|]*overtaken/)
    expect((await made({ of: String(revision) })).words).toMatch(/machine engineer +3 Nov 2031 +stands/)
    expect(moved.revision).toBe(revision + 1)
  })

  test('an issue that this log does not hold as it went out is not compared with', async () => {
    const { body } = await told(app, '/api/project')
    const patch = [{ op: 'replace', path: '/issuedBooks/A/content', value: '0'.repeat(64) }]
    await sent(app, '/api/change', { revision: body.revision, patch, why: 'from elsewhere' })
    const answer = await sent(app, '/api/jobs', { kind: 'book' })
    expect(answer).toMatchObject({ status: 400, body: { problems: [{ pointer: '/since' }] } })
    expect(answer.body.problems[0].found).toContain('issue A')
    expect((await sent(app, '/api/jobs', { kind: 'book', since: null, runs: RUNS })).status).toBe(202)
  })
})

describe('who issues what, and when', () => {
  const opened = async () => {
    const store = await openStore(join(mkdtempSync(join(tmpdir(), 'issues-')), 'project.sqlite'))
    const patch = [{ op: 'add', path: '', value: manyPieces({ count: 2, years: 1 }) }] as const
    await store.append({ on: 0, patch, by: 'x', why: 'x', at: 'x' })
    const desk = jobDesk(jobResults(store.database))
    const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
    const app = server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here, desk) })
    const made = async (asked: object = {}) => {
      const { body } = await sent(app, '/api/jobs', { kind: 'book', since: null, runs: RUNS, ...asked })
      return (await followed(app, body.id)).at(-1)
    }
    const issue = (id: string) => sent(app, `/api/jobs/${id}/issue`, {})
    const issued = async () => (await told(app, '/api/project')).body.document.issuedBooks ?? {}
    const files = async () => (await told(app, '/api/attachments')).body.attachments
    return { app, store, desk, made, issue, issued, files }
  }

  test('of two books issued at once one goes out under the letter; nothing of the other is kept, and made again it has the next', async () => {
    const { app, store, desk, made, issue, issued, files } = await opened()
    const patch = [{ op: 'replace', path: '/parts/PART1/mass/value', value: '31.7 t' }]
    await sent(app, '/api/change', { revision: 1, patch, why: 'weighed' })
    const books = [await made({ of: '1' }), await made({ of: '2' })]
    expect(books.map(({ request }) => request.letter)).toEqual(['A', 'A'])
    expect(books[0].result.file).not.toBe(books[1].result.file)
    const ends = await Promise.all(books.map(({ id }) => issue(id)))
    expect(ends.map(({ status }) => status).sort()).toEqual([200, 409])
    const [won, lost] = ends[0]?.status === 200 ? books : books.toReversed()
    expect(await issued()).toMatchObject({ A: { file: won.result.file } })
    expect(Object.keys(await issued())).toEqual(['A'])
    expect((await files()).map(({ hash }: { hash: string }) => hash)).toEqual([won.result.file])
    const again = await made({ of: lost.request.revision })
    expect(again.request.letter).toBe('B')
    expect(await issue(again.id)).toMatchObject({ status: 200, body: { letter: 'B' } })
    await desk.close()
    await store.close()
  })

  test('one that is cancelled midway leaves no file and uses no letter up', async () => {
    const { app, store, desk, made, issued, files } = await opened()
    const { body } = await sent(app, '/api/jobs', { kind: 'book', since: null, runs: 1_000_000 })
    await app.request(`/api/jobs/${body.id}`, { method: 'DELETE' })
    expect((await followed(app, body.id)).at(-1)).toMatchObject({ state: 'cancelled' })
    expect([await issued(), await files()]).toEqual([{}, []])
    expect((await store.current()).revision).toBe(1)
    expect((await made()).request.letter).toBe(body.request.letter)
    await desk.close()
    await store.close()
  })

  test('a letter that went out is not given again when it is taken off the record: the book is in other hands', async () => {
    const { app, store, desk, made, issue, issued } = await opened()
    await issue((await made()).id)
    const patch = [{ op: 'remove', path: '/issuedBooks' }]
    expect((await sent(app, '/api/change', { revision: 2, patch, why: 'by mistake' })).status).toBe(200)
    expect(await issued()).toEqual({})
    expect((await made()).request.letter).toBe('B')
    await desk.close()
    await store.close()
  })

  test('what is no longer kept, a revision or the book itself, is not put on record', async () => {
    const { app, store, desk, made, issue, issued } = await opened()
    const book = await made()
    // another log in its place: its latest revision is the first
    const elsewhere = await opened()
    expect(await elsewhere.issue(book.id)).toMatchObject({ status: 404 })
    expect(await sent(app, '/api/jobs', { kind: 'book', of: '2' })).toMatchObject({ status: 400 })
    expect(await issue(book.id)).toMatchObject({ status: 200, body: { letter: 'A' } })
    expect(Object.keys(await issued())).toEqual(['A'])
    for (const end of [desk, elsewhere.desk, store, elsewhere.store]) await end.close()
  })
})

async function fileOf(app: Hono, id: string) {
  const answer = await app.request(`/api/jobs/${id}/book.pdf`)
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, 'application/pdf'])
  const bytes = new Uint8Array(await answer.arrayBuffer())
  const pdf = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise
  const words: string[] = []
  for (let page = 1; page <= pdf.numPages; page++) {
    const { items } = await (await pdf.getPage(page)).getTextContent()
    words.push(items.map((item) => ('str' in item ? item.str : '')).join(' '))
  }
  return { bytes, pages: pdf.numPages, words: words.join(' | ') }
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

/** Every state that the stream of events told, to its end. */
async function followed(app: Hono, id: string): Promise<Told['body'][]> {
  const text = await (await app.request(`/api/jobs/${id}/events`)).text()
  return [...text.matchAll(/^data: (.*)$/gm)].map(([, data]) => JSON.parse(data as string))
}
