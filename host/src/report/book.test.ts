import { derive, type Stages } from '@shieldwright/engine'
import { type BookIssue, bookPages, bookParts } from '@shieldwright/engine/report/book/index.ts'
import { manyPieces } from '@shieldwright/engine/report/campaign/campaign.fixture.ts'
import { everyRecord } from '@shieldwright/engine/report/dossier/dossier.fixture.ts'
import { type Drawing, textsOf } from '@shieldwright/engine/report/drawing.ts'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, describe, expect, test } from 'vitest'
import { type Book, type BookAsk, campaignBook } from './book.ts'
import type { Issue } from './liftSheet.ts'

const issue: BookIssue = {
  date: '2031-11-03',
  contentHash: 'a'.repeat(64),
  revision: '7',
  units: 'SI',
  project: 'Block',
  notice: '',
  letter: 'B',
  since: 'A',
}

const staged = (mass: string): Stages => {
  const document = manyPieces({ count: 2, years: 1 }) as { parts: Record<string, { mass: { value: string } }> }
  if (document.parts.PART1 !== undefined) document.parts.PART1.mass.value = mass
  return derive(document).stages as Stages
}

let now: Stages
let lighter: Stages
beforeAll(() => {
  now = staged('31 t')
  lighter = staged('29 t')
})

function made(before: Stages | undefined): { pages: Drawing[]; steps: { done: number; of: number }[] } {
  const { since, ...first } = issue
  const making = bookPages(
    bookParts(now, issue),
    before && bookParts(before, issue),
    before === undefined ? first : { ...first, since: since as string },
  )
  const steps: { done: number; of: number }[] = []
  for (;;) {
    const step = making.next()
    if (step.done) return { pages: step.value, steps }
    steps.push(step.value)
  }
}

const numbersOf = (pages: readonly Drawing[]): string[] =>
  pages.flatMap(({ marks }) => textsOf(marks).flatMap((t) => /issue B · sheet (\d+ of \d+)$/.exec(t.text)?.[1] ?? []))
const wordsOf = (pages: readonly Drawing[]): string =>
  pages.flatMap(({ marks }) => textsOf(marks).map((t) => t.text)).join(' | ')
const barsOf = ({ marks }: Drawing): number => marks.filter((m) => m.kind === 'line' && m.stroke.ink === 'now').length

test('every sheet has its number, one after another, and how far the making is rises to the last document', () => {
  const { pages, steps } = made(undefined)
  const numbers = numbersOf(pages)
  expect(numbers).toEqual(numbers.map((_, i) => `${i + 1} of ${numbers.length}`))
  expect(numbers.length).toBeGreaterThan(8)
  expect(steps.map((s) => s.done)).toEqual(steps.map((_, i) => i))
  expect(pages.reduce((sum, page) => sum + barsOf(page), 0)).toBe(0)
  expect(wordsOf(pages)).toContain('first issue')
})

test('of the same project nothing has changed and nothing is marked', () => {
  const { pages } = made(now)
  expect(pages.reduce((sum, page) => sum + barsOf(page), 0)).toBe(0)
  expect(wordsOf(pages)).toContain('Nothing: every sheet says what it said.')
})

test('a mass that grew marks the sheets of its own lifts, not those of the other piece, and the list says from what to what', () => {
  const { pages } = made(lighter)
  const marked = pages.filter((page) => barsOf(page) > 0).map((page) => page.title)
  expect(marked.some((title) => /Piece number 1 /.test(title))).toBe(true)
  expect(marked.filter((title) => /Piece number 0 /.test(title))).toEqual([])
  for (const page of pages)
    for (const mark of page.marks)
      if (mark.kind === 'line' && mark.stroke.ink === 'now')
        for (const [x, y] of mark.points) {
          expect(x).toBeLessThan(10)
          expect(y > 0 && y < page.height).toBe(true)
        }
  expect(wordsOf(pages)).toMatch(/was: .*29/)
  expect(wordsOf(pages)).toMatch(/now: .*31/)
})

test('as PDF it has a page for each sheet; it can be ended between two documents', async () => {
  const ask = {
    stages: now,
    before: lighter,
    issue: { ...issue, units: 'SI' as const, date: '2031-11-03', contentHash: 'a'.repeat(64) },
  }
  const asked = { ...ask, letter: 'B', since: 'A', runs: 50, seed: 1 }
  const book = await campaignBook(asked)
  const pdf = await getDocument({ data: new Uint8Array(book?.pdf ?? []), verbosity: 0 }).promise
  expect(pdf.numPages).toBe(book?.pages)
  let told = 0
  const ended = await campaignBook({ ...asked, onStep: () => told++, shouldContinue: () => told < 3 })
  expect([ended, told]).toEqual([undefined, 3])
})

describe('the commissioning dossier', () => {
  /** Two pieces, with an opened part whose flatness was read, and a punch item. */
  const recorded = (flatness: number): Stages => {
    const { inspections, punchList } = everyRecord() as { inspections: { seat: object }; punchList: object }
    const [limit, reading] = [{ atMost: 0.2 }, { value: flatness, by: 'surveyor', on: '2031-01-07' }]
    const flat = { what: 'Flatness', unit: 'mm', limit, from: 'drawing', readings: { r1: reading } }
    const seat = { ...inspections.seat, measures: { flat } }
    const document = { ...(manyPieces({ count: 2, years: 1 }) as object), inspections: { seat }, punchList }
    return derive(document).stages as Stages
  }
  const { date, contentHash, revision, letter } = issue
  const book = (ask: Partial<BookAsk>) =>
    campaignBook({
      stages: now,
      issue: { date, contentHash, revision, units: 'SI' } as Issue,
      letter,
      runs: 50,
      seed: 1,
      ...ask,
    })

  let made: ReadBook
  beforeAll(async () => {
    made = await readBook(await book({ stages: recorded(0.12) }))
  })

  test('is the last chapter; a project without records has none', async () => {
    const { pages, chapters } = made
    const { title, page: first } = chapters.at(-1) as Chapter
    expect(title).toBe('Commissioning dossier')
    const dossier = pages.slice(first).map((page) => page.join(' '))
    expect(dossier.every((page) => page.includes('Commissioning dossier'))).toBe(true)
    expect(dossier[0]).toContain('Seat of the lid')
    const without = await readBook(await book({}))
    expect(without.chapters.map((chapter) => chapter.title)).not.toContain('Commissioning dossier')
  })

  test('and every chapter before it begins at the sheet that the contents name, and has a bookmark there', () => {
    const { pages, chapters } = made
    const [contents, ...bound] = chapters
    expect(contents).toEqual({ title: 'Contents', page: 0 })
    const listed = pages
      .slice(0, bound[0]?.page)
      .flat()
      .join('|')
      .matchAll(/(\d+)(?: to \d+)?\|([^|]+)\|first issue/g)
    const numberOn = (page: readonly string[] = []) => /sheet (\d+) of/.exec(page.join(' '))?.[1]
    expect(bound.map(({ title, page }) => [numberOn(pages[page]), title])).toEqual(
      [...listed].map(([, sheet, title]) => [sheet, title]),
    )
    expect(bound.length).toBeGreaterThan(8)
  })

  test('is marked where a reading was taken again, and the list says from what to what', async () => {
    const ask = { stages: recorded(0.14), before: recorded(0.12), since: 'issue A' }
    const { pages } = await readBook(await book(ask))
    expect(pages.flat().join(' ')).toMatch(/Commissioning dossier: changed was: .*0\.12.* now: .*0\.14/)
  })
})

interface Chapter {
  title: string
  /** From 0. */
  page: number
}

/** A book as a reader of PDF has it: the words of each page, and its bookmarks. */
interface ReadBook {
  pages: string[][]
  chapters: Chapter[]
}

async function readBook(book: Book | undefined): Promise<ReadBook> {
  const pdf = await getDocument({ data: new Uint8Array(book?.pdf ?? []), verbosity: 0 }).promise
  const pages: string[][] = []
  for (let number = 1; number <= pdf.numPages; number++) {
    const { items } = await (await pdf.getPage(number)).getTextContent()
    pages.push(items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item.str.trim()] : [])))
  }
  const chapters: Chapter[] = []
  for (const { title, dest } of await pdf.getOutline())
    chapters.push({ title, page: await pdf.getPageIndex((dest as [{ num: number; gen: number }])[0]) })
  return { pages, chapters }
}
