import type { Cell } from './cell.ts'
import { cornersOf } from './cell-box.ts'
import { extentAround, hullAround, hullOf } from './hull.ts'
import { IDENTITY, type Vec3 } from './vector.ts'

/** One cell around several that make up a solid which is not convex; the cell itself where there is one. */
export function cellAround(cells: readonly Cell[]): Cell | undefined {
  const [first] = cells
  if (first === undefined || cells.length === 1) return first
  const extent = extentAround(cells.map((c) => c.extent))
  const at = (sign: number): Vec3 => [
    (extent[3] + sign * extent[0]) / 2,
    (extent[4] + sign * extent[1]) / 2,
    (extent[5] + sign * extent[2]) / 2,
  ]
  const plain = cells.every(({ outer }) => outer.round === 0 && outer.caps === undefined)
  return {
    outer: plain
      ? cells.map(({ outer }) => outer).reduce((a, b) => hullAround(a, b, 0))
      : hullOf(cornersOf(at(1), at(-1), IDENTITY)),
    inner: undefined,
    loose: 2 * Math.hypot(...at(-1)),
    extent,
    normals: cells.flatMap((c) => c.normals),
    split: () => cells,
  }
}
