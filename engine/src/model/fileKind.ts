/** Bytes of a file that its kind is told from. */
export const KIND_BYTES = 4096

const BEGINNINGS: readonly (readonly [beginning: readonly number[], kind: string])[] = [
  [[0x50, 0x4b, 0x03, 0x04], 'a workbook (XLSX) or another ZIP archive'],
  [[0xd0, 0xcf, 0x11, 0xe0], 'a workbook of the old kind (XLS)'],
  [[0x89, 0x50, 0x4e, 0x47], 'a picture (PNG)'],
  [[0xff, 0xd8, 0xff], 'a picture (JPEG)'],
  [[0x25, 0x50, 0x44, 0x46, 0x2d], 'a document (PDF)'],
  [[0x67, 0x6c, 0x54, 0x46], 'a mesh (glTF, binary)'],
  [[0x1f, 0x8b], 'a packed file (gzip)'],
]

const WORDINGS: readonly (readonly [pattern: RegExp, kind: string])[] = [
  [/^\s*solid\b[^\n]*\n\s*(facet|endsolid)\b/i, 'a mesh (STL)'],
  [/^\s*<(!doctype html|html)\b/i, 'a web page (HTML)'],
  [/^\s*<\?xml\b/i, 'a file in XML'],
  [/^\s*\{\s*"(asset|accessors|buffers|bufferViews|scenes?|nodes|meshes)"\s*:/, 'a mesh (glTF)'],
]

/**
 * What a file is, by its first bytes, where it is of a kind that is easily taken for another.
 *
 * @param head the first bytes of it, `KIND_BYTES` of them or all
 * @returns the kind in words; undefined for plain text and for what is not known
 *
 * Source: the beginnings that the formats define (from memory). A binary STL has none of its own.
 */
export function fileKind(head: Uint8Array): string | undefined {
  const known = BEGINNINGS.find(([beginning]) => beginning.every((byte, i) => head[i] === byte))
  if (known !== undefined) return known[1]
  const text = [...head.subarray(0, KIND_BYTES)].map((byte) => String.fromCharCode(byte)).join('')
  return WORDINGS.find(([pattern]) => pattern.test(text))?.[1]
}
