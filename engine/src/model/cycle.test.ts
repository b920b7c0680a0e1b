import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cycleIn } from './cycle.ts'

test('a chain of a hundred thousand has no circle; closed at its end it is one', () => {
  const chain = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`n${i}`, [`n${i + 1}`]]))
  expect(cycleIn(chain)).toEqual([])
  expect(cycleIn({ ...chain, n99999: ['n0'] })[0]).toHaveLength(100_000)
})

test('ids that are no keys are passed over', () => {
  expect(cycleIn({ a: ['elsewhere'] })).toEqual([])
})

/** Another road to the same answer: a graph without a circle can be emptied by taking away what comes after nothing. */
function emptied(after: Record<string, string[]>): boolean {
  const left = new Map(Object.entries(after))
  for (let size = -1; size !== left.size; ) {
    size = left.size
    for (const [id, before] of left) if (!before.some((b) => left.has(b))) left.delete(id)
  }
  return left.size === 0
}

test('a circle is found exactly when the graph cannot be emptied, and it is one', () => {
  const ids = ['a', 'b', 'c', 'd', 'e', 'f']
  const graph = fc.record(
    Object.fromEntries(ids.map((id) => [id, fc.uniqueArray(fc.constantFrom(...ids), { maxLength: 2 })])),
  )
  const met = { circle: 0, none: 0 }
  fc.assert(
    fc.property(graph, (after) => {
      const [cycle] = cycleIn(after as Record<string, string[]>)
      met[cycle === undefined ? 'none' : 'circle']++
      expect(cycle === undefined).toBe(emptied(after as Record<string, string[]>))
      for (const [i, id] of cycle?.entries() ?? [])
        expect((after as Record<string, string[]>)[id]).toContain(cycle?.[(i + 1) % cycle.length])
    }),
    { numRuns: 500 },
  )
  expect(Math.min(met.circle, met.none)).toBeGreaterThan(20)
})

test('of several circles the shortest is named, though a longer one is met first', () => {
  expect(cycleIn({ a: ['b'], b: ['c'], c: ['d'], d: ['a', 'e'], e: ['f'], f: ['e'] })).toEqual([['e', 'f']])
  expect(cycleIn({ a: ['b'], b: ['c'], c: ['d', 'a'], d: ['a'] })).toEqual([['a', 'b', 'c']])
  expect(cycleIn({ a: ['b'], b: ['a', 'c'], c: ['c'] })).toEqual([['c']])
})

/** Another road: the least power of the links that leads from something back to itself. */
function shortestByPowers(after: Record<string, string[]>): number | undefined {
  const ids = Object.keys(after)
  let reached = ids.map((id) => new Set(after[id]))
  for (let length = 1; length <= ids.length; length++) {
    if (ids.some((id, i) => reached[i]?.has(id))) return length
    reached = reached.map((set) => new Set([...set].flatMap((id) => after[id] ?? [])))
  }
  return undefined
}

test('no circle is shorter than the one named', () => {
  const ids = ['a', 'b', 'c', 'd', 'e', 'f', 'g']
  const graph = fc.record(
    Object.fromEntries(
      ids.map((id) => [id, fc.uniqueArray(fc.constantFrom(...ids.filter((i) => i !== id)), { maxLength: 2 })]),
    ),
  )
  const lengths = new Set<number | undefined>()
  fc.assert(
    fc.property(graph, (after) => {
      const due = shortestByPowers(after as Record<string, string[]>)
      lengths.add(due)
      expect(cycleIn(after as Record<string, string[]>)[0]?.length).toBe(due)
    }),
    { numRuns: 500 },
  )
  expect(lengths.size).toBeGreaterThan(3)
})
