import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readChanges, tracedReads } from './trace.ts'

type Job = { use: string[]; from: Record<string, { mass: number; note?: string; at: number[] }> }

/** Reads some of its input, and which it reads depends on what it has read. */
function heaviest({ use, from }: Job): number {
  const masses = use.flatMap((id) => (id in from ? [from[id]?.mass ?? 0] : []))
  const most = Math.max(0, ...masses)
  return most > 50 ? most + (from[use[0] ?? '']?.at[0] ?? 0) : most
}

const item = fc.record({ mass: fc.integer({ min: 0, max: 100 }), at: fc.array(fc.integer(), { maxLength: 2 }) })
const job: fc.Arbitrary<Job> = fc.record({
  use: fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 3 }),
  from: fc.dictionary(fc.constantFrom('a', 'b', 'c', 'd'), item),
})

test('while everything that was read is the same, so is the result, whatever else differs', () => {
  let same = 0
  fc.assert(
    fc.property(job, job, (before, after) => {
      const reads = tracedReads(before, heaviest)
      expect(readChanges(reads, before)).toEqual([])
      if (readChanges(reads, after).length > 0) return
      same++
      expect(heaviest(after)).toBe(heaviest(before))
    }),
    { numRuns: 3000 },
  )
  expect(same).toBeGreaterThan(50)
})

test('what is read is noted by its address, and what is not read is not', () => {
  const input = { use: ['a'], from: { a: { mass: 12, note: 'x', at: [1] }, b: { mass: 7, at: [2] } } }
  const reads = tracedReads(input, heaviest)
  const noteChanged = { ...input, from: { ...input.from, a: { mass: 12, note: 'y', at: [3] } } }
  expect(readChanges(reads, noteChanged)).toEqual([])
  const massChanged = { ...input, from: { ...input.from, a: { mass: 13, at: [1] } } }
  expect(readChanges(reads, massChanged)).toEqual([{ address: '/from/a/mass', before: '12', after: '13' }])
})

test('a name more in a collection that was gone through is a change; in one that was only looked into it is none', () => {
  const input = { from: { a: 1, b: 2 } }
  const more = { from: { a: 1, b: 2, c: 3 } }
  expect(
    readChanges(
      tracedReads(input, ({ from }) => Object.keys(from)),
      more,
    ),
  ).toMatchObject([{ address: '/from' }])
  expect(
    readChanges(
      tracedReads(input, ({ from }) => from.a),
      more,
    ),
  ).toEqual([])
})

test('two ways to one thing are held apart when they no longer lead to one', () => {
  const hook = { rated: 100 }
  const reads = tracedReads({ main: hook, tail: hook }, ({ main, tail }) => main.rated + tail.rated)
  expect(readChanges(reads, { main: { rated: 100 }, tail: { rated: 100 } })).toEqual([])
  expect(readChanges(reads, { main: { rated: 100 }, tail: { rated: 90 } })).toMatchObject([{ address: '/tail' }])
})

test('spread, rest, iteration and maps read what they take', () => {
  const input = { list: [1, 2, 3], map: new Map([['a', 1]]), inner: { x: 1, y: 2 } }
  const run = ({ list, map, inner }: typeof input) => {
    const { x: _x, ...rest } = inner
    return [...list].reduce((a, b) => a + b, 0) + (map.get('a') ?? 0) + rest.y
  }
  const reads = tracedReads(input, run)
  expect(readChanges(reads, { ...input, list: [1, 2, 4] })).toMatchObject([{ address: '/list/2' }])
  expect(readChanges(reads, { ...input, list: [1, 2, 3, 4] })).toMatchObject([{ address: '/list/length' }])
  expect(readChanges(reads, { ...input, map: new Map([['a', 2]]) })).toMatchObject([{ address: '/map' }])
  expect(readChanges(reads, { ...input, inner: { x: 1, y: 3 } })).toMatchObject([{ address: '/inner/y' }])
})
