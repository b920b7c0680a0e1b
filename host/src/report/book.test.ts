import { derive, type Stages } from '@shieldwright/engine'
import { type BookIssue, bookPages, bookParts } from '@shieldwright/engine/report/book/index.ts'
import { manyPieces } from '@shieldwright/engine/report/campaign/campaign.fixture.ts'
import { type Drawing, textsOf } from '@shieldwright/engine/report/drawing.ts'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, expect, test } from 'vitest'
import { campaignBook } from './book.ts'

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
}, 60_000)

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
}, 60_000)
