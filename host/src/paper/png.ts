import { crc32, deflateSync, inflateSync } from 'node:zlib'

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]

/** Points of the largest picture that is printed. */
const MOST_POINTS = 60_000_000

/** Samples of a point, and bits that one may have, by the colour type of the picture (PNG, third edition, table 8). */
const COLOUR: Readonly<Record<number, { samples: number; depths: readonly number[] }>> = {
  0: { samples: 1, depths: [1, 2, 4, 8, 16] },
  2: { samples: 3, depths: [8, 16] },
  3: { samples: 1, depths: [1, 2, 4, 8] },
  4: { samples: 2, depths: [8, 16] },
  6: { samples: 4, depths: [8, 16] },
}

/** Passes in which the points of a picture lie: first column and line, and from one to the next (8.1). */
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

interface Header {
  width: number
  height: number
  /** Bits of a sample. */
  depth: number
  colour: number
  samples: number
  passes: readonly Pass[]
}

/** A picture as its file has it: filtered lines, pass after pass, unpacked. */
interface Read extends Header {
  palette: Uint8Array
  /** Levels of palette entries, or the one colour that is not seen, 16 bits a sample. */
  transparency: Uint8Array | undefined
  lines: Uint8Array
}

export const isPng = (bytes: Uint8Array): boolean => SIGNATURE.every((b, i) => bytes[i] === b)

/**
 * A PNG as the PDF writer can print it. One that is interlaced, has colours that are not seen, or a palette that only
 * proposes colours, which the writer does not read as the standard has it, is written anew with 8 bits a sample; any other is
 * given back as it is.
 *
 * @returns undefined where not all of its points are there, or it is no picture of the standard
 */
export function printablePng(bytes: Uint8Array): Uint8Array | undefined {
  const picture = read(bytes)
  if (picture === undefined) return undefined
  const isPlain =
    picture.passes[0] === WHOLE &&
    picture.transparency === undefined &&
    (picture.colour === 3 || picture.palette.length === 0)
  return isPlain ? bytes : written(picture)
}

function read(bytes: Uint8Array): Read | undefined {
  if (!isPng(bytes)) return undefined
  const chunks = chunksOf(bytes)
  const named = (name: string): Uint8Array | undefined => chunks.find((chunk) => chunk.name === name)?.data
  const header = headerOf(named('IHDR'))
  const palette = named('PLTE') ?? new Uint8Array()
  if (header === undefined || palette.length % 3 !== 0 || (header.colour === 3 && palette.length === 0))
    return undefined
  const packed = Buffer.concat(chunks.flatMap(({ name, data }) => (name === 'IDAT' ? [data] : [])))
  const lines = unpacked(packed, header)
  return lines && { ...header, palette, transparency: named('tRNS'), lines }
}

function chunksOf(bytes: Uint8Array): { name: string; data: Uint8Array }[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const chunks: { name: string; data: Uint8Array }[] = []
  for (let at = SIGNATURE.length; at + 8 <= bytes.length; ) {
    const size = view.getUint32(at)
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8))
    chunks.push({ name, data: bytes.subarray(at + 8, at + 8 + size) })
    at += 12 + size
  }
  return chunks
}

function headerOf(data: Uint8Array | undefined): Header | undefined {
  if (data?.length !== 13) return undefined
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength)
  const [width, height, depth, colour] = [view.getUint32(0), view.getUint32(4), view.getUint8(8), view.getUint8(9)]
  const passes = [[WHOLE], ADAM7][view.getUint8(12)]
  const { samples, depths } = COLOUR[colour] ?? { samples: 0, depths: [] }
  const points = width * height
  if (!depths.includes(depth) || passes === undefined || points === 0 || points > MOST_POINTS) return undefined
  return { width, height, depth, colour, samples, passes }
}

/** Points across and down of a pass, and bytes of a line of it behind the byte that names its filter; a pass without points has no lines. */
function sizeOf({ width, height, depth, samples }: Header, [x, y, dx, dy]: Pass) {
  const [across, down] = [Math.ceil((width - x) / dx), Math.ceil((height - y) / dy)]
  return across > 0 && down > 0
    ? { across, down, length: Math.ceil((across * depth * samples) / 8) }
    : { across: 0, down: 0, length: 0 }
}

/** Filters are numbered to this (9.2). */
const MOST_FILTER = 4

function unpacked(packed: Uint8Array, header: Header): Uint8Array | undefined {
  const sizes = header.passes.map((pass) => sizeOf(header, pass))
  const due = sizes.reduce((sum, { down, length }) => sum + down * (1 + length), 0)
  try {
    const lines = inflateSync(packed, { maxOutputLength: due })
    return lines.length === due && filtersOf(lines, sizes).every((filter) => filter <= MOST_FILTER) ? lines : undefined
  } catch {
    return undefined
  }
}

function filtersOf(lines: Uint8Array, sizes: readonly { down: number; length: number }[]): number[] {
  let at = 0
  return sizes.flatMap(({ down, length }) =>
    Array.from({ length: down }, () => {
      const filter = lines[at] as number
      at += 1 + length
      return filter
    }),
  )
}

/** The same picture, every point where it is seen: 8 bits a sample, red, green, blue and how far one sees through it. */
function written(picture: Read): Uint8Array {
  const { width, height, depth, samples } = picture
  const colourOf = colours(picture)
  const out = new Uint8Array(height * (1 + 4 * width))
  let at = 0
  for (const pass of picture.passes) {
    const { across, down, length } = sizeOf(picture, pass)
    const [x, y, dx, dy] = pass
    let above = new Uint8Array(length)
    for (let row = 0; row < down; row++) {
      const filtered = picture.lines.subarray(at + 1, at + 1 + length)
      const line = unfiltered(picture.lines[at] as number, filtered, above, Math.max(1, (depth * samples) / 8))
      for (let column = 0; column < across; column++)
        colourOf(line, column, out, (y + row * dy) * (1 + 4 * width) + 1 + 4 * (x + column * dx))
      above = line
      at += 1 + length
    }
  }
  return pngOf(width, height, out)
}

/** A line without its filter (9.2 to 9.4): each byte was written as its difference from the one to the left, above, or both. */
function unfiltered(filter: number, filtered: Uint8Array, above: Uint8Array, step: number): Uint8Array<ArrayBuffer> {
  const line = new Uint8Array(filtered.length)
  for (let i = 0; i < line.length; i++) {
    const left = i < step ? 0 : (line[i - step] as number)
    const corner = i < step ? 0 : (above[i - step] as number)
    line[i] = (filtered[i] as number) + predicted(filter, left, above[i] as number, corner)
  }
  return line
}

function predicted(filter: number, left: number, above: number, corner: number): number {
  if (filter === 1) return left
  if (filter === 2) return above
  if (filter === 3) return (left + above) >> 1
  return filter === 4 ? nearest(left, above, corner) : 0
}

/** Of the three the nearest to left + above − corner, the first of equals. */
function nearest(left: number, above: number, corner: number): number {
  const [toLeft, toAbove] = [Math.abs(above - corner), Math.abs(left - corner)]
  const toCorner = Math.abs(left + above - 2 * corner)
  if (toLeft <= toAbove && toLeft <= toCorner) return left
  return toAbove <= toCorner ? above : corner
}

type ColourOf = (line: Uint8Array, column: number, out: Uint8Array, at: number) => void

/** Writes the colour of a point of a line as four bytes. */
function colours(picture: Read): ColourOf {
  return picture.colour === 3 ? paletteColours(picture) : sampledColours(picture)
}

function paletteColours({ depth, palette, transparency }: Read): ColourOf {
  return (line, column, out, at) => {
    const entry = sampleAt(line, column, depth)
    for (let i = 0; i < 3; i++) out[at + i] = palette[3 * entry + i] ?? 0
    out[at + 3] = transparency?.[entry] ?? 255
  }
}

function sampledColours({ depth, samples, transparency }: Read): ColourOf {
  const most = 2 ** depth - 1
  const [hues, hasLevel] = [samples < 3 ? 1 : 3, samples % 2 === 0]
  const unseen = transparency && Array.from({ length: hues }, (_, i) => sampleAt(transparency, i, 16))
  return (line, column, out, at) => {
    let isUnseen = unseen !== undefined
    for (let i = 0; i < 3; i++) {
      const sample = sampleAt(line, column * samples + Math.min(i, hues - 1), depth)
      out[at + i] = Math.round((sample * 255) / most)
      isUnseen &&= sample === unseen?.[Math.min(i, hues - 1)]
    }
    const level = hasLevel ? sampleAt(line, column * samples + hues, depth) : isUnseen ? 0 : most
    out[at + 3] = Math.round((level * 255) / most)
  }
}

function sampleAt(line: Uint8Array, place: number, depth: number): number {
  if (depth === 8) return line[place] as number
  if (depth === 16) return ((line[2 * place] as number) << 8) | (line[2 * place + 1] as number)
  const bit = place * depth
  return ((line[bit >> 3] as number) >> (8 - depth - (bit & 7))) & (2 ** depth - 1)
}

/** A file of unfiltered lines, four bytes a point. */
function pngOf(width: number, height: number, lines: Uint8Array): Uint8Array {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([8, 6, 0, 0, 0], 8)
  return Buffer.concat([
    Buffer.from(SIGNATURE),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(lines)),
    chunk('IEND', new Uint8Array()),
  ])
}

function chunk(name: string, data: Uint8Array): Buffer {
  const named = Buffer.concat([Buffer.from(name), data])
  const [size, sum] = [Buffer.alloc(4), Buffer.alloc(4)]
  size.writeUInt32BE(data.length)
  sum.writeUInt32BE(crc32(named))
  return Buffer.concat([size, named, sum])
}
