import fc from 'fast-check'
import load from 'highs'
import { describe, expect, it } from 'vitest'
import { type LinearProgramme, leastCost } from './linear-programme.ts'
import { uniformAt } from './random.ts'

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

/** A programme in the text form that HiGHS reads. */
function textOf({ columns, cost, sum }: LinearProgramme): string {
  const line = (weights: readonly number[]): string =>
    weights.map((w, j) => `${w < 0 ? '-' : '+'} ${Math.abs(w)} x${j}`).join(' ')
  const rows = sum.map((s, i) => ` r${i}: ${line(columns.map((c) => c[i] as number))} = ${s}`)
  return `Minimize\n obj: ${line(cost)}\nSubject To\n${rows.join('\n')}\nEnd`
}

// HiGHS 1.15 (general-purpose solver from the registry) on the same programmes.
it('agrees with HiGHS on what is feasible and what is least', async () => {
  const highs = await load()
  let drawn = 0
  const random = (): number => uniformAt(7, drawn++)
  const draw = (): number => Math.round(10 * (random() - 0.5))
  const seen = new Set<string>()
  for (let k = 0; k < 200; k++) {
    const rows = 1 + Math.floor(4 * random())
    const programme: LinearProgramme = {
      columns: Array.from({ length: rows + 1 + Math.floor(5 * random()) }, () => Array.from({ length: rows }, draw)),
      cost: [],
      sum: Array.from({ length: rows }, draw),
    }
    const whole = { ...programme, cost: programme.columns.map(draw) }
    const [own, theirs] = [leastCost(whole), highs.solve(textOf(whole))]
    seen.add(own.kind)
    const meant = { least: 'Optimal', none: 'Infeasible', endless: 'Unbounded' }[own.kind]
    if (theirs.Status === 'Primal infeasible or unbounded') expect(own.kind).not.toBe('least')
    else expect(theirs.Status).toBe(meant)
    if (own.kind === 'least') expect(own.value).toBeCloseTo(theirs.ObjectiveValue, 6)
  }
  expect([...seen].sort()).toEqual(['endless', 'least', 'none'])
})
