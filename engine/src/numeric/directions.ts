import { cross, dot, subtract, unit, type Vec3 } from './vector.ts'

/** A set of directions, and how far any direction may lie from the nearest of them. */
export interface Spread {
  /** Unit vectors; with each its opposite. */
  directions: readonly Vec3[]
  /** Angle within which every direction has one of these, rad. */
  coverage: number
}

/**
 * Directions through the points of a grid on the faces of a cube, the axes among them: (2n + 1)³ − (2n − 1)³ of them.
 *
 * @param n steps from the middle of a face to its edge
 */
export function spreadDirections(n: number): Spread {
  const steps = Array.from({ length: 2 * n + 1 }, (_, i) => i - n)
  const all = steps.flatMap((x) => steps.flatMap((y) => steps.map((z): Vec3 => [x, y, z])))
  const directions = all.filter((p) => Math.max(...p.map(Math.abs)) === n).map(unit)
  return { directions, coverage: coverageOf(n) }
}

/** No point of a triangle is farther from the nearest corner than its circumscribed circle; symmetry leaves a quarter of one face. */
function coverageOf(n: number): number {
  const cells = Array.from({ length: n }, (_, i) => i)
  return Math.max(...cells.flatMap((y) => cells.map((z) => cellCoverage(n, y, z))))
}

/** Of the two ways to cut a cell into triangles, the better. */
function cellCoverage(n: number, y: number, z: number): number {
  const at = (a: number, b: number): Vec3 => unit([n, a, b])
  const [p, q, r, s] = [at(y, z), at(y + 1, z), at(y + 1, z + 1), at(y, z + 1)]
  return Math.min(
    Math.max(circleAround(p, q, r), circleAround(p, r, s)),
    Math.max(circleAround(p, q, s), circleAround(q, r, s)),
  )
}

/** Angular radius of the circle through three directions. */
const circleAround = (p: Vec3, q: Vec3, r: Vec3): number =>
  Math.acos(Math.min(1, Math.abs(dot(unit(cross(subtract(q, p), subtract(r, p))), p))))
