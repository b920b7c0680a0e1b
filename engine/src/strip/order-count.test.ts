import fc from 'fast-check'
import { expect, test } from 'vitest'
import { orderCount, splitsOf } from './order-count.ts'
import { firstUnmet, type Operation } from './precedence.ts'

const ids = ['a', 'b', 'c', 'd', 'e']
const clause = fc.subarray(ids, { minLength: 1, maxLength: 2 })
const operation = fc.record({ needs: fc.array(clause, { maxLength: 2 }) })

test('orders are as many as trying every permutation finds', () => {
  let some = 0
  fc.assert(
    fc.property(fc.tuple(...ids.map(() => operation)), (list) => {
      const operations = list.map((o, i): Operation => ({ id: ids[i] as string, cost: 1, ...o }))
      const due = permutations(ids).filter((order) => firstUnmet(operations, order) === undefined).length
      if (due > 1) some++
      expect(orderCount(operations, 1e6).orders).toBe(BigInt(due))
    }),
    { numRuns: 100 },
  )
  expect(some).toBeGreaterThan(5)
})

const permutations = (list: readonly string[]): string[][] =>
  list.length === 0 ? [[]] : list.flatMap((x) => permutations(list.filter((y) => y !== x)).map((rest) => [x, ...rest]))

test('a count that would take too long is cut short and says so', () => {
  const free = Array.from({ length: 20 }, (_, i): Operation => ({ id: String(i), cost: 1, needs: [] }))
  expect(orderCount(free, 1000).orders).toBeUndefined()
  expect(orderCount(free.slice(0, 8), 1000)).toEqual({ orders: 40320n, sets: 256 })
})

test('a chain of n parts comes apart in Catalan(n − 1) trees; from thirteen parts on nothing is counted', () => {
  const chain = (n: number) =>
    splitsOf(
      n,
      Array.from({ length: n - 1 }, (_, i) => [i, i + 1] as const),
    )
  expect([2, 3, 4, 5, 6].map((n) => chain(n)?.trees)).toEqual([1n, 2n, 5n, 14n, 42n])
  expect(chain(13)).toBeUndefined()
})
