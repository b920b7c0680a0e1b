import { type Cell, cellOf } from '../numeric/cell.ts'
import { type Extent, type Hull, hullOf } from '../numeric/hull.ts'
import { separation } from '../numeric/separation.ts'
import { add, applyBack, dot, type Mat3, scale, subtract, type Vec3 } from '../numeric/vector.ts'
import type { Hull as PieceHull } from './hull.ts'
import { type Planar, type TwoHooks, turned } from './turning.ts'

/** A cell of a piece, machine frame, with its part and a box about it, to pass it over quickly. */
export interface PieceCell {
  part: string
  cell: Cell
  centre: Vec3
  /** Half the size of the box, m. */
  half: Vec3
}

/** The outside of a piece as cells, hollows kept where a body has them. */
export const pieceCells = ({ solids }: PieceHull): PieceCell[] =>
  solids.flatMap(({ part, body, pose }) => {
    const cell = cellOf(body, pose)
    return cell === undefined ? [] : [{ part, cell, ...boxAbout(cell.extent) }]
  })

const boxAbout = ([x0, y0, z0, x1, y1, z1]: Extent): Pick<PieceCell, 'centre' | 'half'> => ({
  centre: [(x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2],
  half: [(x1 - x0) / 2, (y1 - y0) / 2, (z1 - z0) / 2],
})

/** Least gap between a hoist line and the piece, m; zero where it passes through. */
export interface LineGap {
  gap: number
  part: string
  side: 'main' | 'tail'
  angle: number
}

/** Where lines leave the piece and how it stands: points in the machine frame, its turn at angle zero. */
export interface LinesOf {
  points: { main: readonly Vec3[]; tail: readonly Vec3[] }
  turn: Mat3
  /** Length above a point that is not looked at: lug, pin and shackle, m. */
  free: number
  /** Gaps above this need not be exact, m. */
  enough: number
  /** The first gap found that is not above this is given as it is: that it is so near is enough, m; zero unless said. */
  stop?: number
}

/**
 * Least gap of either hook's lines to the piece as it is held at an angle. Each line goes straight up from its point, in the
 * direction of its hoist line; a ring is kept hollow as finely as its halves, quarters and eighths.
 */
export function lineGapAt(cells: readonly PieceCell[], lines: LinesOf, held: TwoHooks): LineGap {
  const { stop = 0 } = lines
  let least: LineGap = { gap: lines.enough, part: '', side: 'main', angle: held.angle }
  for (const side of ['main', 'tail'] as const) {
    const { up, length } = held.lines[side]
    const direction = inMachine(lines.turn, up, held.angle)
    for (const point of lines.points[side]) {
      const line = hullOf([add(point, scale(direction, lines.free)), add(point, scale(direction, length))])
      for (const { part, cell, centre, half } of cells) {
        if (leastToBox(subtract(centre, point), half, direction, length) >= least.gap) continue
        const gap = gapTo(cell, line, least.gap, SPLITS)
        if (gap < least.gap) least = { gap, part, side, angle: held.angle }
        if (least.gap <= stop) return least
      }
    }
  }
  return least
}

/**
 * No point of a box comes nearer to a line from the origin than this, m: seen from the line straight to the middle of the box.
 *
 * @param middle of the box; `half` its size along the axes
 */
function leastToBox(middle: Vec3, half: Vec3, direction: Vec3, length: number): number {
  const along = Math.min(length, Math.max(0, dot(middle, direction)))
  const x = middle[0] - along * direction[0]
  const y = middle[1] - along * direction[1]
  const z = middle[2] - along * direction[2]
  const off = Math.sqrt(x * x + y * y + z * z)
  if (off === 0) return 0
  return off - (half[0] * Math.abs(x) + half[1] * Math.abs(y) + half[2] * Math.abs(z)) / off
}

const SPLITS = 4

/** A cell that the line comes near is looked at in its parts, until it agrees with its outside. */
function gapTo(cell: Cell, line: Hull, least: number, splits: number): number {
  // that they overlap is enough: how deep is not asked
  const { gap } = separation(cell.outer, line, least, 0, Number.POSITIVE_INFINITY)
  if (gap >= least || cell.loose === 0 || splits === 0) return gap
  let most = least
  for (const part of cell.split()) {
    most = Math.min(most, gapTo(part, line, most, splits - 1))
    if (most === 0) return 0
  }
  return most
}

/** A direction of the plane of the turn, at an angle, in the machine frame. */
function inMachine(turn: Mat3, up: Planar, angle: number): Vec3 {
  const [x, z] = turned(up, -angle)
  return applyBack(turn, [x, 0, z])
}

/** Least gap over a turn, and the angles between which it is less than what is wanted. */
export interface TurnGap {
  least: LineGap
  under?: { from: number; to: number }
}

/**
 * Least gap over the angles given, then between the neighbours of the closest by halving the step; where a line comes nearer
 * than wanted, the first and the last angle at which it does, between brackets.
 */
export function turnGap(
  cells: readonly PieceCell[],
  lines: LinesOf,
  course: readonly TwoHooks[],
  { wanted, heldAt }: { wanted: number; heldAt: (angle: number) => TwoHooks | undefined },
): TurnGap | undefined {
  const gaps = gapsOver(cells, lines, course, wanted)
  const first = gaps.reduce((best, gap, i) => (gap.gap < (gaps[best] as LineGap).gap ? i : best), 0)
  const closest = gaps[first]
  if (closest === undefined) return undefined
  const at = (angle: number): LineGap | undefined => {
    const held = heldAt(angle)
    return held === undefined ? undefined : lineGapAt(cells, lines, held)
  }
  const least =
    closest.gap === 0 || closest.gap >= lines.enough ? closest : closerThan(closest, stepAt(gaps, first), at)
  const near = gaps.flatMap((gap, i) => (gap.gap < wanted ? [i] : []))
  const [from, to] = [near[0], near.at(-1)]
  if (from === undefined || to === undefined) return { least }
  const within = { ...lines, enough: wanted, stop: wanted }
  const isNear = (angle: number): boolean => {
    const held = heldAt(angle)
    return held !== undefined && lineGapAt(cells, within, held).gap < wanted
  }
  const end = (inside: number, outside: number): number =>
    gaps[outside] === undefined
      ? (gaps[inside] as LineGap).angle
      : edgeOf(isNear, (gaps[inside] as LineGap).angle, (gaps[outside] as LineGap).angle)
  return { least, under: { from: end(from, from - 1), to: end(to, to + 1) } }
}

/** At each angle; what is neither less than wanted nor less than at an angle before need not be exact. */
function gapsOver(cells: readonly PieceCell[], lines: LinesOf, course: readonly TwoHooks[], wanted: number): LineGap[] {
  let least = lines.enough
  return course.map((held) => {
    const gap = lineGapAt(cells, { ...lines, enough: Math.max(least, wanted) }, held)
    least = Math.min(least, gap.gap)
    return gap
  })
}

const stepAt = (gaps: readonly LineGap[], i: number): number =>
  Math.max(...[i - 1, i + 1].map((k) => Math.abs((gaps[k]?.angle ?? gaps[i]?.angle ?? 0) - (gaps[i]?.angle ?? 0))))

const REFINED = 10

function closerThan(closest: LineGap, within: number, at: (angle: number) => LineGap | undefined): LineGap {
  let best = closest
  let step = within
  for (let k = 0; k < REFINED; k++) {
    step /= 2
    for (const angle of [best.angle - step, best.angle + step]) {
      const gap = at(angle)
      if (gap !== undefined && gap.gap < best.gap) best = gap
    }
  }
  return best
}

function edgeOf(isNear: (angle: number) => boolean, inside: number, outside: number): number {
  let [a, b] = [inside, outside]
  for (let k = 0; k < REFINED; k++) {
    const middle = (a + b) / 2
    if (isNear(middle)) a = middle
    else b = middle
  }
  return a
}
