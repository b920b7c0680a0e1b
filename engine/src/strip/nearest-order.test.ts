import fc from 'fast-check'
import { expect, test } from 'vitest'
import { repaired } from './nearest-order.ts'
import { firstUnmet, type Operation, reachable } from './precedence.ts'

const operations: readonly Operation[] = [
  { id: 'lid', cost: 1, needs: [] },
  { id: 'seal', cost: 1, needs: [['lid']] },
  { id: 'pump', cost: 5, needs: [] },
  { id: 'core', cost: 1, needs: [['seal'], ['pump', 'door']] },
  { id: 'door', cost: 2, needs: [] },
  { id: 'never', cost: 1, needs: [['never']] },
]
const repair = (...written: string[]) => repaired(operations, {}, written)

test('an order that works is left as it is', () => {
  expect(repair('pump', 'lid', 'seal', 'core')).toEqual({
    order: ['pump', 'lid', 'seal', 'core'],
    moved: [],
    added: [],
    dropped: [],
  })
})

test('a step that comes too early waits until it can be done, and nothing else moves', () => {
  expect(repair('core', 'pump', 'lid', 'seal')).toMatchObject({
    order: ['pump', 'lid', 'seal', 'core'],
    moved: ['core'],
  })
})

test('what is lacking is added by the cheapest that will do, and what can never be done is dropped', () => {
  expect(repair('lid', 'seal', 'core', 'never')).toEqual({
    order: ['lid', 'seal', 'door', 'core'],
    moved: [],
    added: ['door'],
    dropped: ['never'],
  })
})

test('whatever is written, what comes back can be done step by step and holds every step that can', () => {
  const ids = ['a', 'b', 'c', 'd', 'e', 'f']
  const clause = fc.subarray(ids, { minLength: 1, maxLength: 3 })
  const needs = fc.array(fc.array(clause, { maxLength: 2 }), { minLength: 6, maxLength: 6 })
  const written = fc.shuffledSubarray(ids, { minLength: 1 })
  let changed = 0
  fc.assert(
    fc.property(needs, written, (own, order) => {
      const all: Operation[] = ids.map((id, i) => ({ id, cost: 1 + i, needs: own[i] ?? [] }))
      const found = repaired(all, {}, order)
      const possible = reachable(all).order
      expect(firstUnmet(all, found.order)).toBeUndefined()
      expect(order.filter((id) => possible.includes(id)).every((id) => found.order.includes(id))).toBe(true)
      expect(found.dropped).toEqual(order.filter((id) => !possible.includes(id)))
      if (firstUnmet(all, order) === undefined) expect(found.order).toEqual(order)
      else changed++
    }),
    { numRuns: 300, seed: 9 },
  )
  expect(changed).toBeGreaterThan(80)
})
