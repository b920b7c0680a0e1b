import { child } from '../working/pointer.ts'

/** Collections of a project whose records name files. */
export const WITH_ATTACHMENTS = ['inspections', 'welds', 'boltRecords', 'punchList', 'services', 'weighings'] as const

/** Hashes of the files that the records of a document name, each once, sound document or not. What is not of a hash's form names no file. */
export function attachmentsNamed(document: unknown): string[] {
  const records = WITH_ATTACHMENTS.flatMap((name) => Object.values(child(document, name) ?? {}))
  const files = records.flatMap((record): unknown => child(record, 'attachments') ?? [])
  const hashes = files.map((file) => child(file, 'hash'))
  return [...new Set(hashes.filter((hash): hash is string => typeof hash === 'string' && /^[0-9a-f]{64}$/.test(hash)))]
}
