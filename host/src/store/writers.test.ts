import { describe, expect, test } from 'vitest'
import { type Postgres, startPostgres } from '../../../scripts/postgres.mjs'
import { engines } from './engines.fixture.ts'
import { openStore, type Store } from './store.ts'

const said = { by: 'writer', why: 'to see', at: '2031-11-03T00:00:00Z' }
const WRITERS = 20
const EACH = 15

describe.each(engines())('on $name', ({ newPlace }) => {
  test('of what twenty writers keep at once no update is lost, and a refused one is told what came first', async () => {
    const place = newPlace()
    const stores = [await begun(await openStore(place)), await openStore(place), await openStore(place)]
    const refusals = await Promise.all(
      Array.from({ length: WRITERS }, (_, i) => counting(stores[i % stores.length] as Store, `w${i}`)),
    )
    const [first, ...others] = await Promise.all(stores.map((store) => store.current()))
    const written = Array.from({ length: WRITERS }, (_, i) => [`w${i}`, EACH])
    expect(first).toEqual({
      revision: 1 + WRITERS * EACH,
      document: { sum: WRITERS * EACH, ...Object.fromEntries(written) },
    })
    for (const other of others) expect(other).toEqual(first)
    const log = await (stores[0] as Store).logAfter(0)
    expect(log.map(({ revision }) => revision)).toEqual(log.map((_, i) => i + 1))
    expect(refusals.reduce((sum, n) => sum + n, 0)).toBeGreaterThan(0)
    for (const store of stores) await store.close()
  })
})

test('a database server that is killed while it is written to loses nothing that was acknowledged', async () => {
  const server: Postgres = await startPostgres()
  const place = { url: server.url, project: 'killed' }
  let acknowledged = 0
  for (let round = 0; round < 3; round++) {
    const store = await openStore(place)
    const from = (await store.current()).revision
    expect(from).toBeGreaterThanOrEqual(acknowledged)
    const writing = (async () => {
      for (let on = from; ; on++) {
        await store.append({ on, patch: [{ op: 'add', path: '', value: { n: on + 1 } }], ...said })
        acknowledged = on + 1
      }
    })().catch(() => undefined)
    while (acknowledged < from + 20 + 37 * round) await new Promise((resolve) => setTimeout(resolve, 5))
    await server.kill()
    await writing
    await store.close().catch(() => undefined)
    await server.again()
  }
  const store = await openStore(place)
  const { revision, document } = await store.current()
  expect(revision).toBeGreaterThanOrEqual(acknowledged)
  expect(document).toEqual({ n: revision })
  await store.close()
  await server.stop()
})

async function begun(store: Store): Promise<Store> {
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: { sum: 0 } }], ...said })
  return store
}

/** Counts its own number and the common one up, on whatever stands; how often others came first. */
async function counting(store: Store, name: string): Promise<number> {
  let refused = 0
  for (let kept = 0; kept < EACH; ) {
    const { revision, document } = await store.current()
    const { sum, [name]: own = 0 } = document as Record<string, number>
    const patch = [
      { op: 'add', path: '/sum', value: (sum ?? 0) + 1 },
      { op: 'add', path: `/${name}`, value: own + 1 },
    ] as const
    const appended = await store.append({ on: revision, patch, ...said })
    if ('behind' in appended) refused++
    else kept++
  }
  return refused
}
