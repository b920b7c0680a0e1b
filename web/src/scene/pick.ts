import { Matrix4, type Plane, Plane as PlaneOf, type Ray, Ray as RayOf, Vector3 } from 'three'
import { type Batch, seenOf } from './batch.ts'

/** What a ray meets first. */
export interface Hit {
  item: number
  at: Vector3
  away: number
  /** Corners of the triangle, site frame. */
  corners: readonly [Vector3, Vector3, Vector3]
}

const matrix = new Matrix4()
const inverse = new Matrix4()
const local = new RayOf()
const [a, b, c, met, centre] = [new Vector3(), new Vector3(), new Vector3(), new Vector3(), new Vector3()]

/** The matrix of an item as its row has it. */
export function matrixOf({ rows }: Batch, item: number, into = matrix): Matrix4 {
  const k = item * 20
  const r = (i: number): number => rows[k + i] as number
  return into.set(r(0), r(1), r(2), r(3), r(4), r(5), r(6), r(7), r(8), r(9), r(10), r(11), 0, 0, 0, 1)
}

function corner({ positions, index }: Batch, at: number, into: Vector3): Vector3 {
  const k = (index[at] as number) * 3
  return into.set(positions[k] as number, positions[k + 1] as number, positions[k + 2] as number)
}

/**
 * What a ray meets first of what is wholly seen, on the side of the cut that is left.
 *
 * @param counts which items count
 */
export function firstHit(
  batch: Batch,
  ray: Ray,
  cut: Plane | undefined,
  counts: (item: number) => boolean,
): Hit | undefined {
  let best: Hit | undefined
  batch.ranges.forEach((range, item) => {
    if (range.count === 0 || seenOf(batch, item) < 1 || !counts(item)) return
    matrixOf(batch, item)
    if (!nearSphere(ray, range.centre, range.radius)) return
    inverse.copy(matrix).invert()
    local.copy(ray).applyMatrix4(inverse)
    for (let k = range.from; k < range.from + range.count; k += 3) {
      corner(batch, k, a)
      corner(batch, k + 1, b)
      corner(batch, k + 2, c)
      if (local.intersectTriangle(a, b, c, false, met) === null) continue
      met.applyMatrix4(matrix)
      const away = met.distanceTo(ray.origin)
      if (best !== undefined && away >= best.away) continue
      if (cut !== undefined && cut.distanceToPoint(met) < 0) continue
      const corners = [a, b, c].map((p) => p.clone().applyMatrix4(matrix)) as [Vector3, Vector3, Vector3]
      best = { item, at: met.clone(), away, corners }
    }
  })
  return best
}

/** Spheres are stretched with their item: a boom's grows as it does. */
function nearSphere(ray: Ray, middle: Vector3, radius: number): boolean {
  centre.copy(middle).applyMatrix4(matrix)
  const grown = radius * matrix.getMaxScaleOnAxis() + 1e-6
  return ray.distanceSqToPoint(centre) <= grown * grown
}

/** Items that a ray passes before it has gone this far, on the side of the cut that is left. */
export function passedBefore(
  batch: Batch,
  ray: Ray,
  away: number,
  cut: Plane | undefined,
  counts: (item: number) => boolean,
): number[] {
  return batch.ranges.flatMap((_, item) => (counts(item) && passesItem(batch, item, ray, away, cut) ? [item] : []))
}

/** Whether it passes any of them: no further one is asked. */
export const passes = (
  batch: Batch,
  ray: Ray,
  away: number,
  cut: Plane | undefined,
  counts: (item: number) => boolean,
): boolean => batch.ranges.some((_, item) => counts(item) && passesItem(batch, item, ray, away, cut))

function passesItem(batch: Batch, item: number, ray: Ray, away: number, cut: Plane | undefined): boolean {
  const range = batch.ranges[item]
  if (range === undefined || range.count === 0 || seenOf(batch, item) <= 0) return false
  matrixOf(batch, item)
  if (!nearSphere(ray, range.centre, range.radius)) return false
  inverse.copy(matrix).invert()
  local.copy(ray).applyMatrix4(inverse)
  for (let k = range.from; k < range.from + range.count; k += 3) {
    corner(batch, k, a)
    corner(batch, k + 1, b)
    corner(batch, k + 2, c)
    if (local.intersectTriangle(a, b, c, false, met) === null) continue
    if (met.applyMatrix4(matrix).distanceTo(ray.origin) >= away - 1e-3) continue
    if (cut === undefined || cut.distanceToPoint(met) >= 0) return true
  }
  return false
}

const own = new PlaneOf()

/** Lines in which a plane cuts what is wholly seen: each triangle is asked in the frame of its item. */
export function cutLines(batch: Batch, plane: Plane, add: (p: Vector3, q: Vector3) => void): void {
  const { positions, index } = batch
  batch.ranges.forEach((range, item) => {
    if (range.count === 0 || seenOf(batch, item) < 1) return
    matrixOf(batch, item)
    centre.copy(range.centre).applyMatrix4(matrix)
    if (Math.abs(plane.distanceToPoint(centre)) > range.radius * matrix.getMaxScaleOnAxis()) return
    own.copy(plane).applyMatrix4(inverse.copy(matrix).invert())
    const { x, y, z } = own.normal
    const away = (at: number): number => {
      const k = (index[at] as number) * 3
      return (
        x * (positions[k] as number) +
        y * (positions[k + 1] as number) +
        z * (positions[k + 2] as number) +
        own.constant
      )
    }
    for (let k = range.from; k < range.from + range.count; k += 3) {
      const [d, e, f] = [away(k), away(k + 1), away(k + 2)]
      if (d > 0 === e > 0 && e > 0 === f > 0) continue
      const alone = d > 0 === e > 0 ? 2 : d > 0 === f > 0 ? 1 : 0
      const [p, q, r] = alone === 0 ? [d, e, f] : alone === 1 ? [e, f, d] : [f, d, e]
      corner(batch, k + alone, a)
      corner(batch, k + ((alone + 1) % 3), b)
      corner(batch, k + ((alone + 2) % 3), c)
      b.lerpVectors(a, b, p / (p - q)).applyMatrix4(matrix)
      c.lerpVectors(a, c, p / (p - r)).applyMatrix4(matrix)
      add(b, c)
    }
  })
}
