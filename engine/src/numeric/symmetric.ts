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
  const a = matrix.map((row, i) => row.map((_, j) => (i <= j ? (row[j] as number) : (matrix[j]?.[i] as number))))
  const v = a.map((row, i) => row.map((_, j) => Number(i === j)))
  const size = Math.max(...a.flat().map(Math.abs))
  for (let sweep = 0; sweep < MOST_SWEEPS && offDiagonal(a) > 1e-15 * size; sweep++) {
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, v, p, q)
  }
  const order = a.map((_, i) => i).sort((i, j) => (a[i]?.[i] as number) - (a[j]?.[j] as number))
  return {
    values: order.map((i) => a[i]?.[i] as number),
    vectors: order.map((i) => v.map((row) => row[i] as number)),
  }
}

function offDiagonal(a: readonly number[][]): number {
  let most = 0
  for (let i = 0; i < a.length; i++)
    for (let j = i + 1; j < a.length; j++) most = Math.max(most, Math.abs(a[i]?.[j] as number))
  return most
}

/** One rotation that makes element p, q zero; `v` collects the rotations. */
function rotate(a: number[][], v: number[][], p: number, q: number): void {
  const [rowP, rowQ] = [a[p] as number[], a[q] as number[]]
  const apq = rowP[q] as number
  if (apq === 0) return
  const theta = ((rowQ[q] as number) - (rowP[p] as number)) / (2 * apq)
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1))
  const c = 1 / Math.sqrt(t * t + 1)
  const s = t * c
  for (const row of a) turnPair(row, p, q, c, s)
  for (let k = 0; k < a.length; k++) {
    const [akp, akq] = [rowP[k] as number, rowQ[k] as number]
    rowP[k] = c * akp - s * akq
    rowQ[k] = s * akp + c * akq
  }
  for (const row of v) turnPair(row, p, q, c, s)
}

function turnPair(row: number[], p: number, q: number, c: number, s: number): void {
  const [x, y] = [row[p] as number, row[q] as number]
  row[p] = c * x - s * y
  row[q] = s * x + c * y
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
  const size = Math.max(...matrix.map((row, i) => Math.abs(row[i] as number)))
  const l: number[][] = []
  for (let i = 0; i < n; i++) {
    const row = new Array<number>(i + 1).fill(0)
    for (let j = 0; j <= i; j++) {
      const other = j === i ? row : (l[j] as number[])
      let x = matrix[i]?.[j] as number
      for (let k = 0; k < j; k++) x -= (row[k] as number) * (other[k] as number)
      if (j === i && !(x > SINGULAR * size)) return undefined
      row[j] = j === i ? Math.sqrt(x) : x / (other[j] as number)
    }
    l.push(row)
  }
  const x = [...g]
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] = (x[i] as number) - (l[i]?.[k] as number) * (x[k] as number)
    x[i] = (x[i] as number) / (l[i]?.[i] as number)
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] = (x[i] as number) - (l[k]?.[i] as number) * (x[k] as number)
    x[i] = (x[i] as number) / (l[i]?.[i] as number)
  }
  return x
}
