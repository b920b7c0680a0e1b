import { describe, expect, test } from 'vitest'
import { broughtBack } from './archive.fixture.ts'
import { archiveOf } from './archive.ts'
import { engines, newFile } from './engines.fixture.ts'
import { openStore } from './store.ts'
import { broughtUp, type Upward, upward } from './upward.ts'

const act = { by: 'chief', at: '2031-11-03T00:00:00Z' }

/** Two made-up steps: a title that moved, then a list that became a record. */
const WAY: Upward = {
  steps: {
    1: ({ title, ...rest }) => ({ ...rest, about: { title } }),
    2: ({ bays, ...rest }) => ({ ...rest, bays: Object.fromEntries((bays as string[]).map((b) => [b, {}])) }),
  },
  to: 3,
}
const OLD = { schemaVersion: 1, title: 'A ring', bays: ['B1', 'B2'] }
const NEW = { schemaVersion: 3, about: { title: 'A ring' }, bays: { B1: {}, B2: {} } }

describe.each(engines())('on $name', ({ newPlace }) => {
  test('a log of an older schema version opens, is brought up by one change of its own, and says so once', async () => {
    const place = newPlace()
    const store = await openStore(place)
    const first = { ...OLD, title: 'A tube' }
    await store.append({ on: 0, patch: [{ op: 'add', path: '', value: first }], why: 'began', ...act })
    await store.append({ on: 1, patch: [{ op: 'replace', path: '/title', value: 'A ring' }], why: 'renamed', ...act })
    await store.close()
    const again = await openStore(place)
    expect(await broughtUp(again, act, WAY)).toContain('from schema version 1 to 3, as revision 3')
    expect(await again.current()).toEqual({ revision: 3, document: NEW })
    expect(await broughtUp(again, act, WAY)).toBeUndefined()
    expect((await again.logAfter(2))[0]).toMatchObject({ by: 'chief', why: 'brought from schema version 1 to 3' })
    // What was written before is as it was, and is read through the same steps.
    expect(await again.at(1)).toEqual(first)
    expect(upward(await again.at(1), WAY)).toEqual({ ...NEW, about: { title: 'A tube' } })
    const into = await openStore(newFile())
    expect(await broughtBack(into, 'none', await archiveOf(again, 'none'))).toEqual([])
    expect(await into.current()).toEqual(await again.current())
    await into.close()
    await again.close()
  })
})

test.each([
  ['of this version', NEW],
  ['of a later one', { schemaVersion: 9 }],
  ['of none', { bays: [] }],
  ['of a version that no step begins from', { schemaVersion: 0 }],
  ['of half a version', { schemaVersion: 0.5 }],
  ['that is nothing', undefined],
])('a document %s is left as it is', (_, document) => {
  expect(upward(document, WAY)).toBe(document)
})
