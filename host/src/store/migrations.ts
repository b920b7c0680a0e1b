import { type CreateTableBuilder, type Kysely, type Migration, type MigrationProvider, Migrator, sql } from 'kysely'
import { isBusy, type StoreDatabase } from './database.ts'
import { type Place, PlaceFault } from './place.ts'

/** Tries that a program makes while another one is bringing the same file up to date. */
const TRIES = 20

/**
 * Brings the tables up to date: one set of steps for both engines.
 *
 * @throws when a step fails; PlaceFault when the store was written by a later program than this
 */
export async function migrated({ tables, engine, place }: StoreDatabase): Promise<void> {
  const schema = 'url' in place ? { migrationTableSchema: place.project } : {}
  const migrator = new Migrator({ db: tables, provider: stepsOn(engine), ...schema })
  for (let left = TRIES; ; left--) {
    const { error } = await migrator.migrateToLatest()
    if (error === undefined) return
    if (String(error).includes('corrupted migrations')) throw laterProgram(place)
    if (left === 0 || !isBusy(error)) throw error
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}

const laterProgram = (place: Place): PlaceFault =>
  new PlaceFault({
    pointer: 'file' in place ? place.file : place.project,
    found: 'a store that a later version of this program has written',
    expected: 'that version or a later one; nothing was changed',
  })

type Engine = StoreDatabase['engine']
// Steps speak of tables as they were at their time, so they know no types.
type Schema = Kysely<unknown>

const stepsOn = (engine: Engine): MigrationProvider => ({
  getMigrations: async () =>
    Object.fromEntries(
      Object.entries(steps).map(([name, up]): [string, Migration] => [name, { up: (schema) => up(schema, engine) }]),
    ),
})

/** In this order, each once; a step that has gone out is never changed. */
const steps: Readonly<Record<string, (schema: Schema, engine: Engine) => Promise<void>>> = {
  '0001-log': async (schema, engine) => {
    await table(schema, 'change', ['at', 'by', 'why', 'patch'], 'revision').execute()
    await table(schema, 'snapshot', ['document'], 'revision').execute()
    await onlyAddedTo(schema, engine, 'change')
  },
  '0002-beside-the-log': async (schema, engine) => {
    await table(schema, 'baseline', ['name', 'at', 'by', 'why'])
      .addColumn('revision', 'integer', (column) => column.notNull())
      .addPrimaryKeyConstraint('baseline_key', ['name'])
      .execute()
    await table(schema, 'attachment', ['hash', 'name', 'type', 'at', 'by'])
      .addColumn('size', 'integer', (column) => column.notNull())
      .addColumn('bytes', engine === 'postgres' ? 'bytea' : 'blob', (column) => column.notNull())
      .addPrimaryKeyConstraint('attachment_key', ['hash'])
      .execute()
    const signature = ['kind', 'subject', 'role', 'at', 'by', 'statement', 'basis', 'figures', 'document', 'withdraws']
    await table(schema, 'signature', ['id', ...signature])
      .addColumn('revision', 'integer', (column) => column.notNull())
      .addPrimaryKeyConstraint('signature_key', ['id'])
      .execute()
    await table(schema, 'audit', ['id', 'at', 'by', 'what', 'about'])
      .addPrimaryKeyConstraint('audit_key', ['id'])
      .execute()
    for (const name of ['signature', 'audit', 'attachment']) await onlyAddedTo(schema, engine, name)
  },
  '0003-accounts': async (schema) => {
    await table(schema, 'account', ['name', 'role', 'password', 'at', 'by', 'ended'])
      .addPrimaryKeyConstraint('account_key', ['name'])
      .execute()
    await table(schema, 'session', ['token', 'account', 'until'])
      .addPrimaryKeyConstraint('session_key', ['token'])
      .execute()
  },
  '0004-jobs': async (schema) => {
    await table(schema, 'job_result', ['content', 'at', 'result'])
      .addPrimaryKeyConstraint('job_result_key', ['content'])
      .execute()
    await table(schema, 'job', ['id', 'content', 'request', 'state', 'progress', 'problems', 'worker', 'at'])
      .addColumn('revision', 'integer', (column) => column.notNull())
      .addColumn('tries', 'integer', (column) => column.notNull())
      .addColumn('cancelled', 'integer', (column) => column.notNull())
      .addColumn('heard', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('job_key', ['id'])
      .execute()
  },
}

/** A table of texts, none of them missing; the key is a number where one is named. */
function table(schema: Schema, name: string, texts: readonly string[], key?: string) {
  const made = schema.schema.createTable(name).ifNotExists()
  const keyed: CreateTableBuilder<string, string> =
    key === undefined ? made : made.addColumn(key, 'integer', (column) => column.primaryKey())
  return texts.reduce<CreateTableBuilder<string, string>>(
    (so, text) => so.addColumn(text, 'text', (column) => column.notNull()),
    keyed,
  )
}

/** Rows of this table are neither changed nor taken out, whoever asks: the database itself refuses. */
async function onlyAddedTo(schema: Schema, engine: Engine, name: string): Promise<void> {
  const said = sql.lit(`what is kept in "${name}" is only added to`)
  if (engine === 'postgres') {
    await sql`create or replace function ${sql.id(`${name}_is_only_added_to`)}() returns trigger language plpgsql as
      ${sql.lit(`begin raise exception 'what is kept in "${name}" is only added to'; end`)}`.execute(schema)
    await sql`create or replace trigger ${sql.id(`${name}_kept`)} before update or delete or truncate on ${sql.id(name)}
      execute function ${sql.id(`${name}_is_only_added_to`)}()`.execute(schema)
    return
  }
  for (const what of ['update', 'delete'])
    await sql`create trigger if not exists ${sql.id(`${name}_no_${what}`)} before ${sql.raw(what)} on ${sql.id(name)}
      begin select raise(abort, ${said}); end`.execute(schema)
}
