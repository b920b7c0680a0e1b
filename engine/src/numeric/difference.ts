import { type Hull, supportPoint } from './hull.ts'
import { subtract, type Vec3 } from './vector.ts'

/** A corner of the difference A − B, with the points of A and of B it came from. */
export interface Corner {
  w: Vec3
  a: Vec3
  b: Vec3
}

/** How two convex bodies lie to each other. */
export interface Separation {
  /** Sure lower bound of the distance, or zero when they overlap. */
  gap: number
  /** Between which bounds the depth of overlap lies: the least translation that parts them. */
  depth: readonly [least: number, most: number]
  /** Unit vector from A to B across the gap, or the direction in which A must back out, reversed. */
  normal: Vec3
  /** A point between the two. */
  at: Vec3
}

/** A corner of A − B farthest along `d`. */
export function cornerAlong(a: Hull, b: Hull, d: Vec3): Corner {
  const pa = supportPoint(a, d)
  const pb = supportPoint(b, [-d[0], -d[1], -d[2]])
  return { w: subtract(pa, pb), a: pa, b: pb }
}
