import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { zipSync } from 'fflate'
import type { Transaction } from 'kysely'
import { unzipped, type ZipBounds, type ZipEntry } from '../exchange/zip.ts'
import { writeWhole } from '../project/demo.ts'
import { sha256 } from '../sha256.ts'
import { attachmentOf, attachments } from './attachments.ts'
import type { Store } from './store.ts'
import type { Tables } from './tables.ts'

/** Version of the archive's own form. */
const FORM = 1

/** Tables that are written as they are, in this order: what is read later may only know more than what was read before. */
const TABLES = ['baseline', 'signature', 'audit'] as const

/** Changes are read and written so many at a time. */
const AT_ONCE = 1000

/**
 * The whole of a store as one ZIP archive: log, baselines, signatures, audit trail, attachments, meshes. Read while others write:
 * everything in it belongs to the revision that it ends with. The same store gives the same bytes. Accounts are not in it.
 *
 * @param meshFolder where the store keeps meshes by content hash
 */
export async function archiveOf(store: Store, meshFolder: string): Promise<Uint8Array> {
  const { tables } = store.database
  const files: Record<string, Uint8Array> = {}
  for (const table of TABLES) {
    const rows = await tables.selectFrom(table).selectAll().execute()
    files[`${table}.jsonl`] = lines(rows.map((row) => JSON.stringify(sorted(row))).sort())
  }
  const beside = await attachments(store.database)
  files['attachment.jsonl'] = lines(beside.map((row) => JSON.stringify(sorted(row))))
  for (const { hash } of beside)
    files[`attachments/${hash}`] = (await attachmentOf(store.database, hash))?.bytes ?? new Uint8Array()
  for (const name of meshNames(meshFolder)) files[`meshes/${name}`] = readFileSync(join(meshFolder, name))
  const { revision } = await store.current()
  const changes: string[] = []
  while (changes.length < revision)
    for (const entry of await store.logAfter(changes.length, Math.min(AT_ONCE, revision - changes.length)))
      changes.push(JSON.stringify(sorted(entry)))
  files['change.jsonl'] = lines(changes)
  const hashes = Object.fromEntries(Object.entries(files).map(([name, bytes]) => [name, sha256(bytes)]))
  files['archive.json'] = new TextEncoder().encode(
    `${JSON.stringify({ form: FORM, engine: ENGINE_VERSION, revision, files: hashes }, undefined, 1)}\n`,
  )
  // First day that the format knows, so that the hour of writing does not show.
  return zipSync(files, { mtime: new Date(1980, 0, 1) })
}

const lines = (texts: readonly string[]): Uint8Array =>
  new TextEncoder().encode(texts.map((text) => `${text}\n`).join(''))

/** Names in one order, whichever database they came from. */
const sorted = (row: object): object => Object.fromEntries(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1)))

const MESH_NAME = /^[0-9a-f]{64}\.(stl|glb|gltf)$/

const meshNames = (folder: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => MESH_NAME.test(name))
        .sort()
    : []

const BOUNDS = { entries: 60_000, bytes: 1024 * 1024 * 1024 }

/**
 * Brings an archive into an empty store, all of it or nothing. Every file is held against its hash, the log is replayed.
 *
 * @param bounds what it may unpack to
 * @returns what keeps it from being brought in; empty when it was
 */
export async function restored(
  store: Store,
  meshFolder: string,
  archive: Uint8Array,
  bounds: ZipBounds = BOUNDS,
): Promise<readonly Problem[]> {
  if ((await store.current()).revision > 0)
    return [{ pointer: '--data', found: 'a store that keeps a project', expected: 'an empty one; nothing was changed' }]
  const read = filesIn(archive, bounds)
  if ('problems' in read) return read.problems
  const { files, revision } = read
  const changes = rowsIn(files, 'change')
  const documents = replayed(changes as Change[], revision)
  if ('problems' in documents) return documents.problems
  const meshes = [...files].filter(([name]) => name.startsWith('meshes/') && MESH_NAME.test(name.slice(7)))
  for (const [name, bytes] of meshes) writeWhole(join(meshFolder, name.slice(7)), bytes)
  await store.database.tables.transaction().execute(async (step) => {
    await inserted(
      step,
      'change',
      (changes as Change[]).map((c) => ({ ...c, patch: JSON.stringify(c.patch) })),
    )
    await inserted(step, 'snapshot', [{ revision, document: JSON.stringify(documents.document) }])
    for (const table of TABLES) await inserted(step, table, rowsIn(files, table))
    for (const row of rowsIn(files, 'attachment') as { hash: string }[])
      await inserted(step, 'attachment', [{ ...row, bytes: Buffer.from(files.get(`attachments/${row.hash}`) ?? []) }])
  })
  return []
}

interface Change {
  revision: number
  patch: Patch
}

const refused = (pointer: string, found: string, expected: string): { problems: Problem[] } => ({
  problems: [{ pointer, found, expected }],
})

type Files = ReadonlyMap<string, Uint8Array>

function filesIn(archive: Uint8Array, bounds: ZipBounds): { files: Files; revision: number } | { problems: Problem[] } {
  const read = unzipped(archive, bounds)
  if ('fault' in read) return refused('', read.fault, 'an archive that "backup" wrote')
  const files = new Map(read.entries.map(({ name, bytes }: ZipEntry) => [name, bytes]))
  const about = jsonIn(files.get('archive.json')) as { form?: unknown; revision?: unknown; files?: unknown } | undefined
  if (about?.form !== FORM || !Number.isSafeInteger(about.revision) || typeof about.files !== 'object')
    return refused('archive.json', `form ${String(about?.form)}`, `form ${FORM} of this archive, with its revision`)
  for (const [name, hash] of Object.entries(about.files ?? {})) {
    const bytes = files.get(name)
    if (bytes === undefined || sha256(bytes) !== hash)
      return refused(name, bytes === undefined ? 'nothing' : 'other bytes', 'the bytes that its hash names')
  }
  const named = new Set(Object.keys(about.files ?? {}))
  const unnamed = [...files.keys()].find((name) => name !== 'archive.json' && !named.has(name))
  if (unnamed !== undefined) return refused(unnamed, 'a file that archive.json does not name', 'none beside those')
  const lying = [...files.keys()].find(
    (name) => /^attachments\//.test(name) && sha256(files.get(name) as Uint8Array) !== name.slice(12),
  )
  if (lying !== undefined) return refused(lying, 'other bytes', 'the bytes that its name says')
  return { files, revision: about.revision as number }
}

function jsonIn(bytes: Uint8Array | undefined): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes))
  } catch {
    return undefined // Said where it is due: not what an archive holds.
  }
}

const rowsIn = (files: Files, table: string): object[] =>
  new TextDecoder()
    .decode(files.get(`${table}.jsonl`))
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as object)

/** The document that the changes come to, each on the one before. */
function replayed(changes: readonly Change[], revision: number): { document: unknown } | { problems: Problem[] } {
  let document: unknown
  for (const [i, change] of changes.entries()) {
    const patched = applyPatch(document, change.patch)
    if (change.revision !== i + 1 || 'problems' in patched)
      return refused(`change.jsonl/${i}`, `revision ${change.revision}`, `revision ${i + 1}, on the one before`)
    document = patched.document
  }
  return changes.length === revision
    ? { document }
    : refused('change.jsonl', `${changes.length} changes`, `${revision}, as archive.json says`)
}

async function inserted(step: Transaction<Tables>, table: keyof Tables, rows: readonly object[]): Promise<void> {
  for (let i = 0; i < rows.length; i += AT_ONCE)
    await step
      .insertInto(table)
      .values(rows.slice(i, i + AT_ONCE) as never)
      .execute()
}
