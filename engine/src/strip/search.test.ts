import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { firstUnmet, type Operation, openWay, reachable } from './precedence.ts'
import { cheapestOrder } from './search.ts'

const FREE = 1_000_000

/** Least cost over every set of operations that can be done in some order and reaches the target. */
function cheapestByAllSets(operations: readonly Operation[], items: Record<string, number>, target: string): number {
  let best = Number.POSITIVE_INFINITY
  for (let mask = 0; mask < 1 << operations.length; mask++) {
    const chosen = operations.filter((_, i) => mask & (1 << i))
    if (!chosen.some(({ id }) => id === target) || reachable(chosen).stuck.length > 0) continue
    const opened = new Set(chosen.flatMap((o) => o.opens ?? []))
    const cost = chosen.reduce((sum, o) => sum + o.cost, 0) + [...opened].reduce((sum, i) => sum + (items[i] ?? 0), 0)
    best = Math.min(best, cost)
  }
  return best
}

const ids = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 't']
const clause = fc.uniqueArray(fc.constantFrom(...ids), { minLength: 1, maxLength: 3 })
const operation = fc.record({
  cost: fc.integer({ min: 0, max: 9 }),
  opens: fc.uniqueArray(fc.constantFrom('x', 'y', 'z'), { maxLength: 2 }),
  needs: fc.array(clause, { maxLength: 2 }),
  ways: fc.option(fc.array(fc.array(clause, { maxLength: 2 }), { minLength: 1, maxLength: 2 }), { nil: undefined }),
})
const world = fc.tuple(
  ...ids.map((id) => operation.map(({ ways, ...o }): Operation => ({ id, ...o, ...(ways ? { ways } : {}) }))),
)
const ITEMS = { x: 5, y: 3, z: 1 }

test('the search finds the least cost that trying every set finds, proves it, and gives an order that can be done', () => {
  let feasible = 0
  fc.assert(
    fc.property(world, (operations) => {
      const found = cheapestOrder({ operations, items: ITEMS, targets: [['t']], effort: FREE })
      const due = cheapestByAllSets(operations, ITEMS, 't')
      expect(found.feasible).toBe(Number.isFinite(due))
      if (!found.feasible) return
      feasible++
      expect(found.cost).toBe(due)
      expect(found.proven).toBe(true)
      expect(firstUnmet(operations, found.order)).toBeUndefined()
    }),
    { numRuns: 150 },
  )
  expect(feasible).toBeGreaterThan(30)
})

test('with little effort the answer is still an order that can be done, and the bound stays below the least cost', () => {
  fc.assert(
    fc.property(world, fc.integer({ min: 0, max: 4 }), (operations, effort) => {
      const found = cheapestOrder({ operations, items: ITEMS, targets: [['t']], effort })
      if (!found.feasible) return
      const due = cheapestByAllSets(operations, ITEMS, 't')
      expect(found.bound).toBeLessThanOrEqual(due + 1e-9)
      expect(found.cost).toBeGreaterThanOrEqual(due - 1e-9)
      expect(firstUnmet(operations, found.order)).toBeUndefined()
      if (found.proven) expect(found.cost).toBe(due)
    }),
    { numRuns: 60 },
  )
})

test('the order of the list and the names do not change the cost', () => {
  fc.assert(
    fc.property(world, fc.shuffledSubarray([...ids], { minLength: 10 }), (operations, shuffled) => {
      const rename = (id: string) => `n-${9 - ids.indexOf(id)}`
      const renamed = operations.map(
        (o): Operation => ({
          ...o,
          id: rename(o.id),
          needs: o.needs.map((c) => c.map(rename)),
          ...(o.ways ? { ways: o.ways.map((w) => w.map((c) => c.map(rename))) } : {}),
        }),
      )
      const mixed = shuffled.map((id) => renamed[ids.indexOf(id)] as Operation)
      const one = cheapestOrder({ operations, items: ITEMS, targets: [['t']], effort: FREE })
      const two = cheapestOrder({ operations: mixed, items: ITEMS, targets: [[rename('t')]], effort: FREE })
      expect(two.cost).toBe(one.cost)
    }),
    { numRuns: 60 },
  )
})

test('two parts that need each other first are named, and nothing is promised', () => {
  const operations: Operation[] = [
    { id: 'a', cost: 1, needs: [['b']] },
    { id: 'b', cost: 1, needs: [['a']] },
    { id: 't', cost: 1, needs: [['a']] },
  ]
  const found = cheapestOrder({ operations, targets: [['t']], effort: FREE })
  expect(found.feasible).toBe(false)
  expect(found.stuck).toEqual([
    { id: 'a', unmet: [['b']] },
    { id: 'b', unmet: [['a']] },
    { id: 't', unmet: [['a']] },
  ])
})

test('a step taken too early is named with the clause that is not met', () => {
  const operations: Operation[] = [
    { id: 'lid', cost: 1, needs: [] },
    { id: 'core', cost: 1, needs: [['lid', 'floor']] },
  ]
  expect(firstUnmet(operations, ['core', 'lid'])).toEqual({ step: 0, id: 'core', unmet: [['lid', 'floor']] })
  expect(firstUnmet(operations, ['lid', 'core'])).toBeUndefined()
  expect(openWay(operations[1] as Operation, new Set(['lid']))).toBe(0)
})

test('a search that is told to stop says that nothing is proven', () => {
  // Two of three have to be taken; each pays half of the two clauses that it is in, which comes to one and a half.
  const operations: Operation[] = [
    ...['a', 'b', 'c'].map((id) => ({ id, cost: 2, needs: [] })),
    { id: 's', cost: 1, needs: [['a', 'b']] },
    { id: 't', cost: 1, needs: [['a', 'c']] },
    { id: 'u', cost: 1, needs: [['b', 'c']] },
  ]
  const targets = [['s'], ['t'], ['u']]
  const stopped = cheapestOrder({ operations, targets, effort: FREE, shouldContinue: () => false })
  expect(stopped).toMatchObject({ feasible: true, proven: false, bound: 6 })
  expect(cheapestOrder({ operations, targets, effort: FREE })).toMatchObject({ cost: 7, bound: 7, proven: true })
})

describe('like operations', () => {
  const alike = (n: number): Operation[] => [
    ...Array.from({ length: n }, (_, i) => ({ id: `bolt-${i}`, cost: 2, needs: [], opens: [`j${i}`] })),
    { id: 'cap', cost: 3, needs: [] },
    {
      id: 'core',
      cost: 1,
      needs: Array.from({ length: n }, (_, i) => [`bolt-${i}`, 'cap']),
    },
  ]
  const items = Object.fromEntries(Array.from({ length: 14 }, (_, i) => [`j${i}`, 0.1]))

  test('are taken in one order only: fourteen that may be taken or left come to few states', () => {
    const found = cheapestOrder({ operations: alike(14), items, targets: [['core']], effort: 1e5 })
    expect(found).toMatchObject({ feasible: true, cost: 4, proven: true })
    expect(found.looked).toBeLessThan(40)
  })

  test('cost what they cost when each is tried: breaking the symmetry loses no solution', () => {
    const clause = fc.subarray(['a', 'b', 'c', 'd'], { minLength: 1, maxLength: 4 })
    fc.assert(
      fc.property(fc.array(clause, { minLength: 1, maxLength: 3 }), fc.array(clause, { maxLength: 2 }), (core, lid) => {
        const operations: Operation[] = [
          ...['a', 'b', 'c', 'd'].map((id) => ({ id, cost: 2, needs: [] })),
          { id: 'lid', cost: 1, needs: lid },
          { id: 'core', cost: 1, needs: [...core, ['lid']] },
        ]
        const found = cheapestOrder({ operations, targets: [['core']], effort: 1e5 })
        const sets = Array.from({ length: 16 }, (_, bits) => ['a', 'b', 'c', 'd'].filter((_, k) => bits & (1 << k)))
        const meets = (set: string[]) => [...core, ...lid].every((c) => c.some((id) => set.includes(id)))
        expect(found.cost).toBe(2 + Math.min(...sets.filter(meets).map((set) => 2 * set.length)))
        expect(found.proven).toBe(true)
      }),
      { numRuns: 200, seed: 5 },
    )
  })

  test('the search tells how far it is, and its best never rises nor its bound falls', () => {
    const told: { cost: number; bound: number }[] = []
    cheapestOrder({
      operations: alike(6),
      items,
      targets: [['core']],
      effort: 1e5,
      progress: (state) => told.push(state),
    })
    expect(told.length).toBeGreaterThan(0)
    for (const [i, { cost, bound }] of told.entries()) {
      expect(cost).toBeLessThanOrEqual(told[i - 1]?.cost ?? Number.POSITIVE_INFINITY)
      expect(bound).toBeGreaterThanOrEqual((told[i - 1]?.bound ?? 0) - 1e-9)
    }
  })
})
