import fc from 'fast-check'
import { getDocument, ImageKind, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { expect, test } from 'vitest'
import { pdfOf } from './pdf.ts'
import { linesOf, type Picture, pngFile } from './png.fixture.ts'
import { printablePng } from './png.ts'

/** Every colour type with every depth that the specification lets it have. */
const KINDS = [
  ...[1, 2, 4, 8, 16].map((depth) => [0, depth, 1] as const),
  ...[8, 16].map((depth) => [2, depth, 3] as const),
  ...[1, 2, 4, 8].map((depth) => [3, depth, 1] as const),
  ...[8, 16].map((depth) => [4, depth, 2] as const),
  ...[8, 16].map((depth) => [6, depth, 4] as const),
]

test.each(KINDS)(
  'a picture of colour type %i with %i bits a sample is printed with every point as it is, interlaced or not, under any filter',
  async (colour, depth, samples) => {
    let compared = 0
    await fc.assert(
      fc.asyncProperty(pictures({ colour, depth, samples }), async (picture) => {
        const seen = await printed(printablePng(pngFile(picture)))
        const due = coloursOf(picture)
        expect(seen).toHaveLength(due.length)
        for (const [i, [red, green, blue, level]] of due.entries()) {
          const [r, g, b, l] = seen[i] as Colour
          // of 16 bits a reader of 8 may round or cut
          const near = depth === 16 ? 1 : 0
          expect(Math.abs(l - level), `level of ${i}`).toBeLessThanOrEqual(near)
          if (level === 0) continue
          for (const [is, was] of [
            [r, red],
            [g, green],
            [b, blue],
          ] as const)
            expect(Math.abs(is - was), `point ${i}`).toBeLessThanOrEqual(near)
          compared++
        }
      }),
      { numRuns: 25 },
    )
    expect(compared).toBeGreaterThan(100)
  },
  60_000,
)

const grey = { width: 3, height: 2, depth: 2, colour: 0, isInterlaced: false, filters: [0] }
const small: Picture = { ...grey, points: [[0], [1], [2], [3], [2], [1]] }

test.each<[string, Uint8Array]>([
  ['whose lines are cut short', pngFile(small, linesOf(small).subarray(0, -1))],
  ['with more lines than it is high', pngFile(small, Buffer.concat([linesOf(small), Buffer.alloc(2)]))],
  ['with a filter that the specification lacks', pngFile({ ...small, filters: [5] })],
  ['with colours of two bits', pngFile({ ...small, colour: 2, points: small.points.map(() => [0, 1, 2]) })],
  ['of a colour type that the specification lacks', pngFile({ ...small, colour: 5 })],
  ['of a palette that is not there', pngFile({ ...small, colour: 3 })],
  ['of no points', pngFile({ ...small, width: 0, points: [] })],
  ['whose file ends within its header', pngFile(small).subarray(0, 20)],
])('a picture %s is none', (_, file) => {
  expect(printablePng(file)).toBeUndefined()
})

test('a picture that the writer reads as it is keeps its bytes', () => {
  const file = pngFile(small)
  expect(printablePng(file)).toBe(file)
})

type Colour = readonly [red: number, green: number, blue: number, level: number]

/** What each point is to look like, by 13.12 to 13.16 of the specification. */
function coloursOf({ depth, colour, points, palette = [], transparency }: Picture): Colour[] {
  const eight = (sample: number): number => Math.round((sample / (2 ** depth - 1)) * 255)
  return points.map((samples): Colour => {
    if (colour === 3) {
      const entry = samples[0] as number
      const [red = 0, green = 0, blue = 0] = palette[entry] ?? []
      return [red, green, blue, transparency?.[entry] ?? 255]
    }
    const hues = colour === 0 || colour === 4 ? samples.slice(0, 1) : samples.slice(0, 3)
    const unseen = hues.flatMap((hue) => [hue >> 8, hue & 255]).join() === transparency?.join()
    const level = colour >= 4 ? eight(samples.at(-1) as number) : unseen ? 0 : 255
    const [red, green = red, blue = red] = hues.map(eight) as [number, number?, number?]
    return [red, green, blue, level]
  })
}

/** Pictures of a kind, of any small size; most with points or entries that are not seen. */
function pictures({ colour, depth, samples }: { colour: number; depth: number; samples: number }) {
  const most = 2 ** depth - 1
  const sample = fc.integer({ min: 0, max: most })
  const byte = fc.integer({ min: 0, max: 255 })
  const size = fc.integer({ min: 1, max: 19 })
  return fc
    .record({ width: size, height: size, isInterlaced: fc.boolean(), isVeiled: fc.boolean() })
    .chain(({ width, height, isInterlaced, isVeiled }) => {
      const count = width * height
      const palette = fc.array(fc.tuple(byte, byte, byte), { minLength: most + 1, maxLength: most + 1 })
      return fc
        .record({
          points: fc.array(fc.array(sample, { minLength: samples, maxLength: samples }), {
            minLength: count,
            maxLength: count,
          }),
          filters: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 5 }),
          palette: colour === 3 ? palette : fc.constant(undefined),
          levels: fc.array(byte, { minLength: 1, maxLength: most + 1 }),
          one: fc.nat(count - 1),
        })
        .map(({ points, filters, palette, levels, one }): Picture => {
          const unseen = (points[one] ?? []).flatMap((hue) => [hue >> 8, hue & 255])
          const veiled = colour === 3 ? levels : colour < 3 ? unseen : undefined
          return {
            ...{ width, height, depth, colour, isInterlaced, points, filters },
            ...(palette && { palette }),
            ...(isVeiled && veiled && { transparency: veiled }),
          }
        })
    })
}

/** The points of a picture as a reader of PDF finds them on the sheet that it is printed on. */
async function printed(png: Uint8Array | undefined): Promise<Colour[]> {
  if (png === undefined) return []
  const marks = [
    { kind: 'photograph', hash: 'p', words: 'p', box: { left: 0, top: 0, right: 50, bottom: 50 } },
  ] as const
  const page = { title: 'p', width: 60, height: 60, missing: [], marks }
  const pdf = await pdfOf([page], { title: 'p', subject: 'p', date: new Date(0) }, new Map([['p', png]]))
  const document = await getDocument({ data: pdf, verbosity: 0, isOffscreenCanvasSupported: false }).promise
  const sheet = await document.getPage(1)
  const { fnArray, argsArray } = await sheet.getOperatorList()
  const id = argsArray[fnArray.indexOf(OPS.paintImageXObject)][0] as string
  const image = await new Promise<Image>((resolve) => sheet.objs.get(id, resolve))
  await document.destroy()
  return pointsOf(image)
}

interface Image {
  width: number
  height: number
  kind: number
  data: Uint8Array
}

function pointsOf({ width, height, kind, data }: Image): Colour[] {
  const step = kind === ImageKind.RGBA_32BPP ? 4 : 3
  return Array.from({ length: width * height }, (_, i): Colour => {
    if (kind === ImageKind.GRAYSCALE_1BPP) {
      const [x, y] = [i % width, Math.floor(i / width)]
      const bit = ((data[y * Math.ceil(width / 8) + (x >> 3)] as number) >> (7 - (x & 7))) & 1
      return [255 * bit, 255 * bit, 255 * bit, 255]
    }
    const [red = 0, green = 0, blue = 0] = data.subarray(step * i, step * i + 3)
    return [red, green, blue, step === 4 ? (data[step * i + 3] as number) : 255]
  })
}
