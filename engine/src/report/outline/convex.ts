/** A point of a view, m: across and up. */
export type Point2 = readonly [u: number, v: number]

/** Twice the signed area of the triangle a, b, c: positive when it turns left. */
export const turnOf = (a: Point2, b: Point2, c: Point2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

/** Convex hull, anticlockwise, without points on its edges; fewer than three points when they lie on one line. */
export function convexHull(points: readonly Point2[]): Point2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1])
  const lower = chain(sorted)
  const upper = chain(sorted.reverse())
  return [...lower.slice(0, -1), ...upper.slice(0, -1)]
}

function chain(sorted: readonly Point2[]): Point2[] {
  const hull: Point2[] = []
  for (const p of sorted) {
    while (hull.length > 1 && turnOf(hull.at(-2) as Point2, hull.at(-1) as Point2, p) <= 0) hull.pop()
    hull.push(p)
  }
  return hull
}

/** Signed area of a closed loop: positive anticlockwise. */
export const loopArea = (loop: readonly Point2[]): number =>
  loop.reduce((sum, [u, v], i) => {
    const [nextU, nextV] = loop[(i + 1) % loop.length] as Point2
    return sum + (u * nextV - v * nextU) / 2
  }, 0)

/** Least and greatest of each coordinate. */
export interface Frame2 {
  left: number
  right: number
  bottom: number
  top: number
}

export function frameOf(points: readonly Point2[]): Frame2 {
  const frame = { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity }
  for (const [u, v] of points) {
    frame.left = Math.min(frame.left, u)
    frame.right = Math.max(frame.right, u)
    frame.bottom = Math.min(frame.bottom, v)
    frame.top = Math.max(frame.top, v)
  }
  return frame
}
