import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Kysely, Transaction } from 'kysely'
import { isBusy, isTaken, openDatabase, type StoreDatabase } from './database.ts'
import type { Place } from './place.ts'
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
  const current = async (): Promise<Kept> => {
    const now = await folded(tables, last)
    if (now.revision > last.revision) last = now
    return last
  }
  return {
    current,
    append: async (proposed) => appended(tables, await current(), proposed, snapshotEvery),
    logAfter: (revision, most = 1000) => changesAfter(tables, revision, most),
    at: async (revision) => (await foldedAt(tables, revision))?.document,
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
    .where('revision', '>', revision)
    .orderBy('revision')
    .limit(most)
  const rows = await query.execute()
  return rows.map(({ patch, ...entry }) => ({ ...entry, patch: JSON.parse(patch) as Patch }))
}

async function appended(
  tables: Kysely<Tables>,
  now: Kept,
  { on, patch, by, why, at }: Proposed,
  snapshotEvery: number,
): Promise<Appended> {
  if (now.revision !== on) return { behind: await changesAfter(tables, on, 1000), revision: now.revision }
  const patched = applyPatch(now.document, patch)
  if ('problems' in patched) return patched
  const revision = on + 1
  const change = { revision, at, by, why, patch: JSON.stringify(patch) }
  try {
    // The revision is the key: of two writers on the same revision, one is refused here.
    await tables.insertInto('change').values(change).execute()
  } catch (error) {
    if (!isTaken(error)) throw error
    return { behind: await changesAfter(tables, on, 1000), revision: await headRevision(tables) }
  }
  if (revision % snapshotEvery === 0) await keptSnapshot(tables, { revision, document: patched.document })
  return { revision }
}

/**
 * A snapshot only saves replaying. It is written after its change and by itself, so that no lock is held from one statement to
 * the next; where another program holds the file just then, there is none at this revision.
 */
async function keptSnapshot(tables: Kysely<Tables>, { revision, document }: Kept): Promise<void> {
  try {
    const row = { revision, document: JSON.stringify(document) }
    await tables.insertInto('snapshot').values(row).execute()
  } catch (error) {
    if (!isTaken(error) && !isBusy(error)) throw error
  }
}
