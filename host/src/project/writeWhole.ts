import { randomUUID } from 'node:crypto'
import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { PlaceFault } from '../store/place.ts'

/**
 * Writes beside and renames: a reader sees the old file or the new one, never half of it, and of two who write the same file at
 * once the later one's stands whole. On return it is on disk. Where it cannot be written nothing of it is left.
 *
 * @throws PlaceFault where the system does not let it be written, in words
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const beside = `${path}.${randomUUID()}.writing`
  try {
    mkdirSync(dirname(path), { recursive: true })
    writeSynced(beside, content)
    renameSync(beside, path)
  } catch (error) {
    if (existsSync(beside)) rmSync(beside)
    throw unwritable(path, error)
  }
}

function writeSynced(path: string, content: string | Uint8Array): void {
  const file = openSync(path, 'wx')
  try {
    writeFileSync(file, content)
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

/** What a system says of a place that cannot be written to, by its code. */
const SAID: Readonly<Record<string, string>> = {
  EACCES: 'a place that this user may not write to',
  EPERM: 'a place that this user may not write to',
  EROFS: 'a disk that can only be read',
  ENOSPC: 'a disk without room',
  EDQUOT: 'a share of the disk that is used up',
  EISDIR: 'a folder',
  ENOTDIR: 'a file where its folder is due',
  EEXIST: 'a file where its folder is due',
  ENAMETOOLONG: 'a name that is longer than the disk takes',
}

/** A fault of the place where a file or folder was to be made; what is none of the place comes back as it is. */
export function unwritable(path: string, error: unknown): unknown {
  const found = SAID[String((error as { code?: unknown }).code)]
  if (found === undefined) return error
  return new PlaceFault({ pointer: path, found, expected: 'a place that can be written to; nothing was written' })
}
