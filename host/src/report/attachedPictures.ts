import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import type { Stages } from '@shieldwright/engine'
import { attachmentsNamed } from '@shieldwright/engine/model/index.ts'
import type { AttachedFiles } from '@shieldwright/engine/report/dossier/attached.ts'
import { canBeOpened } from '../paper/pdf.ts'
import { sha256 } from '../sha256.ts'
import { attachmentOf } from '../store/attachments.ts'
import type { StoreDatabase } from '../store/database.ts'

/** Files that the records of a project name: what is known of each, and the bytes of those that are printed. */
export interface AttachedPictures {
  files: AttachedFiles
  pictures: ReadonlyMap<string, Uint8Array>
}

/** Those of a store. */
export const picturesInStore = (stages: Stages, database: Pick<StoreDatabase, 'tables'>): Promise<AttachedPictures> =>
  picturesOf(stages, async (hash) => (await attachmentOf(database, hash))?.bytes)

/** Those that lie in a folder, each named by the SHA-256 of its bytes, as .jpg, .jpeg or .png. */
export const picturesInFolder = (stages: Stages, folder: string): Promise<AttachedPictures> =>
  picturesOf(stages, async (hash) => {
    const path = ['jpg', 'jpeg', 'png'].map((ending) => join(folder, `${hash}.${ending}`)).find((p) => existsSync(p))
    return path === undefined ? undefined : new Uint8Array(readFileSync(path))
  })

async function picturesOf(
  { model }: Stages,
  read: (hash: string) => Promise<Uint8Array | undefined>,
): Promise<AttachedPictures> {
  const files = new Map<string, 'printed' | 'not a JPEG or PNG that can be read'>()
  const pictures = new Map<string, Uint8Array>()
  for (const hash of attachmentsNamed(model.project)) {
    const bytes = await read(hash)
    // what its name does not say is another file
    if (bytes === undefined || sha256(bytes) !== hash) continue
    const isPicture = (isJpeg(bytes) || isPng(bytes)) && canBeOpened(bytes)
    files.set(hash, isPicture ? 'printed' : 'not a JPEG or PNG that can be read')
    if (isPicture) pictures.set(hash, bytes)
  }
  return { files, pictures }
}

const beginsWith = (bytes: Uint8Array, start: readonly number[]): boolean => start.every((b, i) => bytes[i] === b)

const isJpeg = (bytes: Uint8Array): boolean => beginsWith(bytes, [0xff, 0xd8, 0xff])

/** Points of the largest picture that is printed. */
const MOST_POINTS = 60_000_000
const HEADER = 33
const CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 }

/** Passes in which the points of a picture lie: first column and line, and from one to the next (PNG, third edition, 8.1). */
type Pass = readonly [x: number, y: number, dx: number, dy: number]
const WHOLE: Pass = [0, 0, 1, 1]
const ADAM7: readonly Pass[] = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
]

/** The PDF writer puts interlaced points in their places where each is a whole byte at least, and no pass is empty. */
const isSpread = (width: number, height: number, depth: number): boolean => depth >= 8 && width >= 5 && height >= 5

/** A PNG whose points are all there: the PDF writer unpacks them later, where a fault would end the program. */
function isPng(bytes: Uint8Array): boolean {
  if (!beginsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) || bytes.length < HEADER) return false
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const [width, height, depth] = [view.getUint32(16), view.getUint32(20), view.getUint8(24)]
  const [channels, interlace] = [CHANNELS[view.getUint8(25)], view.getUint8(28)]
  if (channels === undefined || width * height === 0 || width * height > MOST_POINTS) return false
  const passes = interlace === 0 ? [WHOLE] : interlace === 1 && isSpread(width, height, depth) ? ADAM7 : []
  const due = passes.reduce((sum, [x, y, dx, dy]) => {
    const [across, down] = [Math.ceil((width - x) / dx), Math.ceil((height - y) / dy)]
    return sum + down * (1 + Math.ceil((across * depth * channels) / 8))
  }, 0)
  if (due === 0) return false
  try {
    return inflateSync(pointsOf(bytes, view), { maxOutputLength: due }).length === due
  } catch {
    return false
  }
}

/** The packed points of a PNG: its IDAT chunks one after the other. */
function pointsOf(bytes: Uint8Array, view: DataView): Uint8Array {
  const chunks: Uint8Array[] = []
  for (let at = 8; at + 8 <= bytes.length; ) {
    const [size, name] = [view.getUint32(at), String.fromCharCode(...bytes.subarray(at + 4, at + 8))]
    if (name === 'IDAT') chunks.push(bytes.subarray(at + 8, at + 8 + size))
    at += 12 + size
  }
  return Buffer.concat(chunks)
}
