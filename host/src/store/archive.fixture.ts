import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { unzipSync, zipSync } from 'fflate'
import type { ZipBounds } from '../exchange/zip.ts'
import { sha256 } from '../sha256.ts'
import { archived, restored } from './restore.ts'
import type { Store } from './store.ts'

/** Brings an archive into an empty store; what keeps it from being brought in. */
export async function broughtBack(
  store: Store,
  meshFolder: string,
  archive: Uint8Array,
  bounds?: ZipBounds,
): Promise<readonly Problem[]> {
  const from = archived(archive, bounds)
  return 'problems' in from ? from.problems : restored(store, meshFolder, from)
}

type Named = Record<string, Uint8Array>

/** An archive with some of its files changed, each with the hash that it now has: whoever forges one does the same. */
export function forged(archive: Uint8Array, change: (files: Named) => void): Uint8Array {
  const files = unzipSync(archive)
  change(files)
  const about = JSON.parse(wordsOf(files['archive.json']))
  const others = Object.entries(files).filter(([name]) => name !== 'archive.json')
  about.files = Object.fromEntries(others.map(([name, bytes]) => [name, sha256(bytes)]))
  return zipSync({ ...files, 'archive.json': bytesOf(JSON.stringify(about)) })
}

export const wordsOf = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes)
export const bytesOf = (words: string): Uint8Array => new TextEncoder().encode(words)
