import type { Point2 } from '../outline/convex.ts'

/** Left free between two that lie side by side, m. */
const BETWEEN = 0.5

/**
 * Middles of rectangles laid in rows within a larger one, the deepest first, about its middle; undefined where the rows do not
 * fit. One alone lies in the middle, fitting or not.
 *
 * @param sizes of each, across and up, m
 */
export function sideBySide(sizes: readonly Point2[], [wide, high]: Point2): Point2[] | undefined {
  if (sizes.length < 2) return sizes.map(() => [0, 0])
  const order = sizes.map((_, i) => i).sort((a, b) => sizeOf(sizes, b)[1] - sizeOf(sizes, a)[1])
  const rows = rowsOf(order, sizes, wide)
  const depth = rows.reduce((sum, row) => sum + row.deep, 0) + BETWEEN * (rows.length - 1)
  if (depth > high || rows.some((row) => row.wide > wide)) return undefined
  const places = new Array<Point2>(sizes.length)
  let top = depth / 2
  for (const { members, wide: taken, deep } of rows) {
    let left = -taken / 2
    for (const i of members) {
      const [w] = sizeOf(sizes, i)
      places[i] = [left + w / 2, top - deep / 2]
      left += w + BETWEEN
    }
    top -= deep + BETWEEN
  }
  return places
}

const sizeOf = (sizes: readonly Point2[], i: number): Point2 => sizes[i] as Point2

interface Row {
  members: number[]
  wide: number
  deep: number
}

function rowsOf(order: readonly number[], sizes: readonly Point2[], wide: number): Row[] {
  const rows: Row[] = []
  for (const i of order) {
    const [w, h] = sizeOf(sizes, i)
    const row = rows.at(-1)
    if (row !== undefined && row.wide + BETWEEN + w <= wide) {
      row.members.push(i)
      row.wide += BETWEEN + w
      row.deep = Math.max(row.deep, h)
    } else rows.push({ members: [i], wide: w, deep: h })
  }
  return rows
}
