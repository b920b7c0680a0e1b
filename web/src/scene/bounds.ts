import { type Pose, place, type Vec3 } from '@shieldwright/engine/numeric/vector.ts'

/** Least and greatest of each coordinate, site frame, m. */
export interface Box3 {
  min: Vec3
  max: Vec3
}

export function boxOf(points: Iterable<Vec3>): Box3 {
  const min: [number, number, number] = [Infinity, Infinity, Infinity]
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity]
  for (const p of points)
    for (let k = 0; k < 3; k++) {
      min[k] = Math.min(min[k] as number, p[k] as number)
      max[k] = Math.max(max[k] as number, p[k] as number)
    }
  return { min, max }
}

export const boxAt = (points: readonly Vec3[], pose: Pose): Box3 => boxOf(points.map((p) => place(pose, p)))

export const middleOf = ({ min, max }: Box3): Vec3 => [
  (min[0] + max[0]) / 2,
  (min[1] + max[1]) / 2,
  (min[2] + max[2]) / 2,
]

/** Boxes that hold those given. */
export const together = (boxes: readonly Box3[]): Box3 => boxOf(boxes.flatMap((b) => [b.min, b.max]))

/** Whether two boxes lie over one another in plan, nearer than a gap. */
export const meetInPlan = (a: Box3, b: Box3, gap: number): boolean =>
  a.min[0] < b.max[0] + gap && b.min[0] < a.max[0] + gap && a.min[1] < b.max[1] + gap && b.min[1] < a.max[1] + gap
