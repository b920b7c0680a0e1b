import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { engines } from './engines.fixture.ts'
import { killedWriter } from './killed.fixture.ts'
import { openStore, type Store } from './store.ts'

const said = { by: 'tester', why: 'to see', at: '2031-11-03T00:00:00Z' }

describe.each(engines())('on $name', ({ newPlace }) => {
  test('an empty store has no document, and what is kept first is the whole of it', async () => {
    const store = await openStore(newPlace())
    expect(await store.current()).toEqual({ revision: 0, document: undefined })
    const kept = await store.append({ on: 0, patch: [{ op: 'add', path: '', value: { a: 1 } }], ...said })
    expect(kept).toEqual({ revision: 1 })
    expect(await store.current()).toEqual({ revision: 1, document: { a: 1 } })
  })

  test('of two changes on one revision the second is told what came first, and nothing of it is kept', async () => {
    const store = await storeOf({ mass: '412 t', note: 'x' })
    const first = await store.append({ on: 1, patch: [{ op: 'replace', path: '/mass', value: '441 t' }], ...said })
    expect(first).toEqual({ revision: 2 })
    const second = await store.append({ on: 1, patch: [{ op: 'replace', path: '/note', value: 'y' }], ...said })
    expect(second).toMatchObject({ revision: 2, behind: [{ revision: 2, why: 'to see' }] })
    expect((await store.current()).document).toEqual({ mass: '441 t', note: 'x' })
  })

  test('a change on a revision that is not there yet is refused, and the log keeps no gap', async () => {
    const store = await storeOf({ a: 1 })
    const early = await store.append({ on: 7, patch: [{ op: 'replace', path: '/a', value: 2 }], ...said })
    expect(early).toEqual({ behind: [], revision: 1 })
    expect((await store.logAfter(0)).map((entry) => entry.revision)).toEqual([1])
  })

  test('of changes that are written together each is kept on the one before, and one that others came before is told so', async () => {
    const store = await storeOf({ n: 1 })
    const ends = await Promise.all(
      [1, 2, 3, 3, 9, 4].map((on) => {
        const path = on === 4 ? '/absent' : '/n'
        return store.append({ on, patch: [{ op: 'replace', path, value: on + 1 }], ...said })
      }),
    )
    expect(ends.slice(0, 3)).toEqual([{ revision: 2 }, { revision: 3 }, { revision: 4 }])
    expect(ends[3]).toMatchObject({ revision: 4, behind: [{ revision: 4 }] })
    expect(ends[4]).toEqual({ revision: 4, behind: [] })
    expect(ends[5]).toMatchObject({ problems: [{ pointer: '/absent' }] })
    expect(await store.current()).toEqual({ revision: 4, document: { n: 4 } })
    expect(await store.at(3)).toEqual({ n: 3 })
  })

  test('two programs on one file cannot both keep a change on the same revision', async () => {
    const place = newPlace()
    const [one, two] = [await storeOf({ n: 0 }, place), await openStore(place)]
    await two.current()
    const both = await Promise.all(
      [one, two].map((store, i) =>
        store.append({ on: 1, patch: [{ op: 'replace', path: '/n', value: i + 1 }], ...said }),
      ),
    )
    expect(both.filter((r) => !('behind' in r))).toHaveLength(1)
    expect(await one.current()).toEqual(await two.current())
  })

  test('a patch that cannot be applied is refused and leaves no trace', async () => {
    const store = await storeOf({ a: 1 })
    expect(await store.append({ on: 1, patch: [{ op: 'remove', path: '/b' }], ...said })).toHaveProperty('problems')
    expect(await store.logAfter(0)).toHaveLength(1)
  })

  test('the fold of the log over snapshots is the document, opened again at any length', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.constantFrom('a', 'b', 'c'), fc.integer()), { maxLength: 120 }),
        async (edits) => {
          const place = newPlace()
          const store = await storeOf({}, place)
          const expected: Record<string, number> = {}
          for (const [i, [key, value]] of edits.entries()) {
            expected[key] = value
            await store.append({ on: i + 1, patch: [{ op: 'add', path: `/${key}`, value }], ...said })
          }
          await store.close()
          const again = await openStore(place)
          expect(await again.current()).toEqual({ revision: edits.length + 1, document: expected })
          await again.close()
        },
      ),
      { numRuns: 6 },
    )
  })

  test('a program killed at any point of its writing loses nothing that it acknowledged, and leaves nothing half written', async () => {
    const place = newPlace()
    let before = 0
    for (let round = 0; round < 3; round++) {
      const wait = Math.random() * 150
      const { acknowledged, fault } = await killedWriter(place, wait)
      expect([wait, fault]).toEqual([wait, undefined])
      expect(acknowledged).toBeGreaterThan(before)
      before = acknowledged
    }
  })

  async function storeOf(document: unknown, place = newPlace()): Promise<Store> {
    const store = await openStore(place, 40)
    await store.append({ on: 0, patch: [{ op: 'add', path: '', value: document }], ...said })
    return store
  }
})
