import type { Frustum, RingSector } from './body.ts'
import type { Cell } from './cell.ts'
import { type Cut, cutsInto, isCutAway } from './cut.ts'
import { type Arc, arcOf, extentOf, type Hull, hullOf } from './hull.ts'
import {
  apply,
  cross,
  type Mat3,
  multiply,
  norm,
  type Pose,
  place,
  scale,
  subtract,
  transpose,
  unit,
  type Vec3,
} from './vector.ts'

/** A sector of a ring, of a cylinder or of a cone about the x axis of its own frame. */
export interface Sector {
  pose: Pose
  rear: number
  front: number
  inner: number
  /** Outer radius at the rear and at the front. */
  outer: readonly [number, number]
  start: number
  sweep: number
}

const TURN = 2 * Math.PI
const WHOLE = TURN - 1e-9

/** A ring sector in a pose. */
export const ringSector = ({ inner, outer, rear, front, start, sweep }: RingSector, pose: Pose): Sector => ({
  pose,
  rear,
  front,
  inner,
  outer: [outer, outer],
  start,
  sweep,
})

/** A cylinder or frustum in a pose, as a whole sector about its own axis. */
export function frustumSector({ from, to, radii }: Frustum, pose: Pose): Sector {
  const line = subtract(to, from)
  const axis = unit(line)
  const least = [0, 1, 2].reduce((k, i) => (Math.abs(axis[i] as number) < Math.abs(axis[k] as number) ? i : k), 0)
  const u = unit(cross(axis, [0, 1, 2].map((i) => Number(i === least)) as unknown as Vec3))
  const turn: Mat3 = transpose([axis, u, cross(axis, u)])
  return {
    pose: { turn: multiply(pose.turn, turn), shift: place(pose, from) },
    rear: 0,
    front: norm(line),
    inner: 0,
    outer: radii,
    start: 0,
    sweep: TURN,
  }
}

/** The cell of a sector; undefined when the cuts leave nothing of it. */
export function sectorCell(sector: Sector, cuts: readonly Cut[]): Cell | undefined {
  const outer = hullOfSector(sector)
  const touching = cutsInto(outer, cuts)
  if (isCutAway(outer, touching)) return undefined
  const bare = touching.length === 0
  let children: readonly Cell[] | undefined
  return {
    outer,
    inner: bare ? heldBySector(sector, outer) : undefined,
    loose: bare ? looseness(sector) : Math.max(looseness(sector), sizeOf(sector)),
    extent: extentOf(outer),
    ...boreOf(sector),
    ...(bare ? { core: coreOf(sector) } : {}),
    normals: normalsOf(sector),
    split: () => {
      children ??= (bare ? splitAngle(sector) : splitLongest(sector)).flatMap(
        (part) => sectorCell(part, touching) ?? [],
      )
      return children
    },
  }
}

const point = ({ pose }: Sector, x: number, r: number, angle: number): Vec3 =>
  place(pose, [x, r * Math.cos(angle), r * Math.sin(angle)])
const ray = ({ pose }: Sector, angle: number): Vec3 => apply(pose.turn, [0, Math.cos(angle), Math.sin(angle)])

/** Hull of a sector: exact outer arcs, and the straight line between the inner corners. */
export function hullOfSector(sector: Sector): Hull {
  const { inner, start, sweep } = sector
  if (sweep >= WHOLE) return hullOf([], outerArcs(sector))
  return hullOf(cornersAt(sector, inner, start, sweep), outerArcs(sector))
}

function outerArcs(sector: Sector): Arc[] {
  const { start, sweep, rear, front, outer } = sector
  const middle = start + sweep / 2
  const half = sweep >= WHOLE ? Math.PI : sweep / 2
  return [
    arcOf(point(sector, rear, 0, 0), ray(sector, middle), ray(sector, middle + Math.PI / 2), outer[0], half),
    arcOf(point(sector, front, 0, 0), ray(sector, middle), ray(sector, middle + Math.PI / 2), outer[1], half),
  ]
}

function cornersAt(sector: Sector, radius: number, start: number, sweep: number): Vec3[] {
  const angles = radius === 0 ? [start] : [start, start + sweep]
  return angles.flatMap((a) => [point(sector, sector.rear, radius, a), point(sector, sector.front, radius, a)])
}

/** The convex part beyond the tangent at the middle of the inner arc, as far to either side as the sector and its outer arc reach. */
function heldBySector(sector: Sector, outer: Hull): Hull | undefined {
  const { inner, sweep, start, rear, front } = sector
  if (looseness(sector) === 0) return outer
  if (sweep > 0.9 * Math.PI || inner >= Math.min(...sector.outer)) return undefined
  const middle = start + sweep / 2
  const ends = [rear, front].map((x, end) => {
    const radius = sector.outer[end] as number
    const half = Math.min(sweep / 2, Math.acos(inner / radius))
    const arc = arcOf(point(sector, x, 0, 0), ray(sector, middle), ray(sector, middle + Math.PI / 2), radius, half)
    return {
      arc,
      corners: cornersAt({ ...sector, rear: x, front: x }, inner / Math.cos(half), middle - half, 2 * half),
    }
  })
  return hullOf(
    ends.flatMap(({ corners }) => corners),
    ends.map(({ arc }) => arc),
  )
}

/** Rise of the inner arc over the line between its ends; the whole bore while the sector is half a turn or more. */
function looseness({ inner, outer, sweep }: Sector): number {
  if (sweep > Math.PI + 1e-9 && sweep < WHOLE) return Math.max(...outer)
  if (inner === 0) return 0
  return sweep >= Math.PI ? inner : inner * (1 - Math.cos(sweep / 2))
}

const sizeOf = ({ rear, front, inner, outer, sweep }: Sector): number =>
  Math.hypot(front - rear, Math.max(...outer) - inner, Math.min(sweep, 2) * Math.max(...outer))

/** A ball in the middle of the sector that touches the nearest of its faces. */
function coreOf(sector: Sector): { centre: Vec3; radius: number } {
  const { rear, front, inner, outer, start, sweep } = sector
  const least = Math.min(...outer)
  const whole = inner === 0 && sweep >= WHOLE
  const middle = whole ? 0 : (inner + least) / 2
  const sides = whole || sweep >= Math.PI ? Number.POSITIVE_INFINITY : middle * Math.sin(sweep / 2)
  const across = whole ? least : (least - inner) / 2
  const slope = Math.cos(Math.atan2(Math.abs(outer[1] - outer[0]), front - rear))
  const radius = Math.max(0, Math.min((front - rear) / 2, across * slope, sides))
  return { centre: point(sector, (rear + front) / 2, middle, start + sweep / 2), radius }
}

function boreOf(sector: Sector): Pick<Cell, 'bore'> {
  if (sector.inner === 0) return {}
  return {
    bore: {
      origin: sector.pose.shift,
      axis: apply(sector.pose.turn, [1, 0, 0]),
      radius: sector.inner,
      whole: sector.sweep >= WHOLE,
    },
  }
}

function normalsOf(sector: Sector): Vec3[] {
  const { start, sweep, inner } = sector
  const axis = apply(sector.pose.turn, [1, 0, 0])
  const ends = [axis, scale(axis, -1)]
  if (sweep >= WHOLE) return ends
  const out = ray(sector, start + sweep / 2)
  const sides = [scale(ray(sector, start + Math.PI / 2), -1), ray(sector, start + sweep + Math.PI / 2)]
  return [...ends, ...sides, out, ...(inner > 0 ? [scale(out, -1)] : [])]
}

/** At most a sixth of a turn each; halves below that. */
function splitAngle(sector: Sector): Sector[] {
  if (looseness(sector) === 0) return []
  const parts = Math.max(2, Math.ceil(sector.sweep / (Math.PI / 3) - 1e-6))
  return anglesInto(sector, parts)
}

const anglesInto = (sector: Sector, parts: number): Sector[] =>
  Array.from({ length: parts }, (_, i) => ({
    ...sector,
    start: sector.start + (i * sector.sweep) / parts,
    sweep: sector.sweep / parts,
  }))

/** Halves across the longest side, so that cells shrink around a cut from all sides. */
function splitLongest(sector: Sector): Sector[] {
  const { rear, front, inner, outer, sweep } = sector
  if (sweep > Math.PI / 2) return anglesInto(sector, 4)
  const [length, depth, width] = [front - rear, Math.min(...outer) - inner, sweep * Math.max(...outer)]
  if (width >= length && width >= depth) return anglesInto(sector, 2)
  const middle = (rear + front) / 2
  const radius = (outer[0] + outer[1]) / 2
  if (length >= depth || outer[0] !== outer[1])
    return [
      { ...sector, front: middle, outer: [outer[0], radius] },
      { ...sector, rear: middle, outer: [radius, outer[1]] },
    ]
  const between = (inner + outer[0]) / 2
  return [
    { ...sector, outer: [between, between] },
    { ...sector, inner: between },
  ]
}
