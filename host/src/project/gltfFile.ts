import type { GltfFile } from '@shieldwright/engine/mass/gltf.ts'
import { fileProblem } from '@shieldwright/engine/mass/index.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

const MAGIC = 0x46546c67
const JSON_CHUNK = 0x4e4f534a
const BINARY_CHUNK = 0x004e4942
const HEADER = 12
const CHUNK_HEADER = 8

/**
 * A glTF file taken apart, whichever of its two forms it has: JSON with its bytes in data URIs, or GLB. Nothing outside the
 * file is looked for.
 *
 * Source: Khronos glTF 2.0 specification, section 4.4, binary glTF layout (from memory).
 */
export function gltfFile(bytes: Uint8Array, name: string): GltfFile | { problems: readonly Problem[] } {
  if (bytes.length === 0) return fileProblem(name, 'an empty file', 'a glTF file')
  return isBinary(bytes) ? binaryFile(bytes, name) : fileOf(bytes, undefined, name)
}

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
const isBinary = (bytes: Uint8Array): boolean => bytes.length >= 4 && viewOf(bytes).getUint32(0, true) === MAGIC

function binaryFile(bytes: Uint8Array, name: string): GltfFile | { problems: readonly Problem[] } {
  if (bytes.length < HEADER + CHUNK_HEADER)
    return fileProblem(name, `${bytes.length} bytes`, 'a GLB file: 20 bytes and more')
  const view = viewOf(bytes)
  const [version, length] = [view.getUint32(4, true), view.getUint32(8, true)]
  if (version !== 2) return fileProblem(name, `GLB version ${version}`, 'version 2')
  if (length !== bytes.length)
    return fileProblem(
      name,
      `${bytes.length} bytes`,
      `the ${length} that its header says: the file is cut short or longer`,
    )
  const json = chunkAt(bytes, HEADER)
  if (json === undefined || json.kind !== JSON_CHUNK)
    return fileProblem(name, 'no whole JSON chunk at its beginning', 'a GLB file')
  const next = chunkAt(bytes, json.end)
  if (next === undefined && json.end < bytes.length)
    return fileProblem(name, 'a binary chunk that reaches beyond the file', 'whole chunks')
  return fileOf(json.data, next?.kind === BINARY_CHUNK ? next.data : undefined, name)
}

/** Chunks begin at multiples of four. Undefined: it is not wholly in the file. */
function chunkAt(bytes: Uint8Array, at: number): { kind: number; data: Uint8Array; end: number } | undefined {
  if (at + CHUNK_HEADER > bytes.length) return undefined
  const view = viewOf(bytes)
  const start = at + CHUNK_HEADER
  const end = start + view.getUint32(at, true)
  return end > bytes.length ? undefined : { kind: view.getUint32(at + 4, true), data: bytes.subarray(start, end), end }
}

function fileOf(text: Uint8Array, bin: Uint8Array | undefined, name: string) {
  try {
    return { json: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(text)), bin, dataOf }
  } catch (error) {
    return fileProblem(name, `no JSON in UTF-8 (${(error as Error).message.slice(0, 80)})`, 'glTF: JSON, or GLB')
  }
}

/** Bytes of a data URI in base 64; undefined for any other address, which is not followed. */
function dataOf(uri: string): Uint8Array | undefined {
  const found = /^data:[\w.+/-]*(?:;[\w=.-]+)*;base64,/.exec(uri.slice(0, 200))
  return found === null ? undefined : Uint8Array.from(Buffer.from(uri.slice(found[0].length), 'base64'))
}
