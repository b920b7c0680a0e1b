import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { inflateSync } from 'node:zlib'
import { type Drawing, dimensionsOf, drawing, type Text, text, textsOf } from '@shieldwright/engine/report/drawing.ts'
import { textWidth, type Weight } from '@shieldwright/engine/report/fontWidth.ts'
import type { LiftSheet } from '@shieldwright/engine/report/index.ts'
import { liftSheet, liftSheetPages } from '@shieldwright/engine/report/index.ts'
import { joined } from '@shieldwright/engine/report/rightToLeft.ts'
import { blockOnTwoLegs, stagesOf } from '@shieldwright/engine/report/sheet/sheet.fixture.ts'
import { evaluate } from 'mathjs'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, expect, test } from 'vitest'
import { pdfOf } from './pdf.ts'

const PAPER = { title: 'Block, out of the shaft', subject: 'test', date: new Date('2032-12-09T00:00:00Z') }
const MM = 72 / 25.4

let pages: Drawing[]
let sheet: LiftSheet
let bytes: Uint8Array
/** Words of each page in the order they are written, read back by a PDF library. */
let words: string[][]

beforeAll(async () => {
  const stages = stagesOf(blockOnTwoLegs())
  pages = liftSheetPages(stages, 'block-out', { revision: '3', contentHash: 'abc123' }) as Drawing[]
  sheet = liftSheet(stages, 'block-out') as LiftSheet
  bytes = await pdfOf(pages, PAPER)
  words = await wordsOf(bytes)
})

test('the same drawings and date give the same bytes', async () => {
  expect(Buffer.compare(bytes, await pdfOf(pages, PAPER))).toBe(0)
})

test('every text of the drawings is in the file, readable and in order', () => {
  const plain = (text: string): string => text.replace(/\s/g, '')
  const due = pages.map((page) => textsOf(page.marks).map((t: Text) => plain(t.text)))
  expect(words.map((page) => plain(page.join('')))).toEqual(due.map((page) => page.join('')))
})

test('a line measured in the file is as long as the number printed on it says', () => {
  let measured = 0
  pages.forEach((page, i) => {
    const lines = linesOf(bytes, i)
    for (const { from, to, scale, name, value } of dimensionsOf(page.marks)) {
      const line = lines.find((l) => meets(l.from, from) && meets(l.to, to))
      expect(line, name).toBeDefined()
      const length = Math.hypot(
        (line as Line).to[0] - (line as Line).from[0],
        (line as Line).to[1] - (line as Line).from[1],
      )
      const real = (length * scale) / 1000
      // a thousandth of a millimetre on paper is what the file keeps
      expect(Math.abs(real - value)).toBeLessThan((0.002 * scale) / 1000)
      const number = /(\d+\.\d+)(?!.*\d\.\d)/.exec(name)?.[1]
      if (number !== undefined) {
        expect(Math.abs(Number(number) - real)).toBeLessThan(0.005 + (0.002 * scale) / 1000)
        measured++
      }
    }
  })
  expect(measured).toBeGreaterThan(5)
})

test('from the printed sheet alone the hook load, the tensions and the wind limit come out again', () => {
  const all = words.flat()
  const after = (label: string, skip = 0): number => {
    const end = endOf(label, all)
    expect(end, label).toBeGreaterThan(0)
    return number(all[end + skip] as string)
  }
  const lines = sheet.chain.lines.map((l) => after(l.label))
  expect(lines.reduce((sum, x) => sum + x, 0)).toBeCloseTo(after('load below the hook'), 2)

  // two plumb legs: moments about the other leg, with arms and load as printed
  const load = (after('load below the hook') - after('Spreader')) * 9.80665
  const arms = [after('leg 1, lower end', 1), after('leg 2, lower end', 1)].map(Math.abs) as [number, number]
  const leg = (i: 1 | 2): number => number(all[all.indexOf(`leg ${i}`) + 4] as string)
  expect(leg(1)).toBeCloseTo((load * arms[1]) / (arms[0] + arms[1]), -0.3)
  expect(leg(2)).toBeCloseTo((load * arms[0]) / (arms[0] + arms[1]), -0.3)

  // the wind line with numbers, read as arithmetic
  const line = all.find((w) => w.startsWith('v = √(') && /\d/.test(w) && w.includes(' = ', 4)) as string
  const [, expression, result] = line.split(' = ') as [string, string, string]
  const again = evaluate(expression.replaceAll('√', 'sqrt').replaceAll('·', '*').replaceAll('−', '-')) as number
  expect(again).toBeCloseTo(Number(result), 1)
  expect(after('side load of the piece')).toBeCloseTo(Number(result), 1)
})

test('the file says what it is: title, language, tags', async () => {
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise
  const { info } = await document.getMetadata()
  expect((info as { Title: string }).Title).toBe(PAPER.title)
  expect((await document.getMarkInfo())?.Marked).toBe(true)
  const tree = JSON.stringify(await (await document.getPage(1)).getStructTree())
  expect(tree).toContain('Section along the drive')
})

test('a name from right to left begins at its right end, its letters joined, and a figure after it stands after it', async () => {
  const name = 'لوح'
  const marks = [text([10, 20], `Piece ${name} 12 t`)]
  const page = drawing('names', 100, 50, marks)
  const data = await pdfOf([page], PAPER)
  const document = await getDocument({ data, verbosity: 0 }).promise
  const { items } = await (await document.getPage(1)).getTextContent({ disableNormalization: true })
  const left = (words: RegExp): number => {
    const item = (items as { str: string; transform: number[] }[]).find(({ str }) => words.test(str))
    return (item?.transform[4] ?? Number.NaN) / MM
  }
  const widthOf = (words: string): number => textWidth(words, { size: 2.5, weight: 400, tabular: false })
  expect(left(/Piece/)).toBeCloseTo(10, 2)
  expect(left(/12/)).toBeCloseTo(10 + widthOf(`Piece ${name} `), 2)
  // lam at the beginning, waw at its end, and hah, to which waw does not join
  expect(joined(name).normalize('NFKC')).toBe(name)
  // the library reads what it finds from right to left: letters that were written in that order come out as they are read
  expect((items as { str: string }[]).map(({ str }) => str).join('')).toContain(joined(name))
})

test.each([400, 700] as const)('the engine measures text of weight %i as the font file sets it', (weight: Weight) => {
  const fontkit = createRequire(import.meta.url)('fontkit')
  const font = fontkit.create(
    readFileSync(new URL(`../../../assets/fonts/shieldwright-sans-${weight}.ttf`, import.meta.url)),
  )
  for (const words of [
    'Hook load 627.95 t ≤ 660 t',
    'ΣT·cos β = 6 070.8 kN → √(2·F/ρ)',
    'Größe, Çelik, Ångström',
    'ΑΒΓ αβγ, Щит',
    'לוח כבד',
    joined('اللوح الثقيل'),
  ]) {
    for (const tabular of [false, true]) {
      const set = font.layout(words, tabular ? ['tnum'] : []).advanceWidth / font.unitsPerEm
      expect(textWidth(words, { size: 1, weight, tabular })).toBeCloseTo(set, 9)
    }
  }
})

/** Place after a label, which may run over several lines; zero where it is not printed. */
function endOf(label: string, all: readonly string[]): number {
  for (let at = 0; at < all.length; at++) {
    for (let lines = 1; lines <= 3; lines++) if (all.slice(at, at + lines).join(' ') === label) return at + lines
  }
  return 0
}

const number = (text: string): number =>
  Number(
    text
      .replace(/[\u202f\u00a0 ]/g, '')
      .replace('\u2212', '-')
      .replace(/[^\d.-].*$/, ''),
  )

async function wordsOf(data: Uint8Array): Promise<string[][]> {
  const document = await getDocument({ data: data.slice(), verbosity: 0 }).promise
  return Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const { items } = await (await document.getPage(i + 1)).getTextContent({ disableNormalization: true })
      return stringsOf(items as { str: string; transform: number[]; hasEOL: boolean }[])
    }),
  )
}

/** pdfjs cuts one string where it holds a wide space: pieces that begin where the last ended belong together. */
function stringsOf(items: readonly { str: string; hasEOL: boolean }[]): string[] {
  return items.map((item) => item.str).filter((text) => text.trim() !== '')
}

type Point = readonly [number, number]
interface Line {
  from: Point
  to: Point
}

const meets = (a: Point, b: Point): boolean => Math.abs(a[0] - b[0]) < 0.01 && Math.abs(a[1] - b[1]) < 0.01

/** Straight lines of a page in millimetres from the top left, from the operators of its content stream. */
function linesOf(data: Uint8Array, page: number): Line[] {
  const streams = contentStreams(data)
  const text = streams[page] as string
  const lines: Line[] = []
  let from: Point | undefined
  for (const [, x, y, operator] of text.matchAll(/(-?[\d.]+) (-?[\d.]+) ([ml])\n/g)) {
    const point: Point = [Number(x), Number(y)]
    if (operator === 'l' && from !== undefined) lines.push({ from, to: point })
    from = point
  }
  return lines
}

/** Content streams that scale points to millimetres, in the order of the pages. */
function contentStreams(data: Uint8Array): string[] {
  const file = Buffer.from(data)
  const found: string[] = []
  for (let at = file.indexOf('stream\n'); at >= 0; at = file.indexOf('stream\n', at + 1)) {
    if (file.subarray(at - 3, at).toString() === 'end') continue
    const end = file.indexOf('\nendstream', at)
    try {
      const text = inflateSync(file.subarray(at + 7, end)).toString('latin1')
      if (text.includes(`${MM.toFixed(6).replace(/0+$/, '')} 0 0 ${MM.toFixed(6).replace(/0+$/, '')} 0 0 cm`))
        found.push(text)
    } catch {
      // a stream that is not compressed is no page
    }
  }
  return found
}
