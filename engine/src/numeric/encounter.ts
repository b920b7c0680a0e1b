import type { Cell } from './cell.ts'
import type { Separation } from './difference.ts'
import { extentGap, greatestRadius, reachAlong, widestPoint } from './hull.ts'
import type { Motion } from './motion.ts'
import { separation } from './separation.ts'
import { add, dot, scale, type Vec3 } from './vector.ts'

export interface Limits {
  /** Overlap up to this depth is a contact, not a collision, m. */
  tolerance: number
  /** Gaps above this are not looked into, m; 0: only collisions are of interest. */
  reach: number
  /** Gaps are found to within this, m, or to a fiftieth. */
  resolution: number
  /** Look for the deepest overlap instead of ending at the first. */
  deepest?: boolean
}

/** How a body that moves meets one that stays. */
export interface Encounter {
  /** `open`: the inner and the outer shapes disagree, down to the finest cells looked at. */
  verdict: 'clear' | 'struck' | 'open'
  /** Sure lower bound of the least gap along the leg; `reach` when there is none as near as that. */
  gap: number
  /** Sure lower bound of the depth where struck; the greatest that it may have where open. */
  depth: number
  at: Vec3
  /** From the moving to the standing body. */
  normal: Vec3
  /** Pairs of convex bodies compared: the count of work. */
  compared: number
}

const MOST_PAIRS = 50_000
/** How many more comparisons the deepest overlap is worth, once there is one. */
const MOST_AFTER = 500
const NOWHERE: Vec3 = [0, 0, 0]

export interface Pair {
  a: Cell
  b: Cell
  motion: Motion
}

/**
 * A body along one leg of a path against one that stands: struck, clear, or not decided. Convex cells are compared by their
 * outer shapes, then by their inner ones, and split where the two disagree.
 */
export function encounter(
  moving: readonly Cell[],
  standing: readonly Cell[],
  motion: Motion,
  limits: Limits,
): Encounter {
  const search = new Search(limits)
  for (const a of moving) for (const b of standing) search.stack.push({ a, b, motion })
  return search.run()
}

/** The state of one search; it has a beginning and an end, and nothing outlives it. */
class Search {
  readonly stack: Pair[] = []
  private readonly found: Encounter
  /** No gap above this can be the least. */
  private most: number
  /** Comparisons after which the deepest overlap so far is taken. */
  private last = Number.POSITIVE_INFINITY

  constructor(private readonly limits: Limits) {
    this.most = limits.reach
    this.found = { verdict: 'clear', gap: limits.reach, depth: 0, at: NOWHERE, normal: NOWHERE, compared: 0 }
  }

  run(): Encounter {
    for (let pair = this.stack.pop(); pair !== undefined; pair = this.stack.pop()) {
      const struck = this.found.verdict === 'struck'
      if (struck && (this.limits.deepest !== true || this.found.compared > this.last)) break
      if (this.found.compared > MOST_PAIRS) return { ...this.found, verdict: 'open', depth: this.limits.tolerance }
      this.compare(pair)
    }
    return this.found
  }

  private compare(pair: Pair): void {
    const { a, b, motion } = pair
    if (extentGap(motion.extent(a), b.extent) > this.most) return
    this.found.compared++
    const apart = separation(motion.passed(a.outer), b.outer, this.most, this.bar())
    const within = boreGap(pair)
    if (within !== undefined) this.noteBore(pair, apart, within)
    else if (apart.gap > 0 || apart.depth[1] <= this.bar()) this.noteGap(pair, apart)
    else this.noteOverlap(pair, apart)
  }

  /**
   * Whatever lies in a bore does not strike it. Of a whole bore the gap is taken as if the bore went on: exact where the widest
   * of the way lies in its length, and less than the true one where that lies beyond. Of a part of a bore it is a lower bound.
   */
  private noteBore(pair: Pair, apart: Separation, within: BoreGap): void {
    if (Math.max(within.gap, apart.gap) > this.most) return
    if (apart.gap > within.gap) {
      this.noteGap(pair, apart)
      return
    }
    const there = { ...apart, ...placeInBore(pair, within), gap: within.gap }
    if (within.whole) this.noteWholeBore(pair, there)
    else this.noteGap(pair, there)
  }

  private noteWholeBore({ a, b, motion }: Pair, there: Separation): void {
    const loose = motion.loose(a)
    const isFine = this.limits.reach === 0 || loose <= Math.max(this.limits.resolution, there.gap / 50)
    const halves = isFine ? [] : motion.halves()
    this.most = Math.min(this.most, there.gap + loose)
    if (halves.length === 0) this.keepGap(there)
    else this.stack.push(...halves.map((half) => ({ a, b, motion: half })))
  }

  private noteGap(pair: Pair, apart: Separation): void {
    if (apart.gap > 0 && apart.gap >= this.most) return
    const loose = looseness(pair)
    const most = loose === 0 ? apart.gap : Math.min(apart.gap + loose, this.sureGap(pair))
    this.most = Math.min(this.most, most)
    const fine = this.limits.reach === 0 || most - apart.gap <= Math.max(this.limits.resolution, apart.gap / 50)
    if (fine || !this.split(pair)) this.keepGap(apart)
  }

  /** Distance of the inner shapes: the true gap is no greater. */
  private sureGap({ a, b, motion }: Pair): number {
    if (this.limits.reach === 0 || a.inner === undefined || b.inner === undefined) return Number.POSITIVE_INFINITY
    const between = separation(motion.surelyPassed(a.inner), b.inner, this.most, this.limits.tolerance)
    return between.gap > this.most ? Number.POSITIVE_INFINITY : between.gap * (1 + 1e-6) + 1e-9
  }

  private keepGap({ gap, at, normal }: Separation): void {
    this.most = Math.min(this.most, Math.max(gap, 0))
    if (this.found.verdict === 'clear' && gap < this.found.gap) Object.assign(this.found, { gap, at, normal })
  }

  private noteOverlap(pair: Pair, apart: Separation): void {
    const loose = looseness(pair)
    const sure = loose === 0 ? apart : this.sureOverlap(pair)
    if (sure !== undefined && sure.depth[0] > this.bar()) this.strike(sure)
    else if (loose <= this.limits.tolerance / 4 || !this.split(pair)) this.leaveOpen(apart)
  }

  private sureOverlap({ a, b, motion }: Pair): Separation | undefined {
    if (a.inner === undefined || b.inner === undefined) return undefined
    return separation(motion.surelyPassed(a.inner), b.inner, 0, this.bar())
  }

  /** Depth from which an overlap is news: the tolerance, or the deepest found. */
  private bar(): number {
    return this.found.verdict === 'struck' ? Math.max(this.limits.tolerance, this.found.depth) : this.limits.tolerance
  }

  private strike({ depth, at, normal }: Separation): void {
    if (this.found.verdict === 'struck' && depth[0] <= this.found.depth) return
    if (this.found.verdict !== 'struck') this.last = this.found.compared + MOST_AFTER
    Object.assign(this.found, { verdict: 'struck', gap: 0, depth: depth[0], at, normal })
  }

  private leaveOpen({ depth, at, normal }: Separation): void {
    if (this.found.verdict === 'clear' || (this.found.verdict === 'open' && depth[1] > this.found.depth))
      Object.assign(this.found, { verdict: 'open', gap: 0, depth: depth[1], at, normal })
  }

  /** Splits what is loosest of the three; false when none can be. */
  private split({ a, b, motion }: Pair): boolean {
    const parts: [number, () => Pair[]][] = [
      [a.loose, () => a.split().map((part) => ({ a: part, b, motion }))],
      [b.loose, () => b.split().map((part) => ({ a, b: part, motion }))],
      [motion.loose(a), () => motion.halves().map((half) => ({ a, b, motion: half }))],
    ]
    parts.sort((p, q) => q[0] - p[0])
    for (const [loose, pairs] of parts) {
      const made = loose > 0 ? pairs() : []
      if (made.length > 0) {
        this.stack.push(...made)
        return true
      }
    }
    return false
  }
}

const looseness = ({ a, b, motion }: Pair): number => a.loose + b.loose + motion.loose(a)

export interface BoreGap {
  gap: number
  whole: boolean
  /** Which of the two has the bore that the other lies in. */
  of: 'standing' | 'moving'
}

const HAIR = 1e-9

/** Gap between a body and the bore it lies in over the whole leg, whichever of the two moves; undefined when it does not. */
export function boreGap({ a, b, motion }: Pair): BoreGap | undefined {
  if (b.bore !== undefined) {
    const { radius, origin, axis, whole } = b.bore
    const gap = radius - greatestRadius(motion.passed(a.outer), origin, axis)
    if (gap >= -HAIR) return { gap: Math.max(0, gap), whole, of: 'standing' }
  }
  if (a.bore === undefined) return undefined
  const reach = motion.radiusFrom(b.outer, a.bore.origin, a.bore.axis)
  if (reach === undefined || reach > a.bore.radius + HAIR) return undefined
  return { gap: Math.max(0, a.bore.radius - reach), whole: a.bore.whole, of: 'moving' }
}

/**
 * Where a body comes nearest to the bore around it: half way across the gap, within the length of a bore that stands; the
 * normal from the moving to the standing one.
 */
function placeInBore({ a, b, motion }: Pair, { gap, of }: BoreGap): { at: Vec3; normal: Vec3 } {
  const { origin, axis } = (of === 'standing' ? b : a).bore as NonNullable<Cell['bore']>
  if (of === 'moving') {
    const { at, out } = motion.widestFrom(b.outer, origin, axis)
    return { at: add(at, scale(out, gap / 2)), normal: scale(out, -1) }
  }
  const { at, out } = widestPoint(motion.passed(a.outer), origin, axis)
  const along = dot(at, axis)
  const within = Math.min(reachAlong(b.outer, axis), Math.max(-reachAlong(b.outer, scale(axis, -1)), along))
  return { at: add(add(at, scale(out, gap / 2)), scale(axis, within - along)), normal: out }
}
