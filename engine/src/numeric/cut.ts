import type { Body } from './body.ts'
import type { Cell } from './cell.ts'
import { cornersOf, hullOfCap } from './cell-box.ts'
import { cornersOfPrism } from './cell-prism.ts'
import { revolutionCell } from './cell-profile.ts'
import { frustumSector, hullOfSector, ringSector } from './cell-sector.ts'
import { greatestRadius, type Hull, hullOf, placedHull, reachAlong } from './hull.ts'
import { separation } from './separation.ts'
import { add, apply, dot, multiply, type Pose, place, scale, type Vec3 } from './vector.ts'

/** A convex body taken out of a solid. */
export interface Cut {
  hull: Hull
  /** Whether a hull is surely wholly inside. */
  holds(hull: Hull): boolean
}

const HAIR = 1e-9

/**
 * What a cut body takes away. Of a cylinder or box it is exact. Of any other nothing is taken to be sure inside, and a solid
 * cut by one stays undecided near it.
 */
export function cutOf(body: Body, pose: Pose): Cut {
  switch (body.kind) {
    case 'frustum': {
      const { pose: own, front, outer } = frustumSector(body, pose)
      const axis: Vec3 = apply(own.turn, [1, 0, 0])
      return {
        hull: hullOfSector(frustumSector(body, pose)),
        holds: withinCylinder(own.shift, axis, front, Math.min(...outer)),
      }
    }
    case 'box': {
      const turn = multiply(pose.turn, body.turn)
      const centre = place(pose, body.centre)
      return { hull: hullOf(cornersOf(centre, body.half, turn)), holds: withinBox(centre, turn, body.half) }
    }
    case 'ball': {
      const centre = place(pose, body.centre)
      return { hull: hullOf([centre], [], body.radius), holds: () => false }
    }
    case 'ring sector':
      return { hull: hullOfSector(ringSector(body, pose)), holds: () => false }
    case 'revolution': {
      const whole = revolutionCell(body, pose, [])
      return { hull: (whole as Cell).outer, holds: () => false }
    }
    case 'prism': {
      return { hull: placedHull(hullOf(cornersOfPrism(body)), pose), holds: () => false }
    }
    case 'cap':
      return { hull: hullOfCap(body, pose), holds: () => false }
    case 'mesh': {
      const corners = body.mesh.vertices.map((v) => add(scale(v, body.scale), body.at))
      return { hull: placedHull(hullOf(corners), pose), holds: () => false }
    }
    default:
      return body satisfies never
  }
}

const withinCylinder =
  (origin: Vec3, axis: Vec3, length: number, radius: number) =>
  (hull: Hull): boolean =>
    greatestRadius(hull, origin, axis) <= radius + HAIR &&
    reachAlong(hull, axis) <= dot(origin, axis) + length + HAIR &&
    reachAlong(hull, scale(axis, -1)) <= -dot(origin, axis) + HAIR

const withinBox =
  (centre: Vec3, turn: Pose['turn'], half: Vec3) =>
  (hull: Hull): boolean =>
    [0, 1, 2].every((i) => {
      const axis: Vec3 = [turn[0][i] as number, turn[1][i] as number, turn[2][i] as number]
      const middle = dot(centre, axis)
      const reach = (half[i] as number) + HAIR
      return reachAlong(hull, axis) <= middle + reach && reachAlong(hull, scale(axis, -1)) <= reach - middle
    })

/** Cuts that reach into a hull. */
export const cutsInto = (hull: Hull, cuts: readonly Cut[]): readonly Cut[] =>
  cuts.length === 0 ? cuts : cuts.filter((cut) => separation(hull, cut.hull, 0, HAIR).depth[1] > HAIR)

/** Whether one of the cuts takes away all of a hull. */
export const isCutAway = (hull: Hull, cuts: readonly Cut[]): boolean => cuts.some((cut) => cut.holds(hull))
