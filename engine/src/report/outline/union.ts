import { convexHull, turnOf } from '../../numeric/polygon.ts'
import { type Frame2, frameOf, loopArea, type Point2 } from './convex.ts'

/**
 * Points are brought to this grid, m, and counted in it: far below what paper shows. On whole numbers of this size the side
 * of a line that a point lies on is exact, so that no two edges disagree on how they cross.
 */
const GRID = 1e-4
/** Ends nearer than this are one point, in steps of the grid: crossings are exact to far less. */
const JOIN = 1e-2

interface Piece {
  points: readonly Point2[]
  edges: readonly Segment[]
  frame: Frame2
  area: number
}

interface Segment {
  from: Point2
  to: Point2
}

/**
 * Outline of everything that convex polygons cover together: closed loops, anticlockwise outside, clockwise round holes.
 * Each edge loses what lies inside another polygon; what is left is the outline.
 */
export function unionOutline(polygons: readonly (readonly Point2[])[]): Point2[][] {
  const pieces = withoutCovered(polygons.map(pieceOf).filter((piece) => piece.area > 0))
  return loopsOf(pieces.flatMap((piece, i) => freeEdges(piece, i, pieces)))
    .map((loop) => withoutStraight(loop).map(([u, v]): Point2 => [u * GRID, v * GRID]))
    .filter((loop) => loop.length > 2 && Math.abs(loopArea(loop)) > LEAST_AREA)
}

/** A square centimetre: smaller holes and specks are dropped. */
const LEAST_AREA = 1e-4

/** Hull in steps of the grid. */
function pieceOf(points: readonly Point2[]): Piece {
  const hull = convexHull(points.map(([u, v]) => [Math.round(u / GRID), Math.round(v / GRID)] as const))
  return { points: hull, edges: edgesOf(hull), frame: frameOf(hull), area: hull.length < 3 ? 0 : loopArea(hull) }
}

function withoutCovered(pieces: readonly Piece[]): Piece[] {
  const kept: Piece[] = []
  for (const piece of [...pieces].sort((a, b) => b.area - a.area)) {
    if (!kept.some((larger) => covers(larger, piece))) kept.push(piece)
  }
  return kept
}

function covers(larger: Piece, piece: Piece): boolean {
  const [a, b] = [larger.frame, piece.frame]
  if (b.left < a.left || b.right > a.right || b.bottom < a.bottom || b.top > a.top) return false
  for (const p of piece.points) {
    for (const { from, to } of larger.edges) if (turnOf(from, to, p) < 0) return false
  }
  return true
}

const edgesOf = (hull: readonly Point2[]): Segment[] =>
  hull.map((from, i) => ({ from, to: hull[(i + 1) % hull.length] as Point2 }))

const apart = (a: Frame2, b: Frame2): boolean =>
  a.left > b.right || b.left > a.right || a.bottom > b.top || b.bottom > a.top

function freeEdges(piece: Piece, index: number, pieces: readonly Piece[]): Segment[] {
  const near = pieces.flatMap((other, i) => (i === index || apart(piece.frame, other.frame) ? [] : [{ other, i }]))
  return piece.edges.flatMap(({ from, to }) => {
    const frame = frameOf([from, to])
    const covered = near.flatMap(({ other, i }) =>
      apart(frame, other.frame) ? [] : coveredPart(from, to, other, i < index),
    )
    return freeParts(covered).map(([a, b]) => ({ from: between(from, to, a), to: between(from, to, b) }))
  })
}

const between = (from: Point2, to: Point2, t: number): Point2 =>
  t === 0 ? from : t === 1 ? to : [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]

type Span = readonly [number, number]

/**
 * Part of an edge that another polygon takes: what lies inside it, what runs along its edge the other way (both sides are
 * then covered), and what runs along it the same way when the other one comes first.
 */
function coveredPart(from: Point2, to: Point2, other: Piece, otherFirst: boolean): Span[] {
  let [a, b] = [0, 1]
  for (const { from: p, to: q } of other.edges) {
    const [start, end] = [turnOf(p, q, from), turnOf(p, q, to)]
    if (start === 0 && end === 0) {
      const sameWay = (to[0] - from[0]) * (q[0] - p[0]) + (to[1] - from[1]) * (q[1] - p[1]) > 0
      if (sameWay && !otherFirst) return []
      continue
    }
    if (start <= 0 && end <= 0) return []
    if (start < 0) a = Math.max(a, start / (start - end))
    if (end < 0) b = Math.min(b, start / (start - end))
  }
  return b > a ? [[a, b]] : []
}

/** Shorter parts of an edge than this share are the rounding of a crossing. */
const SPECK = 1e-12

function freeParts(covered: readonly Span[]): Span[] {
  const free: Span[] = []
  let at = 0
  for (const [a, b] of [...covered].sort((x, y) => x[0] - y[0])) {
    if (a > at + SPECK) free.push([at, a])
    at = Math.max(at, b)
  }
  if (at < 1 - SPECK) free.push([at, 1])
  return free
}

/** Segments joined end to start into loops; one that finds no follower within the grid ends its loop there. */
function loopsOf(segments: readonly Segment[]): Point2[][] {
  const starts = new Map<string, number[]>()
  segments.forEach(({ from }, i) => {
    const key = cellKey(from, 0, 0)
    starts.set(key, [...(starts.get(key) ?? []), i])
  })
  const used = new Array<boolean>(segments.length).fill(false)
  const loops: Point2[][] = []
  for (let first = 0; first < segments.length; first++) {
    if (used[first]) continue
    const loop: Point2[] = []
    for (
      let at: number | undefined = first;
      at !== undefined;
      at = followerOf(segments[at] as Segment, segments, starts, used)
    ) {
      used[at] = true
      loop.push((segments[at] as Segment).from)
    }
    loops.push(loop)
  }
  return loops
}

const cellKey = ([u, v]: Point2, du: number, dv: number): string =>
  `${Math.round(u / JOIN) + du} ${Math.round(v / JOIN) + dv}`

const AROUND = [-1, 0, 1]

function followerOf(
  { from, to }: Segment,
  segments: readonly Segment[],
  starts: ReadonlyMap<string, readonly number[]>,
  used: readonly boolean[],
): number | undefined {
  let best: number | undefined
  let bestTurn = -Infinity
  for (const du of AROUND)
    for (const dv of AROUND)
      for (const i of starts.get(cellKey(to, du, dv)) ?? []) {
        if (used[i]) continue
        const next = segments[i] as Segment
        const gap = Math.hypot(next.from[0] - to[0], next.from[1] - to[1])
        const turn = -turnAngle(from, to, next.to)
        if (gap < JOIN && turn > bestTurn) [best, bestTurn] = [i, turn]
      }
  return best
}

/** Left turn at `b` on the way from `a` to `c`, rad. Of several ways on the rightmost is taken: loops then stay simple. */
function turnAngle(a: Point2, b: Point2, c: Point2): number {
  const [first, second] = [Math.atan2(b[1] - a[1], b[0] - a[0]), Math.atan2(c[1] - b[1], c[0] - b[0])]
  const turn = second - first
  return turn > Math.PI ? turn - 2 * Math.PI : turn < -Math.PI ? turn + 2 * Math.PI : turn
}

/** Corners alone: points that repeat, or that lie on the line of their neighbours to within a step of the grid, are left out. */
function withoutStraight(loop: Point2[]): Point2[] {
  const distinct = loop.filter((p, i) => {
    const [u, v] = loop[(i + 1) % loop.length] as Point2
    return Math.hypot(p[0] - u, p[1] - v) > JOIN
  })
  const kept: Point2[] = []
  let dropped: Point2[] = []
  distinct.forEach((p, i) => {
    const before = kept.at(-1) ?? (distinct.at(-1) as Point2)
    const after = i === distinct.length - 1 ? (kept[0] ?? p) : (distinct[i + 1] as Point2)
    dropped.push(p)
    if (dropped.every((q) => isBetween(q, before, after))) return
    kept.push(p)
    dropped = []
  })
  return kept
}

/** Within a step of the grid from the line of two points: one corner goes only where all dropped with it lie on the new side. */
const isBetween = (p: Point2, before: Point2, after: Point2): boolean =>
  Math.abs(turnOf(before, after, p)) <= Math.hypot(after[0] - before[0], after[1] - before[1])
