import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cheapestGrouping } from './grouping.ts'

/** Every way to part a list into groups. */
function partitions(ids: readonly string[]): string[][][] {
  const [first, ...rest] = ids
  if (first === undefined) return [[]]
  return partitions(rest).flatMap((groups) => [
    [[first], ...groups],
    ...groups.map((g, k) => groups.map((other, i) => (i === k ? [first, ...g] : other))),
  ])
}

test('pieces cost what trying every grouping finds, keep to the capacity and hang together', () => {
  const ids = ['a', 'b', 'c', 'd', 'e', 'f']
  const pairs = ids.flatMap((a, i) => ids.slice(i + 1).map((b) => [a, b] as const))
  const joints = fc
    .subarray(pairs, { minLength: 3 })
    .chain((chosen) =>
      fc.tuple(...chosen.map(([a, b]) => fc.integer({ min: 0, max: 9 }).map((c) => [a, b, c] as const))),
    )
  const masses = fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 6, maxLength: 6 })
  fc.assert(
    fc.property(masses, joints, fc.integer({ min: 9, max: 30 }), fc.nat(12), (weights, ties, capacity, costPerLift) => {
      const mass = Object.fromEntries(ids.map((id, i) => [id, weights[i] as number]))
      const weightOf = (g: readonly string[]) => g.reduce((sum, id) => sum + (mass[id] as number), 0)
      const tied = (g: readonly string[]) => {
        const reached = new Set([g[0]])
        for (let k = 0; k < g.length; k++)
          for (const [a, b] of ties) {
            if (reached.has(a) && g.includes(b)) reached.add(b)
            if (reached.has(b) && g.includes(a)) reached.add(a)
          }
        return reached.size === g.length
      }
      const cost = (groups: readonly (readonly string[])[]) =>
        costPerLift * groups.length +
        ties.reduce((sum, [a, b, c]) => sum + (groups.some((g) => g.includes(a) && g.includes(b)) ? 0 : c), 0)
      const able = partitions(ids).filter((groups) => groups.every((g) => weightOf(g) <= capacity && tied(g)))
      const found = cheapestGrouping({ mass, joints: ties, capacity, costPerLift, effort: 1e6 })
      expect(found.cost).toBe(Math.min(...able.map(cost)))
      expect(cost(found.groups ?? [])).toBe(found.cost)
      expect(found.groups?.every((g) => weightOf(g) <= capacity && tied(g))).toBe(true)
      expect(found.proven).toBe(true)
    }),
    { numRuns: 80, seed: 4 },
  )
})

test('a part that is too heavy alone is named', () => {
  const asked = { mass: { a: 5, b: 50 }, joints: [['a', 'b', 1]] as const, capacity: 20, costPerLift: 1, effort: 10 }
  expect(cheapestGrouping(asked)).toMatchObject({ groups: undefined, tooHeavy: ['b'] })
})
