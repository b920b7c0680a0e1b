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
} from './hull.ts'
import { apply, compose, type Pose, rotationBy, scale, subtract, type Vec3, ZERO } from './vector.ts'

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
    halves: () => [],
  }
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
 * in the hull of its two ends grown by the rise of its widest arc, and that hull lies within twice the rise of what is passed.
 */
export function turningMotion(turning: Turning): Motion {
  const { axis, about, from, to } = turning
  const half = Math.abs(to - from) / 2
  const [first, last] = [poseAt(turning, from), poseAt(turning, to)]
  const rise = (hull: Hull): number =>
    greatestRadius(placedHull(hull, first), about, axis) * (half > Math.PI / 2 ? 2 : 1 - Math.cos(half))
  const ends = (hull: Hull, grown: number): Hull =>
    hullAround(placedHull(hull, first), placedHull(hull, last), hull.round + grown)
  const passed = (hull: Hull): Hull => ends(hull, rise(hull))
  return {
    passed,
    surelyPassed: (hull) => ends(hull, -2 * rise(hull)),
    extent: (cell) => extentOf(passed(cell.outer)),
    loose: (cell) => 3 * rise(cell.outer),
    radiusFrom: () => undefined,
    halves: () => {
      const middle = (from + to) / 2
      return half < FINEST
        ? []
        : [turningMotion({ ...turning, to: middle }), turningMotion({ ...turning, from: middle })]
    },
  }
}

/** The pose reached at an angle of the turn. */
export function poseAt({ pose, axis, about }: Turning, angle: number): Pose {
  const turn = rotationBy(scale(axis, angle))
  return compose({ turn, shift: subtract(about, apply(turn, about)) }, pose)
}
