import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leastCost } from './linear-programme.ts'

const product = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, i) => sum + x * (b[i] as number), 0)

describe('least cost under linear equations', () => {
  // Dantzig's example as reproduced in textbooks (from memory): most of 3x + 5y with x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18 is 36.
  it('solves the textbook plant of two products: 36 at x = 2, y = 6', () => {
    const answer = leastCost({
      columns: [
        [1, 0, 3],
        [0, 2, 2],
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ],
      cost: [-3, -5, 0, 0, 0],
      sum: [4, 12, 18],
    })
    expect(answer).toMatchObject({ kind: 'least' })
    if (answer.kind !== 'least') return
    expect(answer.value).toBeCloseTo(-36, 9)
    expect(answer.x[0]).toBeCloseTo(2, 9)
    expect(answer.x[1]).toBeCloseTo(6, 9)
    // Worth of one unit more of each limit: 0, 1.5, 1.
    expect(answer.prices.map((p) => -p)).toEqual([expect.closeTo(0, 9), expect.closeTo(1.5, 9), expect.closeTo(1, 9)])
  })

  // Beale's example of circling under the steepest rule (from memory): least −1/20.
  it("ends on Beale's degenerate example, −0.05", () => {
    const answer = leastCost({
      columns: [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
        [0.25, 0.5, 0],
        [-60, -90, 0],
        [-0.04, -0.02, 1],
        [9, 3, 0],
      ],
      cost: [0, 0, 0, -0.75, 150, -0.02, 6],
      sum: [0, 0, 1],
    })
    expect(answer).toMatchObject({ kind: 'least', value: expect.closeTo(-0.05, 9) })
  })

  it('says when the cost falls without end', () => {
    expect(leastCost({ columns: [[1], [-1]], cost: [-1, 0], sum: [1] }).kind).toBe('endless')
  })

  const matrix = fc.integer({ min: 1, max: 5 }).chain((rows) =>
    fc.record({
      columns: fc.array(fc.array(fc.integer({ min: -5, max: 5 }), { minLength: rows, maxLength: rows }), {
        minLength: 1,
        maxLength: 9,
      }),
      sum: fc.array(fc.integer({ min: -5, max: 5 }), { minLength: rows, maxLength: rows }),
    }),
  )

  it('either meets the sums at a cost that the prices prove least, or proves that nothing does', () => {
    const seen = { least: 0, none: 0 }
    fc.assert(
      fc.property(matrix, fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 9, maxLength: 9 }), (m, costs) => {
        const cost = costs.slice(0, m.columns.length)
        const answer = leastCost({ ...m, cost })
        expect(answer.kind).not.toBe('endless')
        if (answer.kind === 'none') {
          seen.none++
          expect(product(answer.proof, m.sum)).toBeGreaterThan(1e-7)
          for (const column of m.columns) expect(product(answer.proof, column)).toBeLessThan(1e-7)
        }
        if (answer.kind === 'least') {
          seen.least++
          m.sum.forEach((s, i) => {
            expect(answer.x.reduce((t, x, j) => t + x * (m.columns[j]?.[i] as number), 0)).toBeCloseTo(s, 6)
          })
          expect(Math.min(0, ...answer.x)).toBeGreaterThan(-1e-9)
          expect(product(answer.prices, m.sum)).toBeCloseTo(answer.value, 6)
          m.columns.forEach((column, j) => {
            expect(product(answer.prices, column)).toBeLessThan((cost[j] as number) + 1e-7)
          })
        }
      }),
      { numRuns: 500 },
    )
    expect(Math.min(seen.least, seen.none)).toBeGreaterThan(20)
  })
})
