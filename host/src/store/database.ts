import { mkdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { Kysely, type SqliteDatabase, SqliteDialect, sql } from 'kysely'
import Database from 'libsql'

/** One kept change: a JSON Patch on the revision before it. */
interface ChangeTable {
  revision: number
  /** ISO 8601, UTC. */
  at: string
  by: string
  why: string
  patch: string
}

/** The whole document at a revision, so that reading the present does not replay the whole past. */
interface SnapshotTable {
  revision: number
  document: string
}

export interface Tables {
  change: ChangeTable
  snapshot: SnapshotTable
}

/**
 * Opens the store's SQLite file, made with its tables when it is not there.
 *
 * A change is on disk before it is acknowledged: write-ahead log, every commit synced.
 */
export async function openDatabase(path: string): Promise<Kysely<Tables>> {
  mkdirSync(dirname(path), { recursive: true })
  const file = new Database(path)
  for (const pragma of ['journal_mode = WAL', 'synchronous = FULL', 'busy_timeout = 5000']) file.pragma(pragma)
  const database = new Kysely<Tables>({ dialect: new SqliteDialect({ database: file as unknown as SqliteDatabase }) })
  await createTables(database)
  return database
}

async function createTables(database: Kysely<Tables>): Promise<void> {
  const { schema } = database
  await schema
    .createTable('change')
    .ifNotExists()
    .addColumn('revision', 'integer', (column) => column.primaryKey())
    .addColumn('at', 'text', (column) => column.notNull())
    .addColumn('by', 'text', (column) => column.notNull())
    .addColumn('why', 'text', (column) => column.notNull())
    .addColumn('patch', 'text', (column) => column.notNull())
    .execute()
  await schema
    .createTable('snapshot')
    .ifNotExists()
    .addColumn('revision', 'integer', (column) => column.primaryKey())
    .addColumn('document', 'text', (column) => column.notNull())
    .execute()
  for (const what of ['update', 'delete']) {
    const name = sql.raw(`change_no_${what}`)
    await sql`create trigger if not exists ${name} before ${sql.raw(what)} on change
      begin select raise(abort, 'the log of changes is only added to'); end`.execute(database)
  }
}
