import { placedSupport } from '../numeric/body.ts'
import { apply, type Mat3, transpose, type Vec3 } from '../numeric/vector.ts'
import type { Hull } from './hull.ts'

/** Projected area of a hull on an upright plane, as the wind of one heading sees it. */
export interface Sail {
  /** m² */
  area: number
  /** Direction the wind blows to, about site z from x, rad. */
  heading: number
  /** Middle of the area from the hull's origin along the level line across the heading, to its left, m. */
  middle: number
}

const HEADINGS = 12
const EDGES = 16
const ROWS = 90

/** Projected areas over all headings of the wind, half a turn: the other half sees the same outlines. No outline is too small. */
export const sailsOf = (hull: Hull, turn: Mat3): Sail[] =>
  Array.from({ length: HEADINGS }, (_, i) => sailAt(hull, turn, (i * Math.PI) / HEADINGS))

/** The largest of them. */
export const largestSail = (sails: readonly Sail[]): Sail => sails.reduce((a, b) => (b.area > a.area ? b : a))

/**
 * Largest moment of area about the plumb line through a point, over the headings, m³: wind pressure times it turns the piece.
 *
 * @param centre the point, in the frame of the hull
 */
export function largestTwist(sails: readonly Sail[], turn: Mat3, centre: Vec3): { twist: number; heading: number } {
  const [x, y] = apply(turn, centre)
  const twists = sails.map(({ area, heading, middle }) => ({
    twist: area * Math.abs(middle - (y * Math.cos(heading) - x * Math.sin(heading))),
    heading,
  }))
  return twists.reduce((a, b) => (b.twist > a.twist ? b : a))
}

/** Union of the solids' outlines seen along a heading: rows of their intervals, laid together. */
export function sailAt(hull: Hull, turn: Mat3, heading: number): Sail {
  const across: Vec3 = [-Math.sin(heading), Math.cos(heading), 0]
  const outlines = hull.solids.map((solid) => outlineOf(solid, turn, across))
  const low = Math.min(...outlines.flatMap((o) => o.map((p) => p[1])))
  const high = Math.max(...outlines.flatMap((o) => o.map((p) => p[1])))
  const height = (high - low) / ROWS
  const rows: [number, number][][] = Array.from({ length: ROWS }, () => [])
  for (const outline of outlines) fillRows(rows, outline, low, height)
  let [length, moment] = [0, 0]
  for (const spans of rows) {
    const row = covered(spans)
    length += row.length
    moment += row.moment
  }
  return { area: height * length, heading, middle: length === 0 ? 0 : moment / length }
}

type Point = readonly [across: number, up: number]

/** Corners of the lines that touch a solid's outline: a polygon about it, from its support in `EDGES` directions. */
function outlineOf(solid: Hull['solids'][number], turn: Mat3, across: Vec3): Point[] {
  const back = transpose(turn)
  const lines = Array.from({ length: EDGES }, (_, k) => {
    const angle = (2 * Math.PI * k) / EDGES
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    return { c, s, h: placedSupport(solid, apply(back, [c * across[0], c * across[1], s])) }
  })
  return lines.map((a, k) => {
    const b = lines[(k + 1) % EDGES] as typeof a
    const det = a.c * b.s - a.s * b.c
    return [(a.h * b.s - b.h * a.s) / det, (a.c * b.h - b.c * a.h) / det]
  })
}

/** Adds a convex outline's interval to every row whose middle it crosses: each edge gives one end to its rows. */
function fillRows(rows: [number, number][][], outline: readonly Point[], low: number, height: number): void {
  const spans = new Map<number, [number, number]>()
  for (const [i, a] of outline.entries()) {
    const b = outline[(i + 1) % outline.length] as Point
    const [from, to] = a[1] < b[1] ? [a, b] : [b, a]
    const first = Math.max(0, Math.ceil((from[1] - low) / height - 0.5))
    const last = Math.min(ROWS - 1, Math.ceil((to[1] - low) / height - 0.5) - 1)
    for (let row = first; row <= last; row++) {
      const share = (low + (row + 0.5) * height - from[1]) / (to[1] - from[1])
      widen(spans, row, from[0] + share * (to[0] - from[0]))
    }
  }
  for (const [row, span] of spans) (rows[row] as [number, number][]).push(span)
}

function widen(spans: Map<number, [number, number]>, row: number, at: number): void {
  const span = spans.get(row)
  if (span === undefined) spans.set(row, [at, at])
  else if (at < span[0]) span[0] = at
  else if (at > span[1]) span[1] = at
}

/** Length that intervals cover together, and its moment about zero. */
function covered(spans: [number, number][]): { length: number; moment: number } {
  let [length, moment, end] = [0, 0, -Infinity]
  for (const [from, to] of spans.sort((a, b) => a[0] - b[0])) {
    if (to > end) {
      const start = Math.max(from, end)
      length += to - start
      moment += (to * to - start * start) / 2
    }
    end = Math.max(end, to)
  }
  return { length, moment }
}
