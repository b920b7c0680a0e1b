import fc from 'fast-check'
import { expect, test } from 'vitest'
import { isIssueLetter, lastLetter, letterAfter } from './issueLetter.ts'

test.each([
  [undefined, 'A'],
  ['A', 'B'],
  ['Z', 'AA'],
  ['AZ', 'BA'],
  ['ZY', 'ZZ'],
  ['ZZ', undefined],
])('after %s comes %s', (last, next) => {
  expect(letterAfter(last)).toBe(next)
})

test('each issue has a letter of its own, and in whatever order they are kept the last one is known', () => {
  const all: string[] = []
  for (let next = letterAfter(undefined); next !== undefined; next = letterAfter(next)) all.push(next)
  expect(all).toHaveLength(26 + 26 * 26)
  expect(new Set(all).size).toBe(all.length)
  expect(all.every(isIssueLetter)).toBe(true)
  fc.assert(
    fc.property(fc.nat(all.length - 1), fc.infiniteStream(fc.nat()), (count, luck) => {
      const gone = all.slice(0, count + 1)
      const shuffled = gone.map((letter) => ({ letter, at: luck.next().value })).sort((a, b) => a.at - b.at)
      expect(lastLetter(shuffled.map(({ letter }) => letter))).toBe(all[count])
    }),
    { numRuns: 60 },
  )
})
