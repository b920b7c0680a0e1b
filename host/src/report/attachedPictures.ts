import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { attachmentsNamed } from '@shieldwright/engine/model/index.ts'
import type { AttachedFiles } from '@shieldwright/engine/report/dossier/attached.ts'
import { canBeOpened } from '../paper/pdf.ts'
import { isPng, printablePng } from '../paper/png.ts'
import { sha256 } from '../sha256.ts'
import { attachmentOf } from '../store/attachments.ts'
import type { StoreDatabase } from '../store/database.ts'

/** Files that the records of a project name: what is known of each, and of those that are printed the bytes as the PDF writer takes them. */
export interface AttachedPictures {
  files: AttachedFiles
  pictures: ReadonlyMap<string, Uint8Array>
}

export const NO_PICTURES: AttachedPictures = { files: new Map(), pictures: new Map() }

/** Those of a store that documents name. */
export const picturesInStore = (
  documents: readonly unknown[],
  database: Pick<StoreDatabase, 'tables'>,
): Promise<AttachedPictures> => picturesOf(documents, async (hash) => (await attachmentOf(database, hash))?.bytes)

/** Those that lie in a folder, each named by the SHA-256 of its bytes, as .jpg, .jpeg or .png. */
export const picturesInFolder = (documents: readonly unknown[], folder: string): Promise<AttachedPictures> =>
  picturesOf(documents, async (hash) => {
    const path = ['jpg', 'jpeg', 'png'].map((ending) => join(folder, `${hash}.${ending}`)).find((p) => existsSync(p))
    return path === undefined ? undefined : new Uint8Array(readFileSync(path))
  })

async function picturesOf(
  documents: readonly unknown[],
  read: (hash: string) => Promise<Uint8Array | undefined>,
): Promise<AttachedPictures> {
  const files = new Map<string, 'printed' | 'not a JPEG or PNG that can be read'>()
  const pictures = new Map<string, Uint8Array>()
  for (const hash of new Set(documents.flatMap(attachmentsNamed))) {
    const bytes = await read(hash)
    // what its name does not say is another file
    if (bytes === undefined || sha256(bytes) !== hash) continue
    const picture = printable(bytes)
    files.set(hash, picture === undefined ? 'not a JPEG or PNG that can be read' : 'printed')
    if (picture !== undefined) pictures.set(hash, picture)
  }
  return { files, pictures }
}

const isJpeg = (bytes: Uint8Array): boolean => [0xff, 0xd8, 0xff].every((b, i) => bytes[i] === b)

/** The bytes that the PDF writer takes; it unpacks a PNG later, where a fault would end the program. */
function printable(bytes: Uint8Array): Uint8Array | undefined {
  const taken = isJpeg(bytes) ? bytes : isPng(bytes) ? printablePng(bytes) : undefined
  return taken && canBeOpened(taken) ? taken : undefined
}
