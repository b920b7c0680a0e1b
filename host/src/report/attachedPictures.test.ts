import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { crc32, deflateSync, inflateSync } from 'node:zlib'
import type { Stages } from '@shieldwright/engine'
import { model } from '@shieldwright/engine/model/index.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { expect, test } from 'vitest'
import { pdfOf } from '../paper/pdf.ts'
import { sha256 } from '../sha256.ts'
import { picturesInFolder } from './attachedPictures.ts'

const [WIDTH, HEIGHT] = [11, 9]

/** Red, green and blue of a point, another at every place. */
const colour = (x: number, y: number): number[] => [20 * x, 25 * y, 3 * x + 5 * y]

// Where each point of an eight by eight block comes in turn: the table of the PNG specification, third edition, 8.1.
const TURNS = ['16462646', '77777777', '56565656', '77777777', '36463646', '77777777', '56565656', '77777777']

test('an interlaced PNG is printed with every point in its place', async () => {
  const picture = png(interlaced(), { depth: 8, interlace: 1 })
  const { hash, state, pictures } = await attached(picture)
  expect(state).toBe('printed')
  const box = { left: 5, top: 5, right: 60, bottom: 50 }
  const page = { title: 'a picture', width: 80, height: 60, missing: [] }
  const marks = [{ kind: 'photograph', hash, words: 'colours', box }] as const
  const pdf = await pdfOf([{ ...page, marks }], { title: 't', subject: 's', date: new Date(0) }, pictures)
  expect([...pointsIn(pdf)]).toEqual(lines().flat())
})

test('an interlaced PNG that is cut short, or packs several points in a byte, is not', async () => {
  const short = png(interlaced().subarray(0, -3), { depth: 8, interlace: 1 })
  expect((await attached(short)).state).toBe('not a JPEG or PNG that can be read')
  const packed = png(interlaced(), { depth: 4, interlace: 1 })
  expect((await attached(packed)).state).toBe('not a JPEG or PNG that can be read')
})

async function attached(picture: Uint8Array) {
  const folder = mkdtempSync(join(tmpdir(), 'pictures-'))
  const hash = sha256(picture)
  writeFileSync(join(folder, `${hash}.png`), picture)
  const inspections = { one: { what: 'Raceway', kind: 'bearing', attachments: [{ hash }] } }
  const { model: read } = model({ schemaVersion: 1, about: { title: 'Small' }, inspections }, freshMemory())
  const { files, pictures } = await picturesInFolder({ model: read } as Stages, folder)
  return { hash, state: files.get(hash), pictures }
}

const places = (length: number): number[] => Array.from({ length }, (_, i) => i)

const lines = (): number[][] => places(HEIGHT).map((y) => places(WIDTH).flatMap((x) => colour(x, y)))

/** The points in the turns of the specification, each line of a turn behind a byte that says it is as it stands. */
function interlaced(): Buffer {
  const bytes: number[] = []
  for (const turn of '1234567')
    for (const y of places(HEIGHT)) {
      const line = places(WIDTH).filter((x) => TURNS[y % 8]?.[x % 8] === turn)
      if (line.length > 0) bytes.push(0, ...line.flatMap((x) => colour(x, y)))
    }
  return Buffer.from(bytes)
}

function png(points: Uint8Array, { depth, interlace }: { depth: number; interlace: number }): Uint8Array {
  const chunk = (name: string, data: Uint8Array): Buffer => {
    const named = Buffer.concat([Buffer.from(name), data])
    const [size, sum] = [Buffer.alloc(4), Buffer.alloc(4)]
    size.writeUInt32BE(data.length)
    sum.writeUInt32BE(crc32(named))
    return Buffer.concat([size, named, sum])
  }
  const header = Buffer.alloc(13)
  header.writeUInt32BE(WIDTH, 0)
  header.writeUInt32BE(HEIGHT, 4)
  header.set([depth, 2, 0, 0, interlace], 8)
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(points)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

/** The points of the one picture in a PDF, unpacked. */
function pointsIn(pdf: Uint8Array): Uint8Array {
  const bytes = Buffer.from(pdf)
  const begins = bytes.indexOf('stream', bytes.indexOf('/Subtype /Image')) + 'stream\n'.length
  return inflateSync(bytes.subarray(begins, bytes.indexOf('endstream', begins)))
}
