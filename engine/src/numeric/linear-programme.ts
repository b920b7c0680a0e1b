/** Least of cost · x with the columns weighted by x adding up to `sum`, x ≥ 0. Every column is as long as `sum`. */
export interface LinearProgramme {
  columns: readonly (readonly number[])[]
  cost: readonly number[]
  sum: readonly number[]
}

export type LinearAnswer =
  | { kind: 'least'; value: number; x: readonly number[]; prices: readonly number[] }
  /** No x will do: `proof` has no positive product with any column and a positive one with `sum` (Farkas). */
  | { kind: 'none'; proof: readonly number[] }
  /** The cost falls without end. */
  | { kind: 'endless' }

/** Costs and slopes below this are noise; rows and columns are expected to be of order one. */
const NOISE = 1e-9
/** What the artificial variables may leave over. */
const LEFT_OVER = 1e-7
/** Steps without gain after which the least number is taken (Bland), so that the search cannot go round in a circle. */
const PATIENCE = 40

/**
 * The simplex method in two phases on a full table (Dantzig; Bland's rule against circling; both from memory). Made for
 * the few dozen rows of bodies in contact: work grows with rows × columns at each step.
 *
 * `prices` at the least are what one unit more of each row of `sum` would cost.
 */
export function leastCost({ columns, cost, sum }: LinearProgramme): LinearAnswer {
  const table = tableOf(columns, sum)
  const { rows, signs, width } = table
  const own = columns.length
  const artificial = (j: number): boolean => j >= own && j < width - 1
  const first = objective(table, (j) => (artificial(j) ? 1 : 0))
  descend(table, first, () => true)
  // The slope of an artificial variable is its own cost less the price of its row.
  const prices = (slopes: Float64Array, unitCost: number): number[] =>
    signs.map((sign, i) => sign * (unitCost - (slopes[own + i] as number)))
  if (-(first[width - 1] as number) > LEFT_OVER) return { kind: 'none', proof: prices(first, 1) }
  // An artificial variable left at zero could grow again: its row is solved for one of the others, or says nothing new.
  rows.forEach((row, i) => {
    const j = artificial(table.basis[i] as number) ? row.findIndex((a, k) => k < own && Math.abs(a) > NOISE) : -1
    if (j >= 0) turnOn(table, first, i, j)
  })
  const second = objective(table, (j) => cost[j] ?? 0)
  if (!descend(table, second, (j) => !artificial(j))) return { kind: 'endless' }
  const x = columns.map(() => 0)
  table.basis.forEach((j, i) => {
    if (j < own) x[j] = (rows[i] as Float64Array)[width - 1] as number
  })
  return { kind: 'least', value: -(second[width - 1] as number), x, prices: prices(second, 0) }
}

interface Table {
  rows: readonly Float64Array[]
  /** The column that each row is solved for. */
  basis: number[]
  /** −1 for a row that was turned so that its sum is not negative. */
  signs: readonly number[]
  /** Own columns, one artificial one for each row, the sum. */
  width: number
}

function tableOf(columns: LinearProgramme['columns'], sum: readonly number[]): Table {
  const width = columns.length + sum.length + 1
  const signs = sum.map((s) => (s < 0 ? -1 : 1))
  const rows = sum.map((s, i) => {
    const [row, sign] = [new Float64Array(width), signs[i] as number]
    columns.forEach((column, j) => {
      row[j] = sign * (column[i] as number)
    })
    row[columns.length + i] = 1
    row[width - 1] = sign * s
    return row
  })
  return { rows, basis: sum.map((_, i) => columns.length + i), signs, width }
}

/** Slopes of a cost at the present basis, and less its value in the last place. */
function objective({ rows, basis, width }: Table, costOf: (column: number) => number): Float64Array {
  const slopes = Float64Array.from({ length: width }, (_, j) => (j < width - 1 ? costOf(j) : 0))
  basis.forEach((j, i) => {
    subtractRow(slopes, rows[i] as Float64Array, costOf(j))
  })
  return slopes
}

function subtractRow(row: Float64Array, other: Float64Array, times: number): void {
  if (times === 0) return
  for (let j = 0; j < row.length; j++) row[j] = (row[j] as number) - times * (other[j] as number)
}

/** Steps to the least; false where the cost falls without end. */
function descend(table: Table, slopes: Float64Array, may: (column: number) => boolean): boolean {
  let idle = 0
  for (;;) {
    const before = slopes[table.width - 1] as number
    const column = idle > PATIENCE ? firstFalling(slopes, may) : steepest(slopes, may)
    if (column === undefined) return true
    const row = leavingRow(table, column)
    if (row === undefined) return false
    turnOn(table, slopes, row, column)
    idle = Math.abs((slopes[table.width - 1] as number) - before) < NOISE ? idle + 1 : 0
  }
}

function firstFalling(slopes: Float64Array, may: (column: number) => boolean): number | undefined {
  const j = slopes.findIndex((slope, k) => k < slopes.length - 1 && slope < -NOISE && may(k))
  return j < 0 ? undefined : j
}

function steepest(slopes: Float64Array, may: (column: number) => boolean): number | undefined {
  let best: number | undefined
  let least = -NOISE
  for (let j = 0; j < slopes.length - 1; j++) {
    const slope = slopes[j] as number
    if (slope < least && may(j)) {
      best = j
      least = slope
    }
  }
  return best
}

/** The row that reaches zero first as the column grows; of equals the one solved for the least number. */
function leavingRow({ rows, basis, width }: Table, column: number): number | undefined {
  let leaving: number | undefined
  let least = Number.POSITIVE_INFINITY
  rows.forEach((row, i) => {
    const pivot = row[column] as number
    if (pivot <= NOISE) return
    const ratio = (row[width - 1] as number) / pivot
    const tied = leaving !== undefined && Math.abs(ratio - least) <= 1e-12
    if (ratio < least - 1e-12 || (tied && (basis[i] as number) < (basis[leaving as number] as number))) {
      leaving = i
      least = ratio
    }
  })
  return leaving
}

function turnOn({ rows, basis }: Table, slopes: Float64Array, pivotRow: number, column: number): void {
  const row = rows[pivotRow] as Float64Array
  const pivot = row[column] as number
  for (let j = 0; j < row.length; j++) row[j] = (row[j] as number) / pivot
  rows.forEach((other, i) => {
    if (i !== pivotRow) subtractRow(other, row, other[column] as number)
  })
  subtractRow(slopes, row, slopes[column] as number)
  basis[pivotRow] = column
}
