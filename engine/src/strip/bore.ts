import { coordinates } from '../model/index.ts'
import type { Cell } from '../numeric/cell.ts'
import { frameOf } from '../numeric/cell-profile.ts'
import { type Hull, placedHull, reachAlong } from '../numeric/hull.ts'
import { poseAt } from '../numeric/motion.ts'
import { add, apply, compose, type Pose, scale, type Vec3 } from '../numeric/vector.ts'
import type { Bore } from './fixed.ts'
import { directionOf, type Leg } from './leg.ts'
import type { Meeting, Mover } from './meet.ts'

/** Room to the wall of the shaft and to the base slab, on every leg that is below the collar. */
export function boreMeetings({ parts, legs, machine, limits }: Mover, bore: Bore): readonly Meeting[] {
  return legs.flatMap((leg, move) =>
    parts.flatMap((part) => {
      const rooms = part.solids.flatMap(({ cell }) => roomsOf(cell, leg, machine, bore))
      return [least(rooms, 'bore'), least(rooms, 'slab')].flatMap((room): Meeting[] => {
        if (room === undefined) return []
        const { kind, gap, at, closing } = room
        const struck = gap < -limits.tolerance
        const direction = directionOf(leg)
        return [
          {
            part: part.id,
            with: kind === 'bore' ? 'shaft bore' : 'base slab',
            kind,
            move,
            verdict: struck ? 'struck' : 'clear',
            gap: Math.max(0, gap),
            depth: Math.max(0, -gap),
            closing,
            at,
            ...(direction === undefined ? {} : { direction }),
          },
        ]
      })
    }),
  )
}

interface Room {
  kind: 'bore' | 'slab'
  /** Below zero: through the wall, m. */
  gap: number
  at: Vec3
  /** Less than where the leg begins. */
  closing: boolean
}

function least(rooms: readonly Room[], kind: Room['kind']): Room | undefined {
  return rooms
    .filter((r) => r.kind === kind)
    .reduce<Room | undefined>((best, r) => (best === undefined || r.gap < best.gap ? r : best), undefined)
}

const MILLIMETRE = 0.001

/** Room of one cell at the stations of a leg. A straight leg needs its two ends only: distance from an axis is convex. */
function roomsOf({ outer }: Cell, leg: Leg, machine: Pose, bore: Bore): Room[] {
  const stations = stationsOf(outer, leg, machine, bore).map((pose) => roomAt(placedHull(outer, pose), bore))
  return (['bore', 'slab'] as const).flatMap((kind) => {
    const rooms = stations.map((s) => s[kind])
    const tightest = rooms.reduce((best, r) => (r.gap < best.gap ? r : best), rooms[0] ?? NO_ROOM)
    if (rooms.length === 0 || tightest.gap === Number.POSITIVE_INFINITY) return []
    return [{ kind, ...tightest, closing: tightest.gap < (rooms[0] as Tight).gap - MILLIMETRE }]
  })
}

const TURN_STEP = Math.PI / 180

/** Poses of the cell along the leg, while any of it is below the collar. */
function stationsOf(outer: Hull, { move, start }: Leg, machine: Pose, { collar }: Bore): Pose[] {
  const first = compose(start, machine)
  if (!('by' in move)) {
    const angle = move.turn.value as number
    const count = Math.max(1, Math.ceil(Math.abs(angle) / TURN_STEP))
    const turning = { pose: first, axis: AXES[move.axis], about: coordinates(move.about), from: 0, to: angle }
    const poses = Array.from({ length: count + 1 }, (_, i) => poseAt(turning, (i * angle) / count))
    return poses.filter((pose) => lowest(placedHull(outer, pose)) < collar)
  }
  const by = coordinates(move.by)
  const bottom = lowest(placedHull(outer, first))
  const [from, to] = belowCollar(bottom, by[2], collar)
  if (from >= to) return []
  return [from, to].map((t) => ({ turn: first.turn, shift: add(first.shift, scale(by, t)) }))
}

const AXES: Readonly<Record<'x' | 'y' | 'z', Vec3>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }

const lowest = (hull: Hull): number => -reachAlong(hull, [0, 0, -1])

/** The part of a leg, from 0 to 1, over which the bottom is below the collar. */
function belowCollar(bottom: number, rise: number, collar: number): readonly [number, number] {
  if (rise === 0) return bottom < collar ? [0, 1] : [0, 0]
  const crossing = (collar - bottom) / rise
  return rise > 0 ? [0, Math.min(1, crossing)] : [Math.max(0, crossing), 1]
}

interface Tight {
  gap: number
  at: Vec3
}

const NO_ROOM: Tight = { gap: Number.POSITIVE_INFINITY, at: [0, 0, 0] }

function roomAt(hull: Hull, { radius, slab, eyes }: Bore): { bore: Tight; slab: Tight } {
  let bore = NO_ROOM
  for (const p of outlineOf(hull)) {
    const gap = radius - Math.sqrt(p[0] * p[0] + p[1] * p[1])
    if (gap < bore.gap && !eyes.some((eye) => isInEye(p, eye))) bore = { gap, at: p }
  }
  const bottom = lowest(hull)
  return { bore, slab: { gap: bottom - slab, at: [0, 0, bottom] } }
}

const isInEye = ([x, y, z]: Vec3, { centre, radius, side }: Bore['eyes'][number]): boolean =>
  x * side > 0 && Math.hypot(y, z - centre) <= radius

const ARC_STEP = Math.PI / 90

/** Points whose hull holds the hull: arcs by the corners of a polygon drawn around them. */
function outlineOf(hull: Hull): readonly Vec3[] {
  const points = hull.points.map((p) => add(p, hull.shift))
  for (const { centre, u, v, radius, half } of hull.arcs) {
    const count = Math.max(2, Math.ceil((2 * half) / ARC_STEP))
    const step = (2 * half) / count
    const out = radius / Math.cos(step / 2)
    for (let i = 0; i <= count; i++) {
      const t = Math.min(half, Math.max(-half, -half + (i - 0.5) * step))
      const r = i === 0 ? radius : out
      points.push(add(add(centre, hull.shift), add(scale(u, r * Math.cos(t)), scale(v, r * Math.sin(t)))))
    }
    points.push(add(add(centre, hull.shift), add(scale(u, radius * Math.cos(half)), scale(v, radius * Math.sin(half)))))
  }
  for (const { centre, axis, radius, cos } of hull.caps ?? [])
    points.push(...domeOf(axis, radius, Math.acos(cos)).map((p) => add(add(centre, hull.shift), p)))
  return points
}

const DOME_STEP = Math.PI / 45

/** Corners of a net drawn around a dome, from its rim to its top. */
function domeOf(axis: Vec3, radius: number, most: number): Vec3[] {
  const frame = frameOf(axis)
  const out = radius / Math.cos(DOME_STEP / 2) ** 2
  const rows = Math.max(1, Math.ceil(most / DOME_STEP))
  const count = Math.round((2 * Math.PI) / DOME_STEP)
  return Array.from({ length: rows + 1 }, (_, row) => {
    const from = (most * row) / rows
    return Array.from({ length: row === 0 ? 1 : count }, (_, k): Vec3 => {
      const [away, angle] = [out * Math.sin(from), (k * 2 * Math.PI) / count]
      return apply(frame, [out * Math.cos(from), away * Math.cos(angle), away * Math.sin(angle)])
    })
  }).flat()
}
