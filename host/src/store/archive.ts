import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import { zipSync } from 'fflate'
import type { ZipBounds } from '../exchange/zip.ts'
import { sha256 } from '../sha256.ts'
import { attachmentOf, attachments } from './attachments.ts'
import type { Store } from './store.ts'

/** Version of the archive's own form. */
export const FORM = 1

/** Tables that are written as they are, before the log: what is read later may only know more than what was read before. */
export const TABLES = ['baseline', 'signature', 'audit'] as const

/** Most that an archive unpacks to: what holds more is not written either, for nobody could bring it back. */
export const BOUNDS: ZipBounds = { entries: 60_000, bytes: 1024 * 1024 * 1024 }

/** A store of which one archive would hold more than is ever read back. */
export class ArchiveTooLarge extends Error {}

/** Changes are read and written so many at a time. */
export const AT_ONCE = 1000

/**
 * The whole of a store as one ZIP archive: log, baselines, signatures, audit trail, attachments, meshes. Read while others write:
 * everything in it belongs to the revision that it ends with. The same store gives the same bytes. Accounts are not in it.
 *
 * @param meshFolder where the store keeps meshes by content hash
 * @throws ArchiveTooLarge before any of it is packed
 */
export async function archiveOf(store: Store, meshFolder: string, bounds = BOUNDS): Promise<Uint8Array> {
  const { tables } = store.database
  const files: Record<string, Uint8Array> = {}
  for (const table of TABLES) {
    const rows = await tables.selectFrom(table).selectAll().execute()
    files[`${table}.jsonl`] = lines(rows.map((row) => JSON.stringify(sorted(row))).sort())
  }
  const { revision } = await store.current()
  const changes: string[] = []
  while (changes.length < revision)
    for (const entry of await store.logAfter(changes.length, Math.min(AT_ONCE, revision - changes.length)))
      changes.push(JSON.stringify(sorted(entry)))
  files['change.jsonl'] = lines(changes)
  // Last, for log and signatures name them, and a file is kept before it is named.
  const beside = await attachments(store.database)
  files['attachment.jsonl'] = lines(beside.map((row) => JSON.stringify(sorted(row))))
  for (const { hash } of beside)
    files[`attachments/${hash}`] = (await attachmentOf(store.database, hash))?.bytes ?? new Uint8Array()
  for (const name of meshNames(meshFolder)) files[`meshes/${name}`] = readFileSync(join(meshFolder, name))
  const hashes = Object.fromEntries(Object.entries(files).map(([name, bytes]) => [name, sha256(bytes)]))
  files['archive.json'] = new TextEncoder().encode(
    `${JSON.stringify({ form: FORM, engine: ENGINE_VERSION, revision, files: hashes }, undefined, 1)}\n`,
  )
  holdWithin(files, bounds)
  // First day that the format knows, so that the hour of writing does not show.
  return zipSync(files, { mtime: new Date(1980, 0, 1) })
}

function holdWithin(files: Readonly<Record<string, Uint8Array>>, { entries, bytes }: ZipBounds): void {
  const all = Object.values(files)
  const size = all.reduce((sum, file) => sum + file.length, 0)
  if (all.length <= entries && size <= bytes) return
  throw new ArchiveTooLarge(
    `${all.length} files of ${size} bytes together, of at most ${entries} files of ${bytes} bytes`,
  )
}

const lines = (texts: readonly string[]): Uint8Array =>
  new TextEncoder().encode(texts.map((text) => `${text}\n`).join(''))

/** Names in one order, whichever database they came from. */
const sorted = (row: object): object => Object.fromEntries(Object.entries(row).sort(([a], [b]) => (a < b ? -1 : 1)))

/** Name of a mesh's file: the hash of its bytes, and its format. */
export const MESH_NAME = /^[0-9a-f]{64}\.(stl|glb|gltf)$/

const meshNames = (folder: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => MESH_NAME.test(name))
        .sort()
    : []
