import { inflateRawSync } from 'node:zlib'

/** One file in an archive. */
export interface ZipEntry {
  name: string
  bytes: Uint8Array
}

export interface ZipBounds {
  /** Files, and bytes of all of them once unpacked. */
  entries: number
  bytes: number
}

/** What is wrong with an archive. */
export type ZipFault = 'no archive' | 'too many files' | 'too large unpacked' | 'broken'

const END = 0x06054b50
const CENTRAL = 0x02014b50
const LOCAL = 0x04034b50
const END_SIZE = 22
const LONGEST_COMMENT = 65_535

/**
 * Unpacks an archive within bounds that its own words are not trusted for: what unpacks to more is given up where it passes
 * them. Layout: ZIP application note 6.3, sections 4.3.7, 4.3.12 and 4.3.16 (from memory).
 */
export function unzipped(file: Uint8Array, bounds: ZipBounds): { entries: ZipEntry[] } | { fault: ZipFault } {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength)
  const end = endOf(view)
  if (end === undefined) return { fault: 'no archive' }
  const count = view.getUint16(end + 10, true)
  if (count > bounds.entries) return { fault: 'too many files' }
  const entries: ZipEntry[] = []
  let at = view.getUint32(end + 16, true)
  let left = bounds.bytes
  try {
    for (let i = 0; i < count; i++) {
      if (view.getUint32(at, true) !== CENTRAL) return { fault: 'broken' }
      const entry = entryAt(file, view, at, left)
      if (typeof entry === 'string') return { fault: entry }
      left -= entry.bytes.length
      entries.push(entry)
      at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true)
    }
  } catch (error) {
    if (error instanceof RangeError) return { fault: 'broken' }
    throw error
  }
  return { entries }
}

function endOf(view: DataView): number | undefined {
  const last = view.byteLength - END_SIZE
  for (let at = last; at >= Math.max(0, last - LONGEST_COMMENT); at--) if (view.getUint32(at, true) === END) return at
  return undefined
}

const STORED = 0
const DEFLATED = 8

function entryAt(file: Uint8Array, view: DataView, at: number, left: number): ZipEntry | ZipFault {
  const method = view.getUint16(at + 10, true)
  const size = view.getUint32(at + 20, true)
  const local = view.getUint32(at + 42, true)
  const name = new TextDecoder().decode(file.subarray(at + 46, at + 46 + view.getUint16(at + 28, true)))
  if (view.getUint32(local, true) !== LOCAL) return 'broken'
  const begin = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true)
  const packed = file.subarray(begin, begin + size)
  if (packed.length < size) return 'broken'
  if (method === STORED) return size > left ? 'too large unpacked' : { name, bytes: packed }
  if (method !== DEFLATED) return 'broken'
  return inflated(name, packed, left)
}

function inflated(name: string, packed: Uint8Array, left: number): ZipEntry | ZipFault {
  try {
    return { name, bytes: inflateRawSync(packed, { maxOutputLength: Math.max(1, left) }) }
  } catch (error) {
    return (error as { code?: string }).code === 'ERR_BUFFER_TOO_LARGE' ? 'too large unpacked' : 'broken'
  }
}

/** The archive without the times at which its files were made: first day that the format knows. */
export function withoutTimes(file: Uint8Array): Uint8Array {
  const copy = Uint8Array.from(file)
  const view = new DataView(copy.buffer)
  const end = endOf(view)
  if (end === undefined) return copy
  let at = view.getUint32(end + 16, true)
  for (let i = view.getUint16(end + 10, true); i > 0; i--) {
    view.setUint32(at + 12, FIRST_DAY, true)
    view.setUint32(view.getUint32(at + 42, true) + 10, FIRST_DAY, true)
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true)
  }
  return copy
}

/** 1980-01-01, midnight. */
const FIRST_DAY = 0x00210000
