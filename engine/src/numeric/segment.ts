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

/**
 * Least distance of a segment from a box. The square of the distance, along the segment, is a parabola between the places where
 * the segment crosses a plane of the box, and its slope nowhere falls: the lowest place lies between the last of these at which it
 * still falls and the first at which it rises, and there in closed form.
 */
export function segmentToBox(segment: Segment, box: Box): Apart {
  const on = along(segment, lowestShare(segment, box))
  return { distance: pointToBox(on, box), on }
}

/** Share of a segment at which it is nearest to a box. */
function lowestShare([a, b]: Segment, box: Box): number {
  let [from, falling] = [0, slopeAt(a, b, box, 0)]
  let [to, rising] = [1, slopeAt(a, b, box, 1)]
  if (falling >= 0) return 0
  if (rising < 0) return 1
  for (let i = 0; i < 3; i++) {
    const [start, by] = [a[i] as number, (b[i] as number) - (a[i] as number)]
    for (let side = 0; by !== 0 && side < 2; side++) {
      const share = (((side === 0 ? box.low : box.high)[i] as number) - start) / by
      if (share <= from || share >= to) continue
      const slope = slopeAt(a, b, box, share)
      if (slope < 0) {
        from = share
        falling = slope
      } else {
        to = share
        rising = slope
      }
    }
  }
  return from + ((to - from) * falling) / (falling - rising)
}

/** Half the slope of the square of the distance from the box, along a segment. */
function slopeAt(a: Vec3, b: Vec3, { low, high }: Box, share: number): number {
  let sum = 0
  for (let i = 0; i < 3; i++) {
    const by = (b[i] as number) - (a[i] as number)
    sum += by * beyond((a[i] as number) + share * by, low[i] as number, high[i] as number)
  }
  return sum
}

/** How far a coordinate lies beyond a box, with its sign; zero between. */
const beyond = (x: number, low: number, high: number): number => (x < low ? x - low : x > high ? x - high : 0)

/** Distance of a point from a box; zero inside. */
export const pointToBox = (p: Vec3, { low, high }: Box): number =>
  norm([beyond(p[0], low[0], high[0]), beyond(p[1], low[1], high[1]), beyond(p[2], low[2], high[2])])
