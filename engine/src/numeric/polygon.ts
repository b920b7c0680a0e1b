/** A point of a plane. */
export type Point2 = readonly [number, number]
/** Corners in order, the last joined to the first. */
export type Polygon = readonly Point2[]

const at = (polygon: Polygon, i: number): Point2 => polygon[(i + polygon.length) % polygon.length] as Point2
/** Twice the signed area of a triangle; above zero when it turns to the left. */
export const turnOf = (p: Point2, q: Point2, r: Point2): number =>
  (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

/** Area, above zero for corners that go round to the left; centroid, and means of squares about it. */
export interface PolygonIntegrals {
  area: number
  centroid: Point2
  /** Mean of (x − x̄)², (y − ȳ)² and (x − x̄)(y − ȳ). */
  spread: readonly [xx: number, yy: number, xy: number]
}

/** Integrals over a polygon by sums over its edges (the shoelace formula and its higher moments; from memory). */
export function polygonIntegrals(polygon: Polygon): PolygonIntegrals {
  let [area, x, y, xx, yy, xy] = [0, 0, 0, 0, 0, 0]
  for (const [i, [x1, y1]] of polygon.entries()) {
    const [x2, y2] = at(polygon, i + 1)
    const c = x1 * y2 - x2 * y1
    area += c / 2
    x += (c * (x1 + x2)) / 6
    y += (c * (y1 + y2)) / 6
    xx += (c * (x1 * x1 + x1 * x2 + x2 * x2)) / 12
    yy += (c * (y1 * y1 + y1 * y2 + y2 * y2)) / 12
    xy += (c * (x1 * y2 + 2 * x1 * y1 + 2 * x2 * y2 + x2 * y1)) / 24
  }
  const centroid: Point2 = [x / area, y / area]
  const [cx, cy] = centroid
  return { area, centroid, spread: [xx / area - cx * cx, yy / area - cy * cy, xy / area - cx * cy] }
}

/** The same corners, going round to the left. */
export const leftwards = (polygon: Polygon): Polygon =>
  polygonIntegrals(polygon).area < 0 ? [...polygon].reverse() : polygon

/** Two edges that meet away from a common corner, or lie on each other; undefined when there are none. */
export function crossingEdges(polygon: Polygon): readonly [number, number] | undefined {
  for (let i = 0; i < polygon.length; i++)
    for (let j = i + 1; j < polygon.length; j++) if (edgesMeet(polygon, i, j)) return [i, j]
  return undefined
}

function edgesMeet(polygon: Polygon, i: number, j: number): boolean {
  const [a, b, c, d] = [at(polygon, i), at(polygon, i + 1), at(polygon, j), at(polygon, j + 1)]
  if (j === i + 1) return turnOf(a, b, d) === 0 && foldsBack(a, b, d)
  if (i === 0 && j === polygon.length - 1) return turnOf(c, d, b) === 0 && foldsBack(c, d, b)
  const [p, q, r, s] = [turnOf(a, b, c), turnOf(a, b, d), turnOf(c, d, a), turnOf(c, d, b)]
  if (p === 0 && q === 0) return [0, 1].every((k) => overlap(a[k], b[k], c[k], d[k]))
  return p * q <= 0 && r * s <= 0
}

const foldsBack = (a: Point2, b: Point2, d: Point2): boolean =>
  (b[0] - a[0]) * (d[0] - b[0]) + (b[1] - a[1]) * (d[1] - b[1]) < 0
const overlap = (a = 0, b = 0, c = 0, d = 0): boolean =>
  Math.max(Math.min(a, b), Math.min(c, d)) <= Math.min(Math.max(a, b), Math.max(c, d))

/** Whether a point lies in a polygon, or on its edge. */
export function polygonHolds(polygon: Polygon, [x, y]: Point2): boolean {
  let inside = false
  for (const [i, [x1, y1]] of polygon.entries()) {
    const [x2, y2] = at(polygon, i + 1)
    if (turnOf([x1, y1], [x2, y2], [x, y]) === 0 && overlap(x1, x2, x, x) && overlap(y1, y2, y, y)) return true
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside
  }
  return inside
}

export const isConvex = (polygon: Polygon): boolean =>
  polygon.every((p, i) => turnOf(p, at(polygon, i + 1), at(polygon, i + 2)) >= -1e-12)

/**
 * Convex polygons that fill one that goes round to the left without crossing itself: ears are cut off, then parts are put
 * together again across every cut that leaves both corners convex (after Hertel and Mehlhorn; from memory).
 */
export function convexParts(polygon: Polygon): readonly Polygon[] {
  if (isConvex(polygon)) return [polygon]
  return earsOf(polygon).reduce<Polygon[]>((parts, ear) => joinedTo(parts, ear), [])
}

function earsOf(polygon: Polygon): Polygon[] {
  const left = [...polygon]
  const ears: Polygon[] = []
  while (left.length > 3) {
    const i = left.findIndex((_, k) => isEar(left, k))
    const k = Math.max(i, 0)
    const ear = [at(left, k - 1), at(left, k), at(left, k + 1)]
    if (turnOf(...(ear as [Point2, Point2, Point2])) !== 0) ears.push(ear)
    left.splice(k, 1)
  }
  return [...ears, left]
}

function isEar(left: Polygon, k: number): boolean {
  const [p, q, r] = [at(left, k - 1), at(left, k), at(left, k + 1)]
  if (turnOf(p, q, r) <= 0) return turnOf(p, q, r) === 0
  return left.every((c) => c === p || c === q || c === r || !polygonHolds([p, q, r], c))
}

/** An ear put to the first part with which it is convex; a part of its own otherwise. */
function joinedTo(parts: readonly Polygon[], ear: Polygon): Polygon[] {
  for (const [k, part] of parts.entries()) {
    const whole = acrossSharedEdge(part, ear)
    if (whole !== undefined && isConvex(whole)) return parts.map((p, i) => (i === k ? whole : p))
  }
  return [...parts, ear]
}

function acrossSharedEdge(part: Polygon, ear: Polygon): Polygon | undefined {
  for (const [i, p] of part.entries()) {
    const q = at(part, i + 1)
    const j = ear.findIndex((c, k) => c === q && at(ear, k + 1) === p)
    if (j < 0) continue
    const between = Array.from({ length: ear.length - 2 }, (_, k) => at(ear, j + 2 + k))
    return [...part.slice(0, i + 1), ...between, ...part.slice(i + 1)]
  }
  return undefined
}

/** What of a convex polygon lies on one side of a line: coordinate `axis` below `limit`, or above it. */
export function clipped(polygon: Polygon, axis: 0 | 1, limit: number, side: 1 | -1): Polygon {
  return polygon.flatMap((p, i): Point2[] => {
    const q = at(polygon, i + 1)
    const [u, v] = [side * (limit - p[axis]), side * (limit - q[axis])]
    const t = u / (u - v)
    const cut: Point2 = [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]
    return [...(u >= 0 ? [p] : []), ...(u * v < 0 ? [cut] : [])]
  })
}

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

/** Points p with normal · p ≤ most. */
interface HalfPlane {
  normal: Point2
  most: number
}

/**
 * What two convex shapes have in common, by cutting the first along every side of the second. Either may be a polygon that
 * goes round to the left, a segment of two points or one point.
 *
 * @param slack how far apart they still count as meeting
 */
export function commonOf(a: Polygon, b: Polygon, slack: number): Polygon {
  if (a.length < b.length) return commonOf(b, a, slack)
  return sidesOf(b).reduce<Polygon>((left, { normal, most }) => cutAlong(left, normal, most + slack), a)
}

function sidesOf(shape: Polygon): readonly HalfPlane[] {
  if (shape.length === 1) return [...across([1, 0], shape), ...across([0, 1], shape)]
  if (shape.length === 2) {
    const along = unitFrom(at(shape, 0), at(shape, 1))
    return [...across(along, shape), ...across([-along[1], along[0]], shape)]
  }
  return shape.map((p, i) => {
    const [x, y] = unitFrom(p, at(shape, i + 1))
    return { normal: [y, -x], most: y * p[0] - x * p[1] }
  })
}

/** The strip that a shape fills along a direction, as two half-planes. */
function across([x, y]: Point2, shape: Polygon): HalfPlane[] {
  const along = shape.map((p) => x * p[0] + y * p[1])
  return [
    { normal: [x, y], most: Math.max(...along) },
    { normal: [-x, -y], most: -Math.min(...along) },
  ]
}

function unitFrom(p: Point2, q: Point2): Point2 {
  const length = Math.hypot(q[0] - p[0], q[1] - p[1])
  return [(q[0] - p[0]) / length, (q[1] - p[1]) / length]
}

function cutAlong(shape: Polygon, [x, y]: Point2, most: number): Polygon {
  const spare = (p: Point2): number => most - x * p[0] - y * p[1]
  return shape.flatMap((p, i): Point2[] => {
    const q = at(shape, i + 1)
    const [u, v] = [spare(p), spare(q)]
    const t = u / (u - v)
    const cut: Point2 = [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]
    return [...(u >= 0 ? [p] : []), ...(u * v < 0 ? [cut] : [])]
  })
}
