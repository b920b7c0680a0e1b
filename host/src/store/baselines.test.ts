import { expect, test } from 'vitest'
import { namedRevisions, nameRevision, revisionMeant } from './baselines.ts'
import { newFile } from './engines.fixture.ts'
import { openStore } from './store.ts'

test('no revision is given the name that means the latest, in capitals or not', async () => {
  const store = await openStore(newFile())
  const said = { by: 'tester', why: '', at: '2031-11-03T00:00:00Z' }
  for (const on of [0, 1]) await store.append({ on, patch: [{ op: 'add', path: '', value: { on } }], ...said })
  for (const name of ['now', 'Now', 'NOW'])
    expect(await nameRevision(store, { name, revision: 1, ...said })).toMatchObject([{ pointer: 'name' }])
  expect(await nameRevision(store, { name: 'nowhere', revision: 1, ...said })).toEqual([])
  expect((await namedRevisions(store.database)).map(({ name }) => name)).toEqual(['nowhere'])
  expect(await revisionMeant(store, 'now')).toBe(2)
  await store.close()
})
