import type { Cell } from '../numeric/cell.ts'
import type { Separation } from '../numeric/difference.ts'
import { boreGap } from '../numeric/encounter.ts'
import { movedHull, reachAlong } from '../numeric/hull.ts'
import { type Motion, straightMotion } from '../numeric/motion.ts'
import { boxesMeet, clearOf } from '../numeric/prune.ts'
import { separation } from '../numeric/separation.ts'
import { AT_REST, cross, dot, norm, scale, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import type { PartCells } from './shape.ts'

/** Whether one part blocks another along a direction; `open`: the inner and the outer shapes disagree. */
export type Block = 'free' | 'blocked' | 'open'

/** Solids of two parts that may overlap as found, by their places in the two lists: `i/j`. */
export type MayOverlap = readonly string[]

/** Two cells of a pair of parts, with what has been learnt of them: it holds for every direction. */
interface CellPair {
  a: Cell
  b: Cell
  /** Unit normals from `a` to `b` of planes that part the two: whoever does not go along one stays clear. */
  parting: Vec3[]
  /** Whether one lies in the bore of the other where they stand, once that has been asked: no way makes it lie in it. */
  bored?: boolean
  /** The looser of the two in its halves, once that has been needed. */
  halves?: readonly CellPair[]
}

const pairOf = (a: Cell, b: Cell): CellPair => ({ a, b, parting: [] })

/**
 * How part `a`, moved along a direction without end, fares against part `b`, for one direction after another. What a convex
 * body passes is convex, so one distance or one depth decides a convex pair; inner and outer shapes that disagree are split.
 * A plane that parts two cells frees half of all directions at once.
 */
export function blockBetween(
  a: PartCells,
  b: PartCells,
  tolerance: number,
  mayOverlap: MayOverlap = [],
): (direction: Vec3) => Block {
  const pairs = a.solids.flatMap((p) =>
    b.solids.flatMap((q) => (mayOverlap.includes(`${p.index}/${q.index}`) ? [] : [pairOf(p.cell, q.cell)])),
  )
  const far = clearOf(a.extent, b.extent)
  return (direction) => blockOf(pairs, direction, far, tolerance)
}

const MOST_PAIRS = 50_000
/** That two overlap by more than the tolerance is all that is asked, not by how much. */
const ENOUGH = Number.POSITIVE_INFINITY

function blockOf(pairs: readonly CellPair[], direction: Vec3, far: number, tolerance: number): Block {
  if (pairs.some((pair) => coresOf(pair, direction, tolerance))) return 'blocked'
  const sweep = scale(direction, far)
  let motion: Motion | undefined
  const stack = nearestLast(pairs, direction)
  let worst: Block = 'free'
  for (let compared = 0; compared < MOST_PAIRS; compared++) {
    const pair = stack.pop()
    if (pair === undefined) return worst
    const { a, b, parting } = pair
    if (parting.some((n) => dot(n, direction) <= 0) || !boxesMeet(a.extent, b.extent, direction)) continue
    if (isBored(pair)) {
      motion ??= straightMotion(AT_REST, sweep)
      if (boreGap({ a, b, motion }) !== undefined) continue
    }
    const outer = separation(movedHull(a.outer, ZERO, sweep), b.outer, 0, tolerance, ENOUGH)
    if (outer.gap > 0 || outer.depth[1] <= tolerance) {
      if (parts(pair, outer.normal, tolerance)) parting.push(outer.normal)
      continue
    }
    if (sureDepth(pair, sweep, outer, tolerance) > tolerance) return 'blocked'
    const halves = a.loose + b.loose <= tolerance / 4 ? [] : halvesOf(pair)
    if (halves.length === 0) worst = 'open'
    stack.push(...nearestLast(halves, direction))
  }
  return 'open'
}

const STILL = straightMotion(AT_REST, ZERO)

function isBored(pair: CellPair): boolean {
  const { a, b } = pair
  pair.bored ??= (mayLieIn(a, b.bore) || mayLieIn(b, a.bore)) && boreGap({ a, b, motion: STILL }) !== undefined
  return pair.bored
}

/** Whether the ball inside a cell lies in a bore: where it does not, the cell cannot. */
function mayLieIn({ core }: Cell, bore: Cell['bore']): boolean {
  if (bore === undefined || core === undefined) return bore !== undefined
  const off = cross(subtract(core.centre, bore.origin), bore.axis)
  return norm(off) + core.radius <= bore.radius + HAIR
}

const HAIR = 1e-6

/** Whether balls inside two cells meet, or inside the halves that have been made of them. */
function coresOf({ a, b, halves, parting }: CellPair, d: Vec3, tolerance: number): boolean {
  if (parting.length > 0 && parting.some((n) => dot(n, d) <= 0)) return false
  if (halves !== undefined)
    return boxesMeet(a.extent, b.extent, d) && halves.some((half) => coresOf(half, d, tolerance))
  return coresMeet(a, b, d, tolerance)
}

/** Whether balls inside the two meet, by more than is tolerated: a collision that is sure without a closer look. */
function coresMeet({ core: own }: Cell, { core: other }: Cell, d: Vec3, tolerance: number): boolean {
  if (own === undefined || other === undefined) return false
  const [x, y, z] = subtract(other.centre, own.centre)
  const along = Math.max(0, x * d[0] + y * d[1] + z * d[2])
  const reach = own.radius + other.radius - tolerance
  const off2 = (x - along * d[0]) ** 2 + (y - along * d[1]) ** 2 + (z - along * d[2]) ** 2
  return reach > 0 && off2 < reach * reach
}

/** Pairs with the one last that the way goes through most nearly by the middle: it is the likeliest to be struck. */
function nearestLast(pairs: readonly CellPair[], d: Vec3): CellPair[] {
  if (pairs.length < 2) return [...pairs]
  const measured = pairs.map((pair) => ({ pair, off: missed(pair, d) }))
  return measured.sort((p, q) => q.off - p.off).map(({ pair }) => pair)
}

/** Distance at which the middle of the one passes that of the other. */
function missed({ a, b }: CellPair, d: Vec3): number {
  const [p, q] = [a.extent, b.extent]
  const between: Vec3 = [q[0] + q[3] - p[0] - p[3], q[1] + q[4] - p[1] - p[4], q[2] + q[5] - p[2] - p[5]]
  return norm(cross(between, d)) + (dot(between, d) < 0 ? norm(between) : 0)
}

/** Depth of what the inner shapes surely pass. */
function sureDepth({ a, b }: CellPair, sweep: Vec3, outer: Separation, tolerance: number): number {
  if (a.loose + b.loose === 0) return outer.depth[0]
  if (a.inner === undefined || b.inner === undefined) return 0
  return separation(movedHull(a.inner, ZERO, sweep), b.inner, 0, tolerance, ENOUGH).depth[0]
}

function halvesOf(pair: CellPair): readonly CellPair[] {
  pair.halves ??= splitOf(pair)
  return pair.halves
}

/** The looser first; the other where that one cannot be split. */
function splitOf({ a, b }: CellPair): readonly CellPair[] {
  const looser = a.loose >= b.loose
  const parts = (looser ? a : b).split()
  if (parts.length > 0) return parts.map((part) => (looser ? pairOf(part, b) : pairOf(a, part)))
  return (looser ? b : a).split().map((part) => (looser ? pairOf(a, part) : pairOf(part, b)))
}

/** Whether the plane of a normal parts the two where they stand, but for what is tolerated. */
const parts = ({ a, b }: CellPair, n: Vec3, tolerance: number): boolean =>
  reachAlong(a.outer, n) + reachAlong(b.outer, scale(n, -1)) <= tolerance
