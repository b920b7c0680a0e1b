import { type Answer, found, type Given } from '../working/answer.ts'
import { betweenRows } from './chart.formulas.ts'

/** A row of a chart. */
export interface ChartRow {
  radius: Given<'m'>
  rated: Given<'kg'>
}

/** How the maker lets a chart be read between its rows. */
export type Between = 'next larger radius' | 'linear'

/** Radii that a load passes: the largest, and the least where it is known. */
export interface Passed {
  radius: Answer<'m'>
  nearest?: Answer<'m'> | undefined
}

/** One chart read, and what keeps it from being read with what would cure that. */
export interface RowReading {
  rated: Answer<'kg'>
  /** The row, in words. */
  how: string
  outside?: string
}

const metres = (value: number): string => `${value.toFixed(1)} m`
const radiusOf = (row: ChartRow): number => row.radius.value as number
const ratedOf = (row: ChartRow): number => row.rated.value as number
/** A radius that follows from coordinates stands on a row to the last digits only, m. */
const LAST_DIGITS = 1e-9

/**
 * The rows of one chart at the radii passed: the row of the largest, unless a row nearer rates less. Nearer than its first row and
 * beyond its last nothing is rated.
 */
export function readRows(
  { id, rows: listed, between }: { id: string; rows: readonly ChartRow[]; between: Between },
  { radius, nearest }: Passed,
): RowReading {
  const rows = [...listed].sort((a, b) => radiusOf(a) - radiusOf(b))
  const [first, last] = [rows[0], rows.at(-1)]
  if (first === undefined || last === undefined)
    return { rated: nothing(radius), how: 'no rows', outside: `chart ${id} has no rows` }
  const far = radius.value as number
  const near = Math.min(nearest?.value ?? far, far)
  const range = `the chart runs from ${metres(radiusOf(first))} to ${metres(radiusOf(last))}`
  if (near < radiusOf(first) - LAST_DIGITS)
    return {
      rated: nothing(nearest ?? radius),
      how: 'below its first row',
      outside: `a radius of ${metres(near)}: ${range}; keep the load ${metres(radiusOf(first) - near)} farther out`,
    }
  const after = rows.findIndex((row) => radiusOf(row) >= far - LAST_DIGITS)
  if (after < 0)
    return {
      rated: nothing(radius),
      how: 'beyond its last row',
      outside: `a radius of ${metres(far)}: ${range}; stand ${metres(far - radiusOf(last))} nearer`,
    }
  return lowestPassed(rows.slice(0, after), readAt(rows, after, { radius, between }), { radius, nearest })
}

/** At the largest radius: the row after it, or a straight line from the row before it. */
function readAt(
  rows: readonly ChartRow[],
  at: number,
  { radius, between }: { radius: Answer<'m'>; between: Between },
): RowReading {
  const [before, after] = [rows[at - 1], rows[at] as ChartRow]
  const isOnRow = Math.abs(radiusOf(after) - (radius.value as number)) <= LAST_DIGITS
  if (between !== 'linear' || before === undefined || isOnRow)
    return { rated: ofRow(after, radius, 'row of the next larger radius'), how: `row of ${metres(radiusOf(after))}` }
  return {
    rated: betweenRows.show({ r: radius, r_1: before.radius, R_1: before.rated, r_2: after.radius, R_2: after.rated }),
    how: `straight line between ${metres(radiusOf(before))} and ${metres(radiusOf(after))}, which the chart permits`,
  }
}

/** A row nearer may rate less than one farther out, as of a jib: of the rows from before the nearest place on, the lowest counts. */
function lowestPassed(rows: readonly ChartRow[], reading: RowReading, { radius, nearest }: Passed): RowReading {
  const near = nearest?.value ?? Number.NEGATIVE_INFINITY
  const from = rows.findLastIndex((row) => radiusOf(row) <= near)
  const [lowest] = rows.slice(Math.max(0, from)).sort((a, b) => ratedOf(a) - ratedOf(b))
  return lowest !== undefined && ratedOf(lowest) < (reading.rated.value ?? 0)
    ? {
        rated: ofRow(lowest, radius, 'lowest row passed'),
        how: `row of ${metres(radiusOf(lowest))}, the lowest passed`,
      }
    : reading
}

const ofRow = (row: ChartRow, radius: Answer<'m'>, which: string): Answer<'kg'> =>
  found({
    unit: 'kg',
    value: row.rated.value,
    method: `crane chart: ${which}`,
    inputs: { radius, 'radius of the row': row.radius, 'rated load of the row': row.rated },
    residuals: [],
  })

const nothing = (radius: Answer<'m'>): Answer<'kg'> => unread({ radius }, 0)

/** A chart that is not read: open, or nothing where a radius, a boom, a counterweight or a slew is outside it. */
export const unread = (inputs: Record<string, Answer>, value?: 0): Answer<'kg'> =>
  found({
    unit: 'kg',
    value,
    method: 'crane chart, read within its range only; outside it nothing is rated',
    inputs,
    residuals: [],
    ...(value === 0 ? { note: 'outside the range of the chart' } : {}),
  })
