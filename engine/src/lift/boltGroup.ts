import { add, cross, dot, norm, scale, subtract, unit, type Vec3, ZERO } from '../numeric/vector.ts'

/** Shear and tension of each bolt of a group, N, and what is left of force (N) and moment (N m) when they are summed again. */
export interface BoltForces {
  shear: number[]
  tension: number[]
  residual: { force: number; moment: number }
}

/**
 * Forces of a group of like bolts in a stiff joint: elastic, turning about the middle of the group. A bolt that would be
 * pressed has a tension below zero: there the faces press instead.
 *
 * @param places of the bolts from the middle of the group, in the plane of the joint, m
 * @param axis of the bolts, away from what they hold on to; a unit
 * @param force on what is held, N, and its moment about the middle of the group, N m
 */
export function boltForces(places: readonly Vec3[], axis: Vec3, force: Vec3, moment: Vec3): BoltForces {
  const [u, v] = planeOf(axis)
  const n = places.length
  const polar = places.reduce((sum, r) => sum + dot(r, r), 0)
  const across = subtract(force, scale(axis, dot(force, axis)))
  const twist = dot(moment, axis)
  const shears = places.map((r) => add(scale(across, 1 / n), scale(cross(axis, r), polar > 0 ? twist / polar : 0)))
  const tension = tensions(places, axis, u, v, force, moment)
  const pulls = places.map((_, i) => add(shears[i] as Vec3, scale(axis, tension[i] as number)))
  const total = pulls.reduce<Vec3>(add, ZERO)
  const turning = pulls.reduce<Vec3>((sum, pull, i) => add(sum, cross(places[i] as Vec3, pull)), ZERO)
  return {
    shear: shears.map(norm),
    tension,
    residual: { force: norm(subtract(total, force)), moment: norm(subtract(turning, moment)) },
  }
}

/** Two directions in the plane of the joint. */
export function planeOf(axis: Vec3): [Vec3, Vec3] {
  const near: Vec3 = Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [0, 1, 0]
  const u = unit(cross(near, axis))
  return [u, cross(axis, u)]
}

/** Tension grows evenly across the group: a + b·u + c·v, from the force along the bolts and the two moments. */
function tensions(places: readonly Vec3[], axis: Vec3, u: Vec3, v: Vec3, force: Vec3, moment: Vec3): number[] {
  const mean = dot(force, axis) / places.length
  const [x, y] = [places.map((r) => dot(r, u)), places.map((r) => dot(r, v))]
  const sum = (f: (i: number) => number): number => places.reduce((s, _, i) => s + f(i), 0)
  const [xx, yy, xy] = [
    sum((i) => (x[i] as number) ** 2),
    sum((i) => (y[i] as number) ** 2),
    sum((i) => (x[i] as number) * (y[i] as number)),
  ]
  const [M_u, M_v] = [dot(moment, u), dot(moment, v)]
  const det = xx * yy - xy * xy
  if (det <= 0) return places.map(() => (M_u === 0 && M_v === 0 ? mean : Number.NaN))
  const b = (-M_v * yy - M_u * xy) / det
  const c = (M_u * xx + M_v * xy) / det
  return places.map((_, i) => mean + b * (x[i] as number) + c * (y[i] as number))
}
