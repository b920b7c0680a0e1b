/** Symmetric matrices as rows of plain arrays. Pure arithmetic. */
export type Matrix = readonly (readonly number[])[]

/** Eigenvalues, smallest first, and the unit eigenvectors in the same order. */
export interface Eigen {
  values: readonly number[]
  vectors: Matrix
}

const MOST_SWEEPS = 60

/**
 * Eigenvalues and eigenvectors of a symmetric matrix by cyclic Jacobi rotations. Small matrices only: a few rows.
 *
 * @param matrix symmetric, [n×n]; only its upper half is read
 */
export function eigenOf(matrix: Matrix): Eigen {
  const n = matrix.length
  const a = new Float64Array(n * n)
  const v = new Float64Array(n * n)
  let size = 0
  for (let i = 0; i < n; i++) {
    v[i * n + i] = 1
    for (let j = i; j < n; j++) {
      const x = matrix[i]?.[j] as number
      a[i * n + j] = x
      a[j * n + i] = x
      size = Math.max(size, Math.abs(x))
    }
  }
  for (let sweep = 0; sweep < MOST_SWEEPS && offDiagonal(a, n) > 1e-15 * size; sweep++) {
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, v, n, p, q)
  }
  const diagonal = (i: number): number => a[i * n + i] as number
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => diagonal(i) - diagonal(j))
  return {
    values: order.map(diagonal),
    vectors: order.map((i) => Array.from({ length: n }, (_, k) => v[k * n + i] as number)),
  }
}

function offDiagonal(a: Float64Array, n: number): number {
  let most = 0
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) most = Math.max(most, Math.abs(a[i * n + j] as number))
  return most
}

/** One rotation that makes element p, q zero; `v` collects the rotations. */
function rotate(a: Float64Array, v: Float64Array, n: number, p: number, q: number): void {
  const apq = a[p * n + q] as number
  if (apq === 0) return
  const theta = ((a[q * n + q] as number) - (a[p * n + p] as number)) / (2 * apq)
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1))
  const c = 1 / Math.sqrt(t * t + 1)
  const s = t * c
  for (let k = 0; k < n; k++) turnPair(a, k * n + p, k * n + q, c, s)
  for (let k = 0; k < n; k++) turnPair(a, p * n + k, q * n + k, c, s)
  for (let k = 0; k < n; k++) turnPair(v, k * n + p, k * n + q, c, s)
}

function turnPair(m: Float64Array, i: number, j: number, c: number, s: number): void {
  const x = m[i] as number
  const y = m[j] as number
  m[i] = c * x - s * y
  m[j] = s * x + c * y
}

/** Σ λ′ (v·g) v over the eigenvectors, with λ′ from each eigenvalue: the building block of steps and inverses. */
export function spectral(eigen: Eigen, g: readonly number[], of: (value: number) => number): number[] {
  const result = new Array<number>(g.length).fill(0)
  for (const [k, vector] of eigen.vectors.entries()) {
    let along = 0
    for (let i = 0; i < g.length; i++) along += (vector[i] as number) * (g[i] as number)
    const weight = along * of(eigen.values[k] as number)
    for (let i = 0; i < g.length; i++) result[i] = (result[i] as number) + weight * (vector[i] as number)
  }
  return result
}

const SINGULAR = 1e-11

/**
 * Solution of a positive definite system by Cholesky's factors; undefined where the matrix is not clearly positive
 * definite.
 */
export function solvedPositive(matrix: Matrix, g: readonly number[]): number[] | undefined {
  const n = g.length
  let size = 0
  for (let i = 0; i < n; i++) size = Math.max(size, Math.abs((matrix[i] as readonly number[])[i] as number))
  // the factor's lower half, row after row
  const l = new Float64Array(n * n)
  for (let i = 0; i < n; i++) {
    const row = matrix[i] as readonly number[]
    for (let j = 0; j <= i; j++) {
      let x = row[j] as number
      for (let k = 0; k < j; k++) x -= (l[i * n + k] as number) * (l[j * n + k] as number)
      if (j === i && !(x > SINGULAR * size)) return undefined
      l[i * n + j] = j === i ? Math.sqrt(x) : x / (l[j * n + j] as number)
    }
  }
  const x = [...g]
  for (let i = 0; i < n; i++) {
    let rest = x[i] as number
    for (let k = 0; k < i; k++) rest -= (l[i * n + k] as number) * (x[k] as number)
    x[i] = rest / (l[i * n + i] as number)
  }
  for (let i = n - 1; i >= 0; i--) {
    let rest = x[i] as number
    for (let k = i + 1; k < n; k++) rest -= (l[k * n + i] as number) * (x[k] as number)
    x[i] = rest / (l[i * n + i] as number)
  }
  return x
}
