import { expect, test } from 'vitest'
import type { ActivityView } from '../engine/protocol.ts'
import { countsOf, type ListWish, rowsOf } from './activityList.ts'

const activity = (id: string, more: Partial<ActivityView> = {}): ActivityView => ({
  id,
  name: `Work ${id}`,
  phase: 'strip',
  start: 0,
  finish: 1,
  earlyFinish: 1,
  totalFloat: 0,
  critical: false,
  planFloat: 10 * 86_400,
  drives: false,
  waitsFor: undefined,
  promised: undefined,
  asked: [],
  needs: '',
  from: [],
  lift: undefined,
  holdPoint: undefined,
  ...more,
})

const wish = (more: Partial<ListWish> = {}): ListWish => ({
  order: 'phase',
  only: 'all',
  words: '',
  folded: new Set(),
  ...more,
})
const ids = (rows: ReturnType<typeof rowsOf>): string[] =>
  rows.map((r) => (r.kind === 'phase' ? `${r.phase} ${r.count}` : r.activity.id))

const all = [
  activity('A', { drives: true, planFloat: 0 }),
  activity('B', { phase: 'repair', planFloat: 2 * 86_400, holdPoint: 'weld release' }),
  activity('C', { finish: 9e8, promised: 1e8 }),
]

test('phases stand in the order in which they begin, with their counts, and in each what is late comes first', () => {
  expect(ids(rowsOf(all, wish()))).toEqual(['strip 2', 'C', 'A', 'repair 1', 'B'])
})

test('by float the tightest comes first, without phases', () => {
  expect(ids(rowsOf(all, wish({ order: 'float' })))).toEqual(['A', 'B', 'C'])
})

test('words find name, id, resource and hold point, also in a folded phase', () => {
  expect(ids(rowsOf(all, wish({ words: 'WELD release', folded: new Set(['repair']) })))).toEqual(['repair 1', 'B'])
  expect(ids(rowsOf(all, wish({ folded: new Set(['repair']) })))).toEqual(['strip 2', 'C', 'A', 'repair 1'])
})

test('each choice counts what it would show', () => {
  expect(countsOf(all)).toEqual({ all: 3, drives: 1, near: 2, late: 1, asked: 0 })
})
