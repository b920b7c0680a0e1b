import { mkdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { type Driver, Kysely, PostgresDialect, type SqliteDatabase, SqliteDialect, sql } from 'kysely'
import Database from 'libsql'
import pg from 'pg'
import { unwritable } from '../project/writeWhole.ts'
import { migrated } from './migrations.ts'
import { type Place, PlaceFault, unreachable } from './place.ts'
import type { Tables } from './tables.ts'

/** The database of a store; which of the two it is matters only where they have no word in common. */
export interface StoreDatabase {
  readonly tables: Kysely<Tables>
  readonly engine: 'sqlite' | 'postgres'
  readonly place: Place
  close(): Promise<void>
}

/**
 * Opens a store's database, made with its tables when it is not there and brought up to date when it is older.
 *
 * @throws PlaceFault where no PostgreSQL answers at the address
 *
 * A change is on disk before it is acknowledged. SQLite: write-ahead log, every commit synced. PostgreSQL: synchronous commit.
 */
export async function openDatabase(place: Place): Promise<StoreDatabase> {
  const tables = 'file' in place ? onSqlite(place.file) : await onPostgres(place.url, place.project)
  const engine = 'file' in place ? 'sqlite' : 'postgres'
  const database: StoreDatabase = { tables, engine, place, close: () => tables.destroy() }
  await migrated(database).catch(async (error) => {
    await tables.destroy()
    throw error
  })
  return database
}

const PRAGMAS = ['journal_mode = WAL', 'synchronous = FULL', 'busy_timeout = 5000']

function onSqlite(path: string): Kysely<Tables> {
  try {
    mkdirSync(dirname(path), { recursive: true })
  } catch (error) {
    throw unwritable(dirname(path), error)
  }
  const file = opened(path)
  return new Kysely<Tables>({ dialect: new ForgivingDialect({ database: file as unknown as SqliteDatabase }) })
}

/**
 * Where the disk is full SQLite has rolled a transaction back by itself, and refuses to do it again: told of that, nobody would
 * learn that the disk is full.
 */
class ForgivingDialect extends SqliteDialect {
  override createDriver(): Driver {
    const driver = super.createDriver()
    const rollback = driver.rollbackTransaction.bind(driver)
    driver.rollbackTransaction = (connection) =>
      rollback(connection).catch((error: unknown) => {
        if (!String(error).includes('no transaction is active')) throw error
      })
    return driver
  }
}

function opened(path: string): Database.Database {
  try {
    const file = new Database(path)
    for (const pragma of PRAGMAS) file.pragma(pragma)
    return file
  } catch (error) {
    if ((error as { code?: unknown }).code !== 'SQLITE_NOTADB') throw error
    const expected = 'a store that this program has made; put it aside, or name another folder'
    throw new PlaceFault({ pointer: path, found: 'a file that is no database', expected })
  }
}

/** Connections of one process: a page's requests are short, and a job holds none. */
const CONNECTIONS = 8

async function onPostgres(url: string, project: string): Promise<Kysely<Tables>> {
  const options = `-c search_path=${project} -c synchronous_commit=on`
  const pool = new pg.Pool({ connectionString: url, max: CONNECTIONS, options })
  // A connection that breaks while nobody uses it is replaced at the next use; untold, it would end the process.
  const told = (error: Error): void => console.error(`database: ${error.message}`)
  pool.on('error', told)
  // One that breaks while it is lent out tells its query as well; unheard, it too would end the process.
  pool.on('connect', (client) => client.on('error', told))
  const tables = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) })
  await sql`create schema if not exists ${sql.id(project)}`.execute(tables).catch(async (error) => {
    if (isTaken(error)) return // Two processes made it at the same instant.
    await tables.destroy()
    throw unreachable(url, error)
  })
  return tables
}

/** True when another holds the file: what was asked can be asked again. */
export const isBusy = (error: unknown): boolean => String((error as { code?: unknown }).code).startsWith('SQLITE_BUSY')

/** True when a row was refused because its key is there already. */
export function isTaken(error: unknown): boolean {
  const { code } = error as { code?: unknown }
  return code === '23505' || String(code).startsWith('SQLITE_CONSTRAINT')
}
