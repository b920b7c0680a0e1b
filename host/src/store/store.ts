import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import { brokenText } from '@shieldwright/engine/working/plain.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Kysely, Transaction } from 'kysely'
import { isTaken, openDatabase, type StoreDatabase } from './database.ts'
import type { Place } from './place.ts'
import { storeFault } from './storeFault.ts'
import type { Tables } from './tables.ts'

/** A document at a revision; revision 0 is the empty store, without a document. */
export interface Kept {
  revision: number
  document: unknown
}

/** A change to be kept, made on top of a revision. */
export interface Proposed {
  /** The revision it was made on. */
  on: number
  patch: Patch
  by: string
  why: string
  /** ISO 8601, UTC. */
  at: string
}

/** A change that was kept. */
export interface LogEntry {
  revision: number
  at: string
  by: string
  why: string
  patch: Patch
}

export type Appended =
  | { revision: number }
  /** Others came first: what they changed since the revision that this one was made on. */
  | { behind: readonly LogEntry[]; revision: number }
  | { problems: readonly Problem[] }

/** The log of changes of one project. */
export interface Store {
  /** The latest revision and its document. */
  current(): Promise<Kept>
  /** What was read or kept here last, without a look at the log: others may have come since, and `append` then says so. */
  known(): Kept
  /** Keeps a change, unless another came first; on return it is on disk. Whether it makes a sound project is not looked at. */
  append(proposed: Proposed): Promise<Appended>
  /** Changes after a revision, oldest first. */
  logAfter(revision: number, most?: number): Promise<LogEntry[]>
  /** The document as it stood at a revision; undefined for one that is not there. */
  at(revision: number): Promise<unknown>
  /** What holds the log, for what is kept beside it. */
  readonly database: StoreDatabase
  close(): Promise<void>
}

/** Changes between snapshots: replaying so many takes some milliseconds, and a snapshot is as large as the project. */
const SNAPSHOT_EVERY = 200

/** The largest number that the column of revisions holds; no log comes near it. */
const MOST_REVISION = 2 ** 31 - 1

/**
 * Opens a store, made when it is not there. The current document is the fold of the patches over the latest snapshot; nothing
 * that was kept is ever changed.
 *
 * @param place a SQLite file, or where else it lies
 * @param snapshotEvery changes from one snapshot to the next
 */
export async function openStore(place: string | Place, snapshotEvery = SNAPSHOT_EVERY): Promise<Store> {
  const database = await openDatabase(typeof place === 'string' ? { file: place } : place)
  const { tables } = database
  // What was folded last; only the changes that others made since are read and applied.
  let last: Kept = { revision: 0, document: undefined }
  const reached = (now: Kept): Kept => {
    if (now.revision > last.revision) last = now
    return last
  }
  const current = async (): Promise<Kept> => reached(await folded(tables, last))
  return {
    current,
    known: () => last,
    append: together((group) => appended(tables, { current, reached, last: () => last, snapshotEvery }, group)),
    logAfter: (revision, most = 1000) => changesAfter(tables, revision, most),
    at: async (revision) =>
      revision < 0 || revision > MOST_REVISION ? undefined : (await foldedAt(tables, revision))?.document,
    database,
    close: database.close,
  }
}

type Reader = Kysely<Tables> | Transaction<Tables>

async function folded(database: Reader, from: Kept): Promise<Kept> {
  const head = await headRevision(database)
  if (head <= from.revision) return from
  const start = from.revision > 0 ? from : await latestSnapshot(database, head)
  const changes = await changesAfter(database, start.revision, head - start.revision)
  return changes.reduce(applied, start)
}

function applied({ document }: Kept, { revision, patch }: LogEntry): Kept {
  const patched = applyPatch(document, patch)
  if ('problems' in patched) throw new Error(`the log does not replay: revision ${revision}`)
  return { revision, document: patched.document }
}

async function headRevision(database: Reader): Promise<number> {
  const rows = await database
    .selectFrom('change')
    .select(({ fn }) => fn.max('revision').as('head'))
    .execute()
  return Number(rows[0]?.head ?? 0)
}

/** The document as it stood: the changes over the snapshot before it. */
async function foldedAt(database: Reader, revision: number): Promise<Kept | undefined> {
  const start = await latestSnapshot(database, revision)
  const changes = await changesAfter(database, start.revision, revision - start.revision)
  const reached = changes.reduce(applied, start)
  return reached.revision === revision ? reached : undefined
}

async function latestSnapshot(database: Reader, upTo: number): Promise<Kept> {
  const rows = await database
    .selectFrom('snapshot')
    .selectAll()
    .where('revision', '<=', upTo)
    .orderBy('revision', 'desc')
    .limit(1)
    .execute()
  const [row] = rows
  return row === undefined
    ? { revision: 0, document: undefined }
    : { revision: row.revision, document: JSON.parse(row.document) }
}

async function changesAfter(database: Reader, revision: number, most: number): Promise<LogEntry[]> {
  const query = database
    .selectFrom('change')
    .selectAll()
    .where('revision', '>', Math.min(revision, MOST_REVISION))
    .orderBy('revision')
    .limit(most)
  const rows = await query.execute()
  return rows.map(({ patch, ...entry }) => ({ ...entry, patch: JSON.parse(patch) as Patch }))
}

/**
 * Changes that come while others are being written wait, and are then written with one sync for all of them: a disk syncs some
 * hundred times a second, whatever is written. Each is told its end after that sync.
 */
function together(written: (group: readonly Proposed[]) => Promise<readonly Promise<Appended>[]>): Store['append'] {
  const waiting: { proposed: Proposed; settle: (end: Promise<Appended>) => void }[] = []
  let writing = false
  const writeAll = async (): Promise<void> => {
    writing = true
    while (waiting.length > 0) {
      const group = waiting.splice(0, MOST_TOGETHER)
      const ends = written(group.map(({ proposed }) => proposed))
      for (const [i, { settle }] of group.entries()) settle(ends.then((all) => all[i] as Promise<Appended>))
      await ends.catch(() => undefined) // Told to each that waits for it.
    }
    writing = false
  }
  return (proposed) =>
    new Promise((settle) => {
      waiting.push({ proposed, settle })
      if (!writing) void writeAll()
    })
}

/** Most changes of one statement: a database takes some thousand values at once, and each change has five. */
const MOST_TOGETHER = 100

/** What is known of the log, and how far it is followed. */
interface Followed {
  current: () => Promise<Kept>
  last: () => Kept
  reached: (now: Kept) => Kept
  snapshotEvery: number
}

/**
 * Keeps of a group what stands on the latest revision, each on the one before it; all of it in one statement, or none. Each has
 * an end of its own: that one cannot be told what came before it is no fault of what was kept.
 */
async function appended(
  tables: Kysely<Tables>,
  log: Followed,
  group: readonly Proposed[],
): Promise<readonly Promise<Appended>[]> {
  // What stands on the revision that was folded last is only held against the table's key; else it is read how far others are.
  const from = group[0]?.on === log.last().revision ? log.last() : await log.current()
  const { ends, changes, documents } = stacked(from, group)
  if (changes.length > 0) {
    try {
      // The revision is the key: of two writers on the same revision, one is refused here.
      await tables.insertInto('change').values(changes).execute()
    } catch (error) {
      if (!isTaken(error)) throw error
      await log.current()
      return appended(tables, log, group)
    }
  }
  for (const kept of documents) if (kept.revision % log.snapshotEvery === 0) await keptSnapshot(tables, kept)
  const head = log.reached(documents.at(-1) ?? from).revision
  return ends.map(
    async (end, i) => end ?? { behind: await changesAfter(tables, group[i]?.on ?? 0, 1000), revision: head },
  )
}

/** The changes of a group one on the other: what is to be written, and how each ends; undefined for one that others came before. */
function stacked(from: Kept, group: readonly Proposed[]) {
  const documents: Kept[] = []
  const changes: Tables['change'][] = []
  const ends = group.map(({ on, patch, by, why, at }): Appended | undefined => {
    const now = documents.at(-1) ?? from
    if (now.revision !== on) return undefined
    const broken = brokenText({ patch, by, why })
    if (broken !== undefined) return { problems: [broken] }
    const patched = applyPatch(now.document, patch)
    if ('problems' in patched) return patched
    const revision = on + 1
    documents.push({ revision, document: patched.document })
    changes.push({ revision, at, by, why, patch: JSON.stringify(patch) })
    return { revision }
  })
  return { ends, changes, documents }
}

/**
 * A snapshot only saves replaying. It is written after its change and by itself, so that no lock is held from one statement to
 * the next; where another program holds the file just then, or the disk is full by now, there is none at this
 * revision: its change is kept all the same, and must not be told to be refused.
 */
async function keptSnapshot(tables: Kysely<Tables>, { revision, document }: Kept): Promise<void> {
  try {
    const row = { revision, document: JSON.stringify(document) }
    await tables.insertInto('snapshot').values(row).execute()
  } catch (error) {
    if (!isTaken(error) && storeFault(error) === undefined) throw error
  }
}
