/** Closed plane polygons, corners in order, counter-clockwise. Pure geometry. */
export type Point2 = readonly [number, number]

/** A point turned about the origin, to the left. */
export const turned = ([x, y]: Point2, angle: number): Point2 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  return [x * c - y * s, x * s + y * c]
}

/** Area, centroid and second moments about the centroid: Σ over the corners, exact. */
export interface Section {
  area: number
  centroid: Point2
  /** ∫x², ∫y², ∫xy about the centroid. */
  xx: number
  yy: number
  xy: number
}

/**
 * The polygon that touches a convex shape on every one of `count` sides, evenly turned.
 *
 * @param support greatest p · (cos a, sin a) over the shape
 * @param count sides; a multiple of four keeps rectangles along the axes exact
 */
export function polygonAround(support: (direction: Point2) => number, count: number): Point2[] {
  const angles = Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count)
  return polygonOf(angles.map((a) => support([Math.cos(a), Math.sin(a)])))
}

/** The same from the reach in each direction, evenly turned from the first axis. */
export function polygonOf(reach: readonly number[]): Point2[] {
  const turn = (2 * Math.PI) / reach.length
  return reach.map((h, i): Point2 => {
    const a = turn * i
    const along = ((reach[(i + 1) % reach.length] as number) - h * Math.cos(turn)) / Math.sin(turn)
    return [h * Math.cos(a) - along * Math.sin(a), h * Math.sin(a) + along * Math.cos(a)]
  })
}

/** Section properties of a polygon; of no area, they are zero and the centroid is a corner. */
export function sectionOf(corners: readonly Point2[]): Section {
  const [ox, oy] = corners[0] as Point2
  const sum = { a: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0 }
  for (const [i, [px, py]] of corners.entries()) {
    const [qx, qy] = corners[(i + 1) % corners.length] as Point2
    const [x0, y0, x1, y1] = [px - ox, py - oy, qx - ox, qy - oy]
    const cross = x0 * y1 - x1 * y0
    sum.a += cross / 2
    sum.x += (cross * (x0 + x1)) / 6
    sum.y += (cross * (y0 + y1)) / 6
    sum.xx += (cross * (x0 * x0 + x0 * x1 + x1 * x1)) / 12
    sum.yy += (cross * (y0 * y0 + y0 * y1 + y1 * y1)) / 12
    sum.xy += (cross * (x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0)) / 24
  }
  if (sum.a === 0) return { area: 0, centroid: [ox, oy], xx: 0, yy: 0, xy: 0 }
  const [cx, cy] = [sum.x / sum.a, sum.y / sum.a]
  return {
    area: sum.a,
    centroid: [cx + ox, cy + oy],
    xx: sum.xx - sum.a * cx * cx,
    yy: sum.yy - sum.a * cy * cy,
    xy: sum.xy - sum.a * cx * cy,
  }
}

/**
 * Reach of the kern towards a direction: a load that far off centre just takes the pressure at the far side to zero, or
 * doubles it at the near side, whichever comes first.
 */
export function kernReach(corners: readonly Point2[], section: Section, [ux, uy]: Point2): number {
  const determinant = section.xx * section.yy - section.xy ** 2
  if (determinant <= 0) return 0
  const gx = (section.yy * ux - section.xy * uy) / determinant
  const gy = (section.xx * uy - section.xy * ux) / determinant
  const [cx, cy] = section.centroid
  const most = Math.max(...corners.map(([x, y]) => Math.abs(gx * (x - cx) + gy * (y - cy))))
  return 1 / (section.area * most)
}
