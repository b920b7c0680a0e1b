import type { Body } from './body.ts'
import { ballCell, boxCell, capCell } from './cell-box.ts'
import { meshCell } from './cell-mesh.ts'
import { prismCell } from './cell-prism.ts'
import { revolutionCell } from './cell-profile.ts'
import { frustumSector, ringSector, sectorCell } from './cell-sector.ts'
import type { Cut } from './cut.ts'
import type { Extent, Hull } from './hull.ts'
import type { Pose, Vec3 } from './vector.ts'

/**
 * A piece of a solid between two convex bodies: one that holds it and one that it holds. Where the two agree an answer is
 * sure; where they do not, the cell is split. Convex solids agree at once, curved faces included.
 */
export interface Cell {
  /** Convex, holds the cell. */
  outer: Hull
  /** Convex, held by the cell; undefined while nothing is sure. */
  inner: Hull | undefined
  /** No point of `outer` is farther than this from the cell, m; 0: they agree. */
  loose: number
  extent: Extent
  /** A cylinder no point of the cell lies inside of: what is within it is clear of the cell. */
  bore?: { origin: Vec3; axis: Vec3; radius: number; whole: boolean }
  /** A ball that it surely holds: two of them that meet settle a pair at once. */
  core?: { centre: Vec3; radius: number }
  /** Outward normals of its plane faces, and the middle ones of its curved faces. */
  normals: readonly Vec3[]
  /** Smaller cells that make it up; none when it cannot be split. Each is made once. */
  split(): readonly Cell[]
}

/** The cell of a whole body in a pose, less the cuts. */
export function cellOf(body: Body, pose: Pose, cuts: readonly Cut[] = []): Cell | undefined {
  switch (body.kind) {
    case 'ring sector':
      return sectorCell(ringSector(body, pose), cuts)
    case 'frustum':
      return sectorCell(frustumSector(body, pose), cuts)
    case 'ball':
      return ballCell(body, pose, cuts)
    case 'box':
      return boxCell(body, pose, cuts)
    case 'revolution':
      return revolutionCell(body, pose, cuts)
    case 'prism':
      return prismCell(body, pose, cuts)
    case 'cap':
      return capCell(body, pose, cuts)
    case 'mesh':
      return meshCell(body, pose)
    default:
      return body satisfies never
  }
}
