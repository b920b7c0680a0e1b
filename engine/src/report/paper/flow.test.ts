import { expect, test } from 'vitest'
import { textsOf } from '../drawing.ts'
import { pour } from './flow.ts'
import { headingRow, proseRows, type Row, tableRows } from './rows.ts'

const columns = [
  { left: 0, top: 0, right: 60, bottom: 40 },
  { left: 70, top: 0, right: 130, bottom: 40 },
]
const plain = (words: string, height = 10): Row => ({
  height,
  marks: ([x, y]) => textsOf(proseRows(words, 50).flatMap((r) => r.marks([x, y]))),
})

test('what does not fit goes on in the next column, then on the next page, in order', () => {
  const pages = pour(
    ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i'].map((w) => plain(w)),
    columns,
  )
  expect(pages.map((marks) => textsOf(marks).map((t) => t.text))).toEqual([
    ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'],
    ['i'],
  ])
  expect(textsOf(pages[0] ?? [])[4]?.at[0]).toBe(70)
})

test('a heading is never left alone at the foot of a column', () => {
  const pages = pour([plain('first', 30), headingRow('Wind', 60), plain('gust')], columns)
  const heading = textsOf(pages[0] ?? []).find((t) => t.text === 'Wind')
  expect(heading?.at[0]).toBe(70)
})

test('a table that runs on has its head again', () => {
  const rows = tableRows(
    [{ title: 'Line', share: 1 }],
    Array.from({ length: 14 }, (_, i) => ({ cells: [`row ${i}`] })),
    60,
  )
  const words = textsOf(pour(rows, columns)[0] ?? []).map((t) => t.text)
  expect(words.filter((w) => w === 'Line')).toHaveLength(2)
  expect(words.filter((w) => w.startsWith('row'))).toHaveLength(14)
})

test('a row that leaves the first page begins the second, where the columns may be others', () => {
  const later = [{ left: 5, top: 8, right: 120, bottom: 40 }]
  const pages = pour([plain('day'), { ...plain('numbers'), leavesFirst: true }, plain('more')], columns, later)
  expect(pages.map((marks) => textsOf(marks).map((t) => t.text))).toEqual([['day'], ['numbers', 'more']])
  expect(textsOf(pages[1] ?? [])[0]?.at[0]).toBe(5)
})
