import type { Cell } from '../numeric/cell.ts'
import { type Arc, extentGap, type Hull, reachAlong, supportPoint } from '../numeric/hull.ts'
import { commonOf, convexHull, type Point2 } from '../numeric/polygon.ts'
import { separation } from '../numeric/separation.ts'
import { add, cross, dot, norm, scale, subtract, unit, type Vec3 } from '../numeric/vector.ts'
import { fitsOf, partingNormals } from './contact.ts'
import type { PartCells } from './shape.ts'

/** A point where two parts press on each other. */
export interface Touch {
  at: Vec3
  /** Unit normal, into the first of the two. */
  into: Vec3
}

/**
 * Points that stand for the contact of two parts: the corners of the patch that two faces share, and points along the arc
 * that a fit shares, at both ends. All lie on the parts, so that what they hold is never more than the whole patch does; of
 * a round edge they take 24 to the circle (0.9 % of its radius too near). Meetings of edges hold nothing and are left out.
 *
 * @param gap faces as near as this touch, m
 */
export function touchPoints(a: PartCells, b: PartCells, gap: number): readonly Touch[] {
  if (extentGap(a.extent, b.extent) > gap) return []
  return outermost(
    a.solids.flatMap((p) => b.solids.flatMap((q) => touchesOf(p.cell, q.cell, gap, DEEPEST))),
    gap,
  )
}

const DEEPEST = 5

function touchesOf(a: Cell, b: Cell, gap: number, depth: number): readonly Touch[] {
  if (extentGap(a.extent, b.extent) > gap) return []
  const fits = fitsOf(a, b, gap)
  if (fits.length > 0)
    return fits.flatMap(({ own, spans, inward }) => spans.flatMap((s) => alongArc(own, s, inward, a, b)))
  const [loosest, other] = a.loose >= b.loose ? [a, b] : [b, a]
  const parts = depth > 0 && loosest.loose > gap ? loosest.split() : []
  if (parts.length === 0) return faceTouches(a, b, gap)
  return parts.flatMap((part) =>
    loosest === a ? touchesOf(part, other, gap, depth - 1) : touchesOf(other, part, gap, depth - 1),
  )
}

/** Ten degrees: points along a fit stand no farther apart. */
const STRIDE = Math.PI / 18

/** Points along the arc of a fit, at both ends of the length that the two share. */
function alongArc(own: Arc, [from, to]: readonly [number, number], inward: boolean, a: Cell, b: Cell): Touch[] {
  const axis = cross(own.u, own.v)
  const ends = (cell: Cell): [number, number] => [
    -reachAlong(cell.outer, scale(axis, -1)),
    reachAlong(cell.outer, axis),
  ]
  const [[a0, a1], [b0, b1]] = [ends(a), ends(b)]
  const [low, high] = [Math.max(a0, b0), Math.min(a1, b1)]
  if (high < low) return []
  const count = Math.max(1, Math.ceil((to - from) / STRIDE))
  return Array.from({ length: count + 1 }, (_, k) => from + ((to - from) * k) / count).flatMap((t) => {
    const out = add(scale(own.u, Math.cos(t)), scale(own.v, Math.sin(t)))
    const on = add(own.centre, scale(out, own.radius))
    const into = scale(out, inward ? -1 : 1)
    return [low, high].map((x): Touch => ({ at: add(on, scale(axis, x - dot(on, axis))), into }))
  })
}

/** Corners of the patch that two convex cells share in the plane that parts them. */
function faceTouches(a: Cell, b: Cell, gap: number): readonly Touch[] {
  const into = partingNormal(a, b, gap)
  if (into === undefined) return []
  const [low, high] = [faceOf(a.inner ?? a.outer, scale(into, -1)), faceOf(b.inner ?? b.outer, into)]
  const [across, other] = acrossOf(into)
  const flat = (points: readonly Vec3[]): Point2[] => convexHull(points.map((p) => [dot(p, across), dot(p, other)]))
  const level = (dot(low[0] as Vec3, into) + dot(high[0] as Vec3, into)) / 2
  return commonOf(flat(low), flat(high), HAIR).map(([u, v]) => ({
    at: add(add(scale(across, u), scale(other, v)), scale(into, level)),
    into,
  }))
}

function partingNormal(a: Cell, b: Cell, gap: number): Vec3 | undefined {
  const parting = partingNormals(a, b, gap).filter(
    (n) => -reachAlong(a.outer, scale(n, -1)) - reachAlong(b.outer, n) <= gap,
  )
  if (parting.length > 0) return parting.length === 1 ? parting[0] : undefined
  const apart = separation(a.outer, b.outer, gap, gap)
  return apart.gap > 0 && apart.gap <= gap ? scale(apart.normal, -1) : undefined
}

/** A micrometre: lines and points that cross this near meet. */
const HAIR = 1e-6
/** A millimetre: points of a face lie this near its plane. */
const SKIN = 1e-3
/** Points taken of a round edge, all the way round. */
const ROUND = 24

/** Points of a hull, on it, that lie farthest along a direction. */
export function faceOf(hull: Hull, d: Vec3): readonly Vec3[] {
  const farthest = supportPoint(hull, d)
  const most = dot(farthest, d)
  const grown = (p: Vec3): Vec3 => add(add(p, hull.shift), scale(d, hull.round))
  const points = [...hull.points, ...hull.arcs.flatMap((arc) => pointsOfArc(arc, d))].map(grown)
  return [farthest, ...points.filter((p) => dot(p, d) >= most - SKIN)]
}

function pointsOfArc({ centre, u, v, radius, half }: Arc, d: Vec3): Vec3[] {
  const at = (t: number): Vec3 => add(centre, add(scale(u, radius * Math.cos(t)), scale(v, radius * Math.sin(t))))
  const count = Math.max(1, Math.ceil((ROUND * half) / Math.PI))
  const even = Array.from({ length: count + 1 }, (_, k) => at(-half + (2 * half * k) / count))
  const farthest = Math.atan2(dot(v, d), dot(u, d))
  return Math.abs(farthest) <= half ? [...even, at(farthest)] : even
}

/** Two unit vectors across a unit vector, right-handed. */
function acrossOf(normal: Vec3): [Vec3, Vec3] {
  const helper: Vec3 = Math.abs(normal[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]
  const first = unit(subtract(helper, scale(normal, dot(helper, normal))))
  return [first, cross(normal, first)]
}

/** Of points in one plane with one normal the outermost are enough: what any other holds, they hold together. */
function outermost(touches: readonly Touch[], gap: number): readonly Touch[] {
  const planes: Touch[][] = []
  for (const touch of touches) {
    const plane = planes.find(([first]) => isSamePlane(first as Touch, touch, gap))
    if (plane === undefined) planes.push([touch])
    else plane.push(touch)
  }
  return planes.flatMap(cornersOf)
}

const isSamePlane = (a: Touch, b: Touch, gap: number): boolean =>
  norm(subtract(a.into, b.into)) < 1e-6 && Math.abs(dot(subtract(a.at, b.at), a.into)) <= gap

function cornersOf(plane: readonly Touch[]): readonly Touch[] {
  const { into, at } = plane[0] as Touch
  const [across, other] = acrossOf(into)
  const level = dot(at, into)
  return convexHull(plane.map((t) => [dot(t.at, across), dot(t.at, other)])).map(([u, v]) => ({
    at: add(add(scale(across, u), scale(other, v)), scale(into, level)),
    into,
  }))
}
