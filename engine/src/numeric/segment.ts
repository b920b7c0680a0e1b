import { goldenSection } from './golden.ts'
import { add, dot, norm, scale, subtract, type Vec3 } from './vector.ts'

/** A straight line from one point to another. */
export type Segment = readonly [from: Vec3, to: Vec3]

/** A box along the axes. */
export interface Box {
  low: Vec3
  high: Vec3
}

/** How far two things are apart, and where on the first; zero where they meet. */
export interface Apart {
  distance: number
  on: Vec3
}

const along = ([from, to]: Segment, share: number): Vec3 => add(from, scale(subtract(to, from), share))
const bounded = (share: number): number => Math.min(1, Math.max(0, share))

/** Least distance of two segments. */
export function segmentsApart(a: Segment, b: Segment): Apart {
  const [u, v, r] = [subtract(a[1], a[0]), subtract(b[1], b[0]), subtract(a[0], b[0])]
  const [uu, uv, vv, ur, vr] = [dot(u, u), dot(u, v), dot(v, v), dot(u, r), dot(v, r)]
  const den = uu * vv - uv * uv
  // the nearest points of the endless lines, or an end where they lie beyond it
  const first = den > 1e-12 * uu * vv ? bounded((uv * vr - vv * ur) / den) : 0
  const on = vv === 0 ? 0 : bounded((uv * first + vr) / vv)
  const share = uu === 0 ? 0 : bounded((uv * on - ur) / uu)
  const at = along(a, share)
  return { distance: norm(subtract(at, along(b, on))), on: at }
}

const SECTIONS = 60

/** Least distance of a segment from a box: along the segment it has one valley. */
export function segmentToBox(segment: Segment, box: Box): Apart {
  const near = goldenSection(
    (share) => -pointToBox(along(segment, share), box),
    (value) => value,
    { from: 0, to: 1, sections: SECTIONS },
  )
  const ends = [0, near.at, 1].map((share) => along(segment, share))
  const nearest = ends.reduce((best, p) => (pointToBox(p, box) < pointToBox(best, box) ? p : best))
  return { distance: pointToBox(nearest, box), on: nearest }
}

/** Distance of a point from a box; zero inside. */
export const pointToBox = (p: Vec3, { low, high }: Box): number =>
  norm([0, 1, 2].map((i) => outside(p[i] as number, low[i] as number, high[i] as number)) as unknown as Vec3)

const outside = (x: number, low: number, high: number): number => Math.max(low - x, 0, x - high)
