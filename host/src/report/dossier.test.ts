import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { startDerivation } from '@shieldwright/engine'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { beforeAll, expect, test } from 'vitest'
import { pngFile } from '../paper/png.fixture.ts'
import { readDocument } from '../project/readDocument.ts'
import { api } from '../server/api.ts'
import { liveProject } from '../server/live.ts'
import { openStore, type Store } from '../store/store.ts'
import { dossierPdf } from './dossier.ts'

const file = new URL('../../../examples/under-way/project.yaml', import.meta.url)
const { document } = (await readDocument(file.pathname)) as { document: object }
const here = { user: 'B. Fitter (invented)', clock: () => new Date('2032-06-24T17:00:00Z') }

let store: Store
beforeAll(async () => {
  store = await openStore(join(mkdtempSync(join(tmpdir(), 'dossier-')), 'project.sqlite'))
  await store.append({
    on: 0,
    patch: [{ op: 'add', path: '', value: document }],
    by: 'planner',
    why: 'first',
    at: 'now',
  })
})

test('the dossier of a workbench carries the signatures of its store, and one that was overtaken is none', async () => {
  const app = api(liveProject(store, tmpdir()), here)
  const signatures = async () => {
    const answer = await app.request('/report/dossier.json')
    return ((await answer.json()) as { signatures: { subject: string; state: string; on: string }[] }).signatures
  }
  const send = (path: string, body: object) =>
    app.request(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
  expect(await signatures()).toEqual([])
  const subject = '/welds/waler-1'
  const sent = await send('/signatures', { kind: 'record', subject, role: 'welding engineer', revision: 1 })
  expect(sent.status).toBe(201)
  expect(await signatures()).toMatchObject([{ subject, state: 'stands', on: '2032-06-24' }])
  await store.append({
    on: 1,
    patch: [{ op: 'replace', path: '/welds/waler-1/preheat/lowest', value: 80 }],
    by: 'planner',
    why: 'read again',
    at: 'now',
  })
  expect(await signatures()).toMatchObject([{ subject, state: 'overtaken' }])
  const svg = await (await app.request('/report/dossier/dossier.svg?page=2')).text()
  expect(svg).toContain('overtaken')
})

test('a photograph of the store is printed; one that is not there, or is no picture, is said to be so', async () => {
  const app = api(liveProject(store, tmpdir()), here)
  const keep = async (name: string, type: string, body: Uint8Array): Promise<string> => {
    const headers = { 'content-type': type }
    const answer = await app.request(`/attachments?name=${name}`, { method: 'POST', headers, body: Buffer.from(body) })
    return ((await answer.json()) as { hash: string }).hash
  }
  const points = Array.from({ length: 12 }, () => [90, 90])
  const picture = pngFile({ width: 4, height: 3, depth: 8, colour: 4, isInterlaced: false, filters: [0], points })
  const kept = [
    await keep('seen.png', 'image/png', picture),
    await keep('cut.png', 'image/png', picture.slice(0, 60)),
    await keep('list.png', 'image/png', Buffer.from('a list')),
    'f'.repeat(64),
  ]
  const { revision } = await store.current()
  const value = kept.map((hash) => ({ hash }))
  const patch: Patch = [{ op: 'add', path: '/welds/waler-1/attachments', value }]
  await store.append({ on: revision, patch, by: 'planner', why: 'photographs', at: 'now' })
  const data = (await (await app.request('/report/dossier.json')).json()) as {
    welds: { attachments: { state: string }[] }[]
  }
  const refused = 'not a JPEG or PNG that can be read'
  expect(data.welds[0]?.attachments.map(({ state }) => state)).toEqual([
    'printed',
    refused,
    refused,
    'not in the store',
  ])
  const svg = await (await app.request('/report/dossier/dossier.svg')).text()
  expect(svg.match(/<image /g)).toHaveLength(1)
  expect(svg).toContain('not in the store')
  const pdf = Buffer.from(await (await app.request('/report/dossier/dossier.pdf')).arrayBuffer()).toString('latin1')
  expect(pdf.match(/\/Subtype \/Image/g)?.length).toBeGreaterThan(0)
})

test('the same project and day give the same bytes', async () => {
  const { stages } = startDerivation(document).derived
  if (stages === undefined) throw new Error('the example reads')
  const made = () =>
    dossierPdf(stages, {
      date: '2032-06-24',
      contentHash: 'a'.repeat(64),
      revision: '1',
      units: 'SI',
      paper: 'Letter',
      attached: { files: new Map(), pictures: new Map() },
    })
  const [first, second] = [await made(), await made()]
  expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true)
  expect(Buffer.from(first.slice(0, 5)).toString()).toBe('%PDF-')
})
