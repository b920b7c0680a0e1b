import { closeSync, fdatasyncSync, mkdtempSync, openSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { openStore, type Store } from '../host/src/store/store.ts'
import { type Line, reported } from './line.ts'

/** Edits a second that one writer sustains on a disk that nobody else writes to, and seconds within which a long log opens. */
export const LEAST_EDITS = 1000
const MOST_SECONDS_TO_OPEN = 1

/** Edits that the writer has sent and not yet heard of. */
const IN_FLIGHT = 50

/** How long the bench goes on. */
export interface StoreSizes {
  edits: number
  longLog: number
}

const said = { by: 'bench', why: 'one edit', at: '2031-11-03T00:00:00Z' }

/** One writer on SQLite, every commit synced (write-ahead log, synchronous = FULL); then a long log opened. */
export async function storeLines(
  demo: object,
  { edits, longLog }: StoreSizes = { edits: 5000, longLog: 100_000 },
): Promise<Line[]> {
  const file = join(mkdtempSync(join(tmpdir(), 'bench-')), 'project.sqlite')
  const store = await openStore(file)
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: demo }], ...said })
  const few = Math.ceil(edits / 10)
  const alone = few / (await written(store, 1, few, 1))
  const syncs = syncsASecond(dirname(file), few)
  const manyAtOnce = edits / (await written(store, 1 + few, edits, IN_FLIGHT))
  await filled(store, 1 + few + edits, longLog)
  // The last entries are kept as any other, so that snapshots lie where they do in a log that grew.
  await written(store, longLog, 399, IN_FLIGHT)
  await store.close()
  const { revision, seconds } = await opened(file)
  return [
    atLeast(`edits a second, one writer, ${IN_FLIGHT} in flight, every one synced`, manyAtOnce, LEAST_EDITS),
    atLeast('edits a second, one writer who waits for each, every one synced', alone, LEAST_EDITS),
    reported('syncs a second of this disk', syncs, ''),
    {
      ...reported(`a log of ${revision} entries opened`, seconds, 's'),
      limit: `${MOST_SECONDS_TO_OPEN} s`,
      holds: seconds <= MOST_SECONDS_TO_OPEN,
      isTime: true,
    },
  ]
}

export const atLeast = (what: string, value: number, least: number): Line => ({
  ...reported(what, value, ''),
  limit: `at least ${least}`,
  holds: value >= least,
  isTime: true,
})

const titled = (n: number) => [{ op: 'replace', path: '/about/title', value: `Edit ${n}` }] as const

/** Seconds that so many edits take, when so many of them may wait for their end. */
async function written(store: Store, from: number, edits: number, inFlight: number): Promise<number> {
  const start = performance.now()
  const waiting: Promise<void>[] = []
  for (let on = from; on < from + edits; on++) {
    waiting.push(store.append({ on, patch: titled(on), ...said }).then((end) => mustBeKept(end, on)))
    if (waiting.length >= inFlight) await waiting.shift()
  }
  await Promise.all(waiting)
  return (performance.now() - start) / 1000
}

function mustBeKept(end: object, on: number): void {
  if (!('revision' in end) || 'behind' in end) throw new Error(`edit ${on} was refused`)
}

/** Syncs a second of a page each, which no store on this disk can pass that syncs each edit by itself. */
function syncsASecond(folder: string, times: number): number {
  const file = openSync(join(folder, 'synced'), 'w')
  const page = Buffer.alloc(4096, 1)
  const start = performance.now()
  for (let i = 0; i < times; i++) {
    writeSync(file, page)
    fdatasyncSync(file)
  }
  const seconds = (performance.now() - start) / 1000
  closeSync(file)
  return times / seconds
}

/** Entries up to a revision, written in bulk. */
async function filled(store: Store, from: number, upTo: number): Promise<void> {
  const row = (revision: number) => ({ revision, ...said, patch: JSON.stringify(titled(revision - 1)) })
  await store.database.tables.transaction().execute(async (step) => {
    for (let on = from; on < upTo; on += 500) {
      const rows = Array.from({ length: Math.min(500, upTo - on) }, (_, i) => row(on + 1 + i))
      await step.insertInto('change').values(rows).execute()
    }
  })
}

async function opened(file: string): Promise<{ revision: number; seconds: number }> {
  const start = performance.now()
  const store = await openStore(file)
  const { revision } = await store.current()
  const seconds = (performance.now() - start) / 1000
  await store.close()
  return { revision, seconds }
}
