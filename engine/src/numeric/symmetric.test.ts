import fc from 'fast-check'
import { EigenvalueDecomposition, Matrix as Reference } from 'ml-matrix'
import { expect, test } from 'vitest'
import { eigenOf, solvedPositive, spectral } from './symmetric.ts'

// in steps of a millionth: the library compared with breaks on numbers below 1e-308
const number = fc.integer({ min: -10_000_000, max: 10_000_000 }).map((n) => n / 1e6)
const square = (n: number) => fc.array(fc.array(number, { minLength: n, maxLength: n }), { minLength: n, maxLength: n })
const symmetric = fc
  .integer({ min: 1, max: 9 })
  .chain(square)
  .map((m) => m.map((row, i) => row.map((_, j) => ((m[i]?.[j] as number) + (m[j]?.[i] as number)) / 2)))
const times = (m: readonly (readonly number[])[], x: readonly number[]): number[] =>
  m.map((row) => row.reduce((s, a, i) => s + a * (x[i] as number), 0))

test('eigenvalues agree with those of another library, smallest first', () => {
  fc.assert(
    fc.property(symmetric, (m) => {
      const reference = new EigenvalueDecomposition(new Reference(m), { assumeSymmetric: true }).realEigenvalues
      const sorted = [...reference].sort((a, b) => a - b)
      for (const [k, value] of eigenOf(m).values.entries()) expect(value).toBeCloseTo(sorted[k] as number, 9)
    }),
  )
})

test('every eigenvector is only stretched by its matrix', () => {
  fc.assert(
    fc.property(symmetric, (m) => {
      const { values, vectors } = eigenOf(m)
      for (const [k, v] of vectors.entries())
        for (const [i, x] of times(m, v).entries()) expect(x).toBeCloseTo((values[k] as number) * (v[i] as number), 9)
    }),
  )
})

test('a system from a positive definite matrix is solved; one that is not is refused', () => {
  fc.assert(
    fc.property(symmetric, fc.array(number, { minLength: 9, maxLength: 9 }), (m, right) => {
      const eigen = eigenOf(m)
      const least = eigen.values[0] as number
      const g = right.slice(0, m.length)
      const x = solvedPositive(m, g)
      if (least < -1e-6) expect(x).toBeUndefined()
      if (least < 1e-3) return
      for (const [i, back] of times(m, x as number[]).entries()) expect(back).toBeCloseTo(g[i] as number, 6)
    }),
  )
})

test('the inverse by eigenvalues undoes the matrix', () => {
  const m = [
    [4, 1],
    [1, 3],
  ]
  const x = spectral(eigenOf(m), [1, 2], (value) => 1 / value)
  expect(x[0]).toBeCloseTo(1 / 11, 12)
  expect(x[1]).toBeCloseTo(7 / 11, 12)
})
