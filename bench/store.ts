import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore, type Store } from '../host/src/store/store.ts'
import { type Line, reported } from './line.ts'

/** Edits a second that one writer sustains, and seconds within which a long log opens. */
const LEAST_EDITS = 1000
const MOST_SECONDS_TO_OPEN = 1

const EDITS = 3000
const LONG_LOG = 100_000

const said = { by: 'bench', why: 'one edit', at: '2031-11-03T00:00:00Z' }

/** One writer on SQLite, every commit synced (write-ahead log, synchronous = FULL); then a log of 100,000 entries opened. */
export async function storeLines(demo: object): Promise<Line[]> {
  const file = join(mkdtempSync(join(tmpdir(), 'bench-')), 'project.sqlite')
  const store = await openStore(file)
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: demo }], ...said })
  const seconds = await written(store, 1, EDITS)
  await store.database.tables.transaction().execute(async (step) => {
    for (let on = 1 + EDITS; on < LONG_LOG; on += 500) {
      const row = (_: unknown, i: number) => ({ revision: on + 1 + i, ...said, patch: JSON.stringify(titled(on + i)) })
      const rows = Array.from({ length: Math.min(500, LONG_LOG - on) }, row)
      await step.insertInto('change').values(rows).execute()
    }
  })
  // The last entries are kept as any other, so that snapshots lie where they do in a log that grew.
  await written(store, LONG_LOG, 400)
  await store.close()
  const start = performance.now()
  const again = await openStore(file)
  const { revision } = await again.current()
  const opened = (performance.now() - start) / 1000
  await again.close()
  const edits = EDITS / seconds
  return [
    { ...reported('edits a second, one writer, every commit synced', edits, ''), limit: `≥ ${LEAST_EDITS}`, holds: edits >= LEAST_EDITS, isTime: true },
    { ...reported(`a log of ${revision} entries opened`, opened, 's'), limit: `< ${MOST_SECONDS_TO_OPEN}`, holds: opened < MOST_SECONDS_TO_OPEN, isTime: true },
  ]
}

const titled = (n: number) => [{ op: 'replace', path: '/about/title', value: `Edit ${n}` }] as const

/** Seconds that so many edits take, one after the other. */
async function written(store: Store, from: number, edits: number): Promise<number> {
  const start = performance.now()
  for (let on = from; on < from + edits; on++) {
    const kept = await store.append({ on, patch: titled(on), ...said })
    if (!('revision' in kept) || 'behind' in kept) throw new Error(`edit ${on} was refused`)
  }
  return (performance.now() - start) / 1000
}
