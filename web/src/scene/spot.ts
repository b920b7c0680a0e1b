import type { Bay } from '@shieldwright/engine/model/index.ts'
import { type Box3, meetInPlan } from './bounds.ts'
import { v2 } from './solids.ts'

/** Kept free between pieces on a bay, m. */
const GAP = 0.4
/** A piece that takes more of a bay than this share lies in its middle; smaller ones in rows from a corner. */
const LARGE = 0.2

/** A place for a piece on its bay. */
export interface Spot {
  centre: readonly [number, number]
  /** Nothing else stands there; else the piece lies on what does. */
  free: boolean
}

/**
 * Where on a bay a piece finds room beside what stands there. The project says which bay, not where on it: large pieces
 * are put in the middle as far as there is room, small ones in rows.
 */
export function spotOn(bay: Bay, [across, deep]: readonly [number, number], standing: readonly Box3[]): Spot {
  const [cx, cy] = v2(bay.centre)
  const [wide, long] = v2(bay.size)
  const edges = [cx - wide / 2, cx + wide / 2, cy - long / 2, cy + long / 2] as const
  const tries = (k: 0 | 1, size: number): number[] => [
    k === 0 ? cx : cy,
    (edges[k * 2] as number) + size / 2,
    (edges[k * 2 + 1] as number) - size / 2,
    ...standing.flatMap((b) => [b.min[k] - GAP - size / 2, b.max[k] + GAP + size / 2]),
  ]
  const large = (across * deep) / (wide * long) > LARGE
  const rank = ([x, y]: readonly [number, number]): number =>
    large ? Math.hypot(x - cx, y - cy) : (edges[3] - y) * 1000 + (x - edges[0])
  const spots = tries(0, across)
    .flatMap((x) => tries(1, deep).map((y) => [x, y] as const))
    .filter(
      ([x, y]) =>
        x - across / 2 >= edges[0] - 1e-6 &&
        x + across / 2 <= edges[1] + 1e-6 &&
        y - deep / 2 >= edges[2] - 1e-6 &&
        y + deep / 2 <= edges[3] + 1e-6,
    )
    .filter(([x, y]) => !standing.some((b) => meetInPlan(around(x, y, across, deep), b, GAP - 1e-6)))
    .sort((a, b) => rank(a) - rank(b))
  const first = spots[0]
  return first === undefined ? { centre: [cx, cy], free: standing.length === 0 } : { centre: first, free: true }
}

const around = (x: number, y: number, across: number, deep: number): Box3 => ({
  min: [x - across / 2, y - deep / 2, 0],
  max: [x + across / 2, y + deep / 2, 0],
})
