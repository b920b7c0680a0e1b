import type { Revolution } from './body.ts'
import type { Cell } from './cell.ts'
import { cellAround } from './cell-around.ts'
import { type Cut, cutsInto, isCutAway } from './cut.ts'
import { arcOf, extentOf, type Hull, hullOf } from './hull.ts'
import { clipped, convexParts, type Point2, type Polygon } from './polygon.ts'
import { apply, cross, type Mat3, multiply, type Pose, place, scale, transpose, unit, type Vec3 } from './vector.ts'

/** Part of a body of revolution: a convex polygon of (along the axis, distance from it) turned over an angle about x. */
interface Turned {
  pose: Pose
  polygon: Polygon
  start: number
  sweep: number
}

const TURN = 2 * Math.PI
const WHOLE = TURN - 1e-9

/** The cell of a body of revolution in a pose: its profile in convex parts, curved faces exact. */
export function revolutionCell(
  { origin, axis, profile }: Revolution,
  pose: Pose,
  cuts: readonly Cut[],
): Cell | undefined {
  const own: Pose = { turn: multiply(pose.turn, frameOf(axis)), shift: place(pose, origin) }
  return cellAround(
    convexParts(profile).flatMap((polygon) => turnedCell({ pose: own, polygon, start: 0, sweep: TURN }, cuts) ?? []),
  )
}

/** A frame with its x along the axis. */
export function frameOf(axis: Vec3): Mat3 {
  const least = [0, 1, 2].reduce((k, i) => (Math.abs(axis[i] as number) < Math.abs(axis[k] as number) ? i : k), 0)
  const u = unit(cross(axis, [0, 1, 2].map((i) => Number(i === least)) as unknown as Vec3))
  return transpose([axis, u, cross(axis, u)])
}

function turnedCell(part: Turned, cuts: readonly Cut[]): Cell | undefined {
  const outer = hullOfTurned(part)
  const touching = cutsInto(outer, cuts)
  if (isCutAway(outer, touching)) return undefined
  const bare = touching.length === 0
  const loose = loosenessOf(part)
  let children: readonly Cell[] | undefined
  return {
    outer,
    inner: bare ? heldByTurned(part, outer) : undefined,
    loose: bare ? loose : Math.max(loose, sizeOf(part)),
    extent: extentOf(outer),
    ...boreOf(part),
    normals: normalsOf(part),
    split: () => {
      children ??= (bare ? splitAngle(part, loose) : splitLongest(part)).flatMap(
        (half) => turnedCell(half, touching) ?? [],
      )
      return children
    },
  }
}

const rayAt = ({ pose }: Turned, angle: number): Vec3 => apply(pose.turn, [0, Math.cos(angle), Math.sin(angle)])
const pointAt = ({ pose }: Turned, x: number, r: number, angle: number): Vec3 =>
  place(pose, [x, r * Math.cos(angle), r * Math.sin(angle)])
const middleOf = ({ start, sweep }: Turned): number => start + sweep / 2
const halfOf = ({ sweep }: Turned): number => (sweep >= WHOLE ? Math.PI : sweep / 2)

function arcAt(part: Turned, [x, r]: Point2, half: number) {
  const middle = middleOf(part)
  return arcOf(pointAt(part, x, 0, 0), rayAt(part, middle), rayAt(part, middle + Math.PI / 2), r, half)
}

/** Exact: the hull of all arcs that the corners pass. */
function hullOfTurned(part: Turned): Hull {
  const onAxis = part.polygon.filter(([, r]) => r === 0)
  const off = part.polygon.filter(([, r]) => r > 0)
  return hullOf(
    onAxis.map(([x]) => pointAt(part, x, 0, 0)),
    off.map((corner) => arcAt(part, corner, halfOf(part))),
  )
}

/** Least and greatest distance from the axis at a place along it. */
function rangeAt(polygon: Polygon, x: number): readonly [number, number] {
  const met = polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length] as Point2
    if (x < Math.min(p[0], q[0]) || x > Math.max(p[0], q[0])) return []
    return p[0] === q[0] ? [p[1], q[1]] : [p[1] + ((x - p[0]) / (q[0] - p[0])) * (q[1] - p[1])]
  })
  return [Math.min(...met), Math.max(...met)]
}

const endsAlong = (polygon: Polygon): readonly [number, number] => [
  Math.min(...polygon.map(([x]) => x)),
  Math.max(...polygon.map(([x]) => x)),
]

/** The inner side of a convex polygon is nowhere farther from the axis than at one of its ends. */
const innerMost = (polygon: Polygon): number => Math.max(...endsAlong(polygon).map((x) => rangeAt(polygon, x)[0]))

/** Rise of the inner side over the line between its ends; the whole bore while the part is half a turn or more. */
function loosenessOf({ polygon, sweep }: Turned): number {
  if (sweep > Math.PI + 1e-9 && sweep < WHOLE) return Math.max(...polygon.map(([, r]) => r))
  const inner = innerMost(polygon)
  return inner * (sweep >= Math.PI ? 1 : 1 - Math.cos(sweep / 2))
}

/** The convex part beyond the planes that touch the inner side at its middle, where u ≥ inner (x) implies r ≥ inner (x). */
function heldByTurned(part: Turned, outer: Hull): Hull | undefined {
  const { polygon, sweep } = part
  if (loosenessOf(part) === 0) return outer
  if (sweep > 0.9 * Math.PI) return undefined
  const half = sweep / 2
  const reach = (x: number, r: number): number => {
    const [inner] = rangeAt(polygon, x)
    return r <= inner ? 0 : Math.min(half, Math.acos(inner / r))
  }
  const corners = polygon.flatMap(([x]) => {
    const [inner, most] = rangeAt(polygon, x)
    const t = reach(x, most)
    return [-t, t].map((s) => pointAt(part, x, inner / Math.cos(t), middleOf(part) + s))
  })
  return hullOf(
    corners,
    polygon.filter(([, r]) => r > 0).map(([x, r]) => arcAt(part, [x, r], reach(x, r))),
  )
}

function sizeOf({ polygon, sweep }: Turned): number {
  const [rear, front] = endsAlong(polygon)
  const radii = polygon.map(([, r]) => r)
  return Math.hypot(front - rear, Math.max(...radii) - Math.min(...radii), Math.min(sweep, 2) * Math.max(...radii))
}

function boreOf(part: Turned): Pick<Cell, 'bore'> {
  const radius = Math.min(...part.polygon.map(([, r]) => r))
  if (radius === 0) return {}
  return {
    bore: { origin: part.pose.shift, axis: apply(part.pose.turn, [1, 0, 0]), radius, whole: part.sweep >= WHOLE },
  }
}

/** Its flat ends where the profile has them, and while it is no whole turn the middle of its curved sides. */
function normalsOf(part: Turned): Vec3[] {
  const axis = apply(part.pose.turn, [1, 0, 0])
  const ends = [axis, scale(axis, -1)]
  if (part.sweep >= WHOLE) return ends
  const out = rayAt(part, middleOf(part))
  return [...ends, out, ...(Math.min(...part.polygon.map(([, r]) => r)) > 0 ? [scale(out, -1)] : [])]
}

const inAngles = (part: Turned, count: number): Turned[] =>
  Array.from({ length: count }, (_, i) => ({
    ...part,
    start: part.start + (i * part.sweep) / count,
    sweep: part.sweep / count,
  }))

const splitAngle = (part: Turned, loose: number): Turned[] =>
  loose === 0 ? [] : inAngles(part, Math.max(2, Math.ceil(part.sweep / (Math.PI / 3) - 1e-6)))

/** Halves across the longest side, so that cells shrink around a cut from all sides. */
function splitLongest(part: Turned): Turned[] {
  const { polygon, sweep } = part
  if (sweep > Math.PI / 2) return inAngles(part, 4)
  const spans = ([0, 1] as const).map((k) => polygon.map((p) => p[k]))
  const [x, r] = spans.map((s) => [Math.min(...s), Math.max(...s)] as const) as [Point2, Point2]
  if (sweep * r[1] >= Math.max(x[1] - x[0], r[1] - r[0])) return inAngles(part, 2)
  const axis = x[1] - x[0] >= r[1] - r[0] ? 0 : 1
  const middle = axis === 0 ? (x[0] + x[1]) / 2 : (r[0] + r[1]) / 2
  return ([1, -1] as const).map((side) => ({ ...part, polygon: clipped(polygon, axis, middle, side) }))
}
