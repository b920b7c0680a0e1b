import { beforeAll, expect, test } from 'vitest'
import { derive } from './index.ts'
import { longNames } from './names.fixture.ts'
import { bookParts } from './report/book/index.ts'
import { type Drawing, textsOf } from './report/drawing.ts'
import { wordsAstray } from './report/words.fixture.ts'

const ISSUE = { date: '2032-03-05', contentHash: 'abc123', revision: '4' } as const
/** A light piece out, the heaviest back, their rigging, and one of each other kind. */
const SHEETS = [
  ...['lift/crown-out', 'rigging/crown-out', 'lift/head-drive-back', 'rigging/head-drive-back'],
  ...['order', 'site-plan', 'site-sections', 'programme', 'bolt-up'],
]

let names: string[]
let sheets: ReadonlyMap<string, readonly Drawing[]>
beforeAll(() => {
  const { stages } = derive(longNames())
  if (stages === undefined) throw new Error('the demo with long names has no stages')
  names = Object.values(stages.model.project.pieces).map(({ name }) => name)
  const drawn = bookParts(stages, ISSUE).filter(({ id }) => SHEETS.includes(id))
  sheets = new Map(drawn.map(({ id, draw }) => [id, draw()]))
})

test.each(SHEETS)('names of 120 letters, from left and from right: no words meet or leave the border, %s', (id) => {
  const pages = sheets.get(id) ?? []
  expect(pages.length).toBeGreaterThan(0)
  expect(pages.flatMap((page) => wordsAstray(page))).toEqual([])
  expect(pages.flatMap((page) => page.missing)).toEqual([])
})

const wordsOf = (page: Drawing | undefined): string[] => textsOf(page?.marks ?? []).map((t) => t.text)

test('the first page of a lift sheet keeps the whole sum on the hook, whatever the names', () => {
  for (const id of ['lift/crown-out', 'lift/head-drive-back'])
    expect(wordsOf(sheets.get(id)?.[0])).toContain('load below the hook')
})

test('a name that a lift sheet shows short stands whole in its list of names', () => {
  const plain = (words: readonly string[]): string => words.join('').replace(/[\s\u200e]/g, '')
  const words = plain((sheets.get('lift/crown-out') ?? []).flatMap(wordsOf))
  expect(words).toContain('Namesinfull')
  expect(names.some((name) => words.includes(plain([name])))).toBe(true)
})
