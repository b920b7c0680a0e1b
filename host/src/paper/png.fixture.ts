import { crc32, deflateSync } from 'node:zlib'

/** A picture of the PNG specification, third edition, to be written as a file. */
export interface Picture {
  width: number
  height: number
  /** Bits of a sample. */
  depth: number
  /** Colour type: 0 grey, 2 colours, 3 palette, 4 grey and level, 6 colours and level. */
  colour: number
  isInterlaced: boolean
  /** Samples of each point, line after line. */
  points: readonly (readonly number[])[]
  /** Filters of the lines of a pass, over and over. */
  filters: readonly number[]
  palette?: readonly (readonly number[])[]
  /** The data of tRNS. */
  transparency?: readonly number[]
}

// Where each point of an eight by eight block comes in turn: the table of 8.1.
const TURNS = ['16462646', '77777777', '56565656', '77777777', '36463646', '77777777', '56565656', '77777777']

/** The lines of a picture, filtered, pass after pass. */
export function linesOf(picture: Picture): Buffer {
  const { width, height, depth, isInterlaced, points, filters } = picture
  const step = Math.max(1, (depth * (points[0]?.length ?? 0)) / 8)
  const out: number[] = []
  for (const turn of isInterlaced ? '1234567' : '0') {
    let above: number[] | undefined
    let row = 0
    for (const y of places(height)) {
      const columns = places(width).filter((x) => !isInterlaced || TURNS[y % 8]?.[x % 8] === turn)
      if (columns.length === 0) continue
      const line = packed(
        columns.flatMap((x) => points[y * width + x] ?? []),
        depth,
      )
      const filter = filters[row++ % filters.length] as number
      out.push(filter, ...filtered(filter, line, above ?? line.map(() => 0), step))
      above = line
    }
  }
  return Buffer.from(out)
}

const places = (length: number): number[] => Array.from({ length }, (_, i) => i)

/** Samples one after the other from the high bit on; the last byte is filled with zeros (7.2). */
function packed(samples: readonly number[], depth: number): number[] {
  const bits = samples.map((sample) => sample.toString(2).padStart(depth, '0')).join('')
  return (bits.match(/.{1,8}/g) ?? []).map((byte) => Number.parseInt(byte.padEnd(8, '0'), 2))
}

/** A line under a filter (9.2): a the byte to the left, b above, c above to the left. */
const filtered = (filter: number, line: readonly number[], above: readonly number[], step: number): number[] =>
  line.map((byte, i) => {
    const [a, b, c] = [line[i - step] ?? 0, above[i] ?? 0, above[i - step] ?? 0]
    return (byte - ([0, a, b, Math.floor((a + b) / 2), paeth(a, b, c)][filter] ?? 0)) & 255
  })

/** The predictor of 9.4. */
function paeth(a: number, b: number, c: number): number {
  const distances = [a, b, c].map((value) => Math.abs(a + b - c - value))
  return [a, b, c][distances.indexOf(Math.min(...distances))] as number
}

/** A picture as a file; other lines may take the place of its own. */
export function pngFile(picture: Picture, lines: Uint8Array = linesOf(picture)): Uint8Array {
  const { width, height, depth, colour, isInterlaced, palette, transparency } = picture
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([depth, colour, 0, 0, isInterlaced ? 1 : 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    ...(palette === undefined ? [] : [chunk('PLTE', Buffer.from(palette.flat()))]),
    ...(transparency === undefined ? [] : [chunk('tRNS', Buffer.from(transparency))]),
    chunk('IDAT', deflateSync(lines)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function chunk(name: string, data: Uint8Array): Buffer {
  const named = Buffer.concat([Buffer.from(name), data])
  const [size, sum] = [Buffer.alloc(4), Buffer.alloc(4)]
  size.writeUInt32BE(data.length)
  sum.writeUInt32BE(crc32(named))
  return Buffer.concat([size, named, sum])
}
