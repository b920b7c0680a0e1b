import { existsSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import type { Transaction } from 'kysely'
import { writeWhole } from '../project/writeWhole.ts'
import { AT_ONCE, BOUNDS, TABLES } from './archive.ts'
import { filesIn } from './archiveFiles.ts'
import { type Files, type Line, linesOf, type Row, twiceNamed } from './archiveLines.ts'
import { isTaken } from './database.ts'
import type { Store } from './store.ts'
import type { Tables } from './tables.ts'

/** A store as an archive has it, looked through: it can be brought in. */
export interface Archived {
  revision: number
  document: unknown
  files: Files
  rows: { [T in (typeof TABLES)[number] | 'change' | 'attachment']: Row<T>[] }
}

/**
 * Reads an archive and holds all of it against itself: every file against its hash, every line against its table, the log
 * replayed, every name against what it names. Nothing is written.
 *
 * @param bounds what it may unpack to
 * @returns every fault that is found before the first that hides what comes after it
 */
export function archived(archive: Uint8Array, bounds = BOUNDS): Archived | { problems: readonly Problem[] } {
  const read = filesIn(archive, bounds)
  if ('problems' in read) return read
  const { files, revision } = read
  const [change, baseline, signature, audit, attachment] = [
    ...([linesOf(files, 'change'), linesOf(files, 'baseline'), linesOf(files, 'signature')] as const),
    ...([linesOf(files, 'audit'), linesOf(files, 'attachment')] as const),
  ]
  const problems = [change, baseline, signature, audit, attachment].flatMap((table) => table.problems)
  if (problems.length > 0) return { problems }
  const log = replayed(change.lines, revision)
  const apart = [
    ...('problems' in log ? log.problems : []),
    ...twiceNamed('baseline.jsonl', baseline.lines, ({ name }) => name),
    ...twiceNamed('signature.jsonl', signature.lines, ({ id }) => id),
    ...twiceNamed('audit.jsonl', audit.lines, ({ id }) => id),
    ...twiceNamed('attachment.jsonl', attachment.lines, ({ hash }) => hash),
    ...attachmentProblems(files, attachment.lines),
    ...revisionProblems('baseline.jsonl', baseline.lines, revision),
    ...revisionProblems('signature.jsonl', signature.lines, revision),
    ...signatureProblems(files, signature.lines),
  ]
  if ('problems' in log || apart.length > 0) return { problems: apart }
  const rowsOf = <T>({ lines }: { lines: readonly Line<T>[] }): T[] => lines.map(({ row }) => row)
  const rows = {
    ...{ change: rowsOf(change), baseline: rowsOf(baseline), signature: rowsOf(signature) },
    ...{ audit: rowsOf(audit), attachment: rowsOf(attachment) },
  }
  return { revision, document: log.document, files, rows }
}

/** The document that the changes come to, each on the one before. */
function replayed(
  changes: readonly Line<Row<'change'>>[],
  revision: number,
): { document: unknown } | { problems: Problem[] } {
  let document: unknown
  for (const [i, { line, row }] of changes.entries()) {
    const pointer = `change.jsonl, line ${line}`
    if (row.revision !== i + 1)
      return {
        problems: [
          { pointer, found: `revision ${row.revision}`, expected: `revision ${i + 1}, one more than before it` },
        ],
      }
    const patched = applyPatch(document, row.patch as Patch)
    if ('problems' in patched)
      return {
        problems: patched.problems.map((p) => ({
          ...p,
          pointer: `${pointer}, patch at ${p.pointer || 'the whole project'}`,
        })),
      }
    document = patched.document
  }
  if (changes.length === revision) return { document }
  return {
    problems: [
      { pointer: 'change.jsonl', found: `${changes.length} changes`, expected: `${revision}, as archive.json says` },
    ],
  }
}

function attachmentProblems(files: Files, lines: readonly Line<Row<'attachment'>>[]): Problem[] {
  const told = new Set(lines.map(({ row }) => `attachments/${row.hash}`))
  const untold = [...files.keys()].filter((name) => name.startsWith('attachments/') && !told.has(name))
  return [
    ...untold.map((pointer) => ({
      pointer,
      found: 'a file of which no line tells',
      expected: 'a line of attachment.jsonl',
    })),
    ...lines.flatMap(({ line, row: { hash, size } }) => {
      const length = files.get(`attachments/${hash}`)?.length
      if (length === size) return []
      const found =
        length === undefined ? `no file attachments/${hash}` : `a size of ${size}, and a file of ${length} bytes`
      return [
        { pointer: `attachment.jsonl, line ${line}`, found, expected: 'the file that it tells of, as long as it says' },
      ]
    }),
  ]
}

const revisionProblems = (file: string, lines: readonly Line<{ revision: number }>[], last: number): Problem[] =>
  lines
    .filter(({ row: { revision } }) => revision < 1 || revision > last)
    .map(({ line, row }) => ({
      pointer: `${file}, line ${line}`,
      found: `revision ${row.revision}`,
      expected: `1 to ${last}`,
    }))

/** A signed document is among the attachments, and what is withdrawn among the signatures. */
function signatureProblems(files: Files, lines: readonly Line<Row<'signature'>>[]): Problem[] {
  const ids = new Set(lines.map(({ row }) => row.id))
  return lines.flatMap(({ line, row: { document, withdraws } }) => {
    const pointer = `signature.jsonl, line ${line}`
    if (document !== '' && !files.has(`attachments/${document}`))
      return [{ pointer, found: `the document ${document}, which is not there`, expected: 'a file under attachments' }]
    if (withdraws !== '' && !ids.has(withdraws))
      return [
        { pointer, found: `withdraws ${foundText(withdraws)}`, expected: 'the id of a signature in this archive' },
      ]
    return []
  })
}

/**
 * Brings an archive that was looked through into an empty store, all of it or nothing.
 *
 * @param meshFolder where the store keeps meshes by content hash
 * @returns what keeps it from being brought in; empty when it was
 */
export async function restored(store: Store, meshFolder: string, from: Archived): Promise<readonly Problem[]> {
  if ((await store.current()).revision > 0)
    return [{ pointer: '--data', found: 'a store that keeps a project', expected: 'an empty one; nothing was changed' }]
  const written: string[] = []
  try {
    // Before the log, which names them.
    for (const [name, bytes] of from.files) {
      const path = join(meshFolder, name.slice('meshes/'.length))
      if (!name.startsWith('meshes/') || existsSync(path)) continue
      writeWhole(path, bytes)
      written.push(path)
    }
    await store.database.tables.transaction().execute((step) => broughtIn(step, from))
    return []
  } catch (error) {
    for (const path of written) rmSync(path)
    if (!isTaken(error)) throw error
    return [
      {
        pointer: '--data',
        found: 'a store in which another program has just begun a project',
        expected: 'an empty one',
      },
    ]
  }
}

async function broughtIn(step: Transaction<Tables>, { files, rows, revision, document }: Archived): Promise<void> {
  await inserted(
    step,
    'change',
    rows.change.map((row) => ({ ...row, patch: JSON.stringify(row.patch) })),
  )
  await inserted(step, 'snapshot', [{ revision, document: JSON.stringify(document) }])
  for (const table of TABLES) await inserted(step, table, rows[table])
  for (const row of rows.attachment)
    await inserted(step, 'attachment', [{ ...row, bytes: Buffer.from(files.get(`attachments/${row.hash}`) ?? []) }])
}

async function inserted(step: Transaction<Tables>, table: keyof Tables, rows: readonly object[]): Promise<void> {
  for (let i = 0; i < rows.length; i += AT_ONCE)
    await step
      .insertInto(table)
      .values(rows.slice(i, i + AT_ONCE) as never)
      .execute()
}
