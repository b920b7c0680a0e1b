import type { Cell } from './cell.ts'
import {
  type Extent,
  extentOf,
  greatestRadius,
  type Hull,
  hullAround,
  movedExtent,
  movedHull,
  placedHull,
  widestPoint,
} from './hull.ts'
import { add, apply, compose, type Pose, rotationBy, scale, subtract, type Vec3, ZERO } from './vector.ts'

/** One leg of a path, as convex bodies see it. */
export interface Motion {
  /** Convex, holds all that a hull passes. */
  passed(hull: Hull): Hull
  /** Convex, taken for what is surely passed. */
  surelyPassed(hull: Hull): Hull
  extent(cell: Cell): Extent
  /** How far `passed` and `surelyPassed` may lie from what is truly passed, m. */
  loose(cell: Cell): number
  /** Greatest distance of what stays from a line that moves along, over the leg; undefined where that is not known. */
  radiusFrom(stays: Hull, origin: Vec3, axis: Vec3): number | undefined
  /** Where on what stays that is, and the unit vector out from the line; only where `radiusFrom` is known. */
  widestFrom(stays: Hull, origin: Vec3, axis: Vec3): { at: Vec3; out: Vec3 }
  /** The leg in two halves; none when it is exact or as fine as it can be. */
  halves(): readonly Motion[]
}

/** A straight leg: from a pose by `sweep`. What a convex body passes is convex, so this is exact. */
export function straightMotion(pose: Pose, sweep: Vec3): Motion {
  if (!isUnturned(pose)) return turnedStraightMotion(pose, sweep)
  const { shift } = pose
  const [back, backwards] = [scale(shift, -1), scale(sweep, -1)]
  return {
    passed: (hull) => movedHull(hull, shift, sweep),
    surelyPassed: (hull) => movedHull(hull, shift, sweep),
    extent: (cell) => movedExtent(cell.extent, shift, sweep),
    loose: () => 0,
    radiusFrom: (stays, origin, axis) => greatestRadius(movedHull(stays, back, backwards), origin, axis),
    widestFrom: (stays, origin, axis) => {
      const ends = [shift, add(shift, sweep)].map((by) => {
        const seen = movedHull(stays, scale(by, -1), ZERO)
        const { at, out } = widestPoint(seen, origin, axis)
        return { radius: greatestRadius(seen, origin, axis), at: add(at, by), out }
      })
      return ends.reduce((widest, end) => (end.radius > widest.radius ? end : widest))
    },
    halves: () => [],
  }
}

function turnedStraightMotion(pose: Pose, sweep: Vec3): Motion {
  const passed = (hull: Hull): Hull => movedHull(placedHull(hull, pose), ZERO, sweep)
  return {
    passed,
    surelyPassed: passed,
    extent: (cell) => extentOf(passed(cell.outer)),
    loose: () => 0,
    radiusFrom: () => undefined,
    widestFrom: nowhere,
    halves: () => [],
  }
}

function nowhere(): never {
  throw new Error('where a turned body is widest was asked for without its radius')
}

const SAME = 1e-12

/** Whether a pose only shifts. */
export const isUnturned = ({ turn }: Pose): boolean =>
  turn.every((row, i) => row.every((x, j) => Math.abs(x - Number(i === j)) < SAME))

/** A turn from one angle to another, after a pose. */
export interface Turning {
  pose: Pose
  /** Unit vector, right-handed. */
  axis: Vec3
  /** A point of the axis. */
  about: Vec3
  from: number
  to: number
}

const FINEST = 1e-4

/**
 * A turn about a line. Every point goes along an arc; the arc lies within its rise of the chord, so what a hull passes lies
 * in the hull of its two ends grown by the rise of its widest arc. What is surely passed is the hull where it is half way:
 * no point of the former lies farther from it than the half of the turn carries one. The hull of the two ends, drawn in by
 * the rise, is not surely passed: a bar turned about its middle leaves out the notches between its ends.
 */
export function turningMotion(turning: Turning): Motion {
  const { axis, about, from, to } = turning
  const half = Math.abs(to - from) / 2
  const [first, middle, last] = [poseAt(turning, from), poseAt(turning, (from + to) / 2), poseAt(turning, to)]
  const rise = half > Math.PI / 2 ? 2 : 1 - Math.cos(half)
  const passed = (hull: Hull): Hull => {
    const start = placedHull(hull, first)
    return hullAround(start, placedHull(hull, last), hull.round + rise * greatestRadius(start, about, axis))
  }
  return {
    passed,
    surelyPassed: (hull) => placedHull(hull, middle),
    extent: (cell) => extentOf(passed(cell.outer)),
    loose: (cell) =>
      greatestRadius(placedHull(cell.outer, first), about, axis) * (rise + 2 * Math.sin(Math.min(half, Math.PI) / 2)),
    radiusFrom: () => undefined,
    widestFrom: nowhere,
    halves: () => {
      const between = (from + to) / 2
      return half < FINEST
        ? []
        : [turningMotion({ ...turning, to: between }), turningMotion({ ...turning, from: between })]
    },
  }
}

/** The pose reached at an angle of the turn. */
export function poseAt({ pose, axis, about }: Turning, angle: number): Pose {
  const turn = rotationBy(scale(axis, angle))
  return compose({ turn, shift: subtract(about, apply(turn, about)) }, pose)
}
