import type { Box } from '../numeric/segment.ts'
import { add, dot, type Pose, scale, type Vec3 } from '../numeric/vector.ts'
import type { Hull } from './hull.ts'
import { fan, shadowsOf } from './swept.ts'

const PLAN = 24
/** Directions in which things are held apart: all round in plan, then up and down. The opposite of each is among them. */
export const APART: readonly Vec3[] = [...fan(PLAN), [0, 0, 1], [0, 0, -1]]
const OPPOSITE = APART.map((_, k) => (k < PLAN ? (k + PLAN / 2) % PLAN : k === PLAN ? PLAN + 1 : PLAN))

/** How far something reaches in each direction of `APART`, site frame, m. */
export type Reaches = readonly number[]

/** Whether a direction of `APART` lies in plan, by its index. */
export const isInPlan = (k: number): boolean => k < PLAN

/** How far a hull reaches at a pose. */
export const reachesAt = (hull: Hull, pose: Pose): Reaches => shadowsOf(hull, [pose], APART)[0] as number[]

/** How far a box reaches that stands square to the site's axes, from its middle and its half sizes. */
export const boxReaches = (middle: Vec3, half: Vec3): Reaches =>
  APART.map((d) => dot(middle, d) + half.reduce((sum, h, i) => sum + h * Math.abs(d[i] as number), 0))

/** Lowest and highest of what reaches so far, site z, m. */
export const heightsOf = (reach: Reaches): readonly [low: number, high: number] => [
  -(reach[PLAN + 1] as number),
  reach[PLAN] as number,
]

/** The box about what reaches so far. */
export const boxOf = (reach: Reaches): Box => {
  const at = (k: number): number => reach[k] as number
  return {
    low: [-at(PLAN / 2), -at((3 * PLAN) / 4), -at(PLAN + 1)],
    high: [at(0), at(PLAN / 4), at(PLAN)],
  }
}

/**
 * How far two things are apart at least: the largest gap over all directions, never more than it is; below zero where they may
 * meet. And where: a point at the face of the first over against the middle of the second, and the way from it.
 */
export function apart(piece: Reaches, thing: Reaches): { gap: number; from: Vec3; along: Vec3 } {
  let [gap, k] = [Number.NEGATIVE_INFINITY, 0]
  for (let i = 0; i < APART.length; i++) {
    const between = -(thing[OPPOSITE[i] as number] as number) - (piece[i] as number)
    if (between > gap) [gap, k] = [between, i]
  }
  const along = APART[k] as Vec3
  return { gap, from: faceOf(thing, along, piece[k] as number), along }
}

function faceOf(reach: Reaches, along: Vec3, swept: number): Vec3 {
  const middle = (k: number): number => ((reach[k] as number) - (reach[OPPOSITE[k] as number] as number)) / 2
  const centre: Vec3 = [middle(0), middle(PLAN / 4), middle(PLAN)]
  return add(centre, scale(along, swept - dot(centre, along)))
}
