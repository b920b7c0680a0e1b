import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import { Hono } from 'hono'
import { expect, test } from 'vitest'
import { openStore } from '../store/store.ts'
import { begun } from './begin.ts'
import { liveProject } from './live.ts'
import { pageSummary } from './summary.ts'

const here = { user: 'tester', clock: () => new Date('2031-11-03T07:00:00Z') }
const folder = (): string => mkdtempSync(join(tmpdir(), 'begin-'))

test('a store that keeps nothing begins empty when that is asked for, and with the demo otherwise', async () => {
  for (const [empty, isDemo] of [
    [true, false],
    [false, true],
  ]) {
    const data = folder()
    const store = await openStore(join(data, 'project.sqlite'))
    expect(await begun(store, { empty, data }, here)).toEqual([])
    const { document } = await store.current()
    expect((document as { about: { invented?: boolean } }).about.invented === true).toBe(isDemo)
    if (empty === true) expect(document).toEqual(emptyProject())
    await store.close()
  }
})

test('a store that keeps a project is never begun anew', async () => {
  const data = folder()
  const store = await openStore(join(data, 'project.sqlite'))
  await begun(store, { data }, here)
  const before = await store.current()
  const problems = await begun(store, { empty: true, data }, here)
  expect(problems).toMatchObject([{ pointer: '--empty', found: `a project kept in ${data}` }])
  expect(await store.current()).toEqual(before)
  await store.close()
})

test('the summary for the first view is of the revision that is kept, and follows a change', async () => {
  const data = folder()
  const store = await openStore(join(data, 'project.sqlite'))
  await begun(store, { empty: true, data }, here)
  const app = new Hono().get('/summary', pageSummary(liveProject(store, join(data, 'meshes'))))
  const told = async () => (await app.request('/summary')).json()
  expect(await told()).toMatchObject({ revision: 1, summary: { title: emptyProject().about.title, lifts: [] } })
  const patch = [{ op: 'replace', path: '/about/title', value: 'Ours' }] as const
  await store.append({ on: 1, patch, by: 'tester', why: '', at: '2031-11-03T07:00:00Z' })
  expect(await told()).toMatchObject({ revision: 2, summary: { title: 'Ours' } })
  await store.close()
})
