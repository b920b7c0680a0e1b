import type { Cell } from '../numeric/cell.ts'
import { encounter } from '../numeric/encounter.ts'
import { withoutRepeats, wrapNormals } from '../numeric/freedom.ts'
import { type Arc, extentGap, reachAlong } from '../numeric/hull.ts'
import { straightMotion } from '../numeric/motion.ts'
import { separation } from '../numeric/separation.ts'
import { AT_REST, add, cross, dot, norm, scale, subtract, type Vec3 } from '../numeric/vector.ts'
import type { PartCells } from './shape.ts'

/**
 * Unit normals of the contacts between two parts as found, pointing into the first. Coaxial fits come from their circles,
 * over the angle that both have; plane ones from their faces. A meeting of edges or corners holds nothing and is left out.
 *
 * @param gap faces as near as this touch, m
 */
export function contactNormals(a: PartCells, b: PartCells, gap: number): readonly Vec3[] {
  if (extentGap(a.extent, b.extent) > gap) return []
  return withoutRepeats(
    a.solids.flatMap((p) =>
      b.solids.flatMap((q) => (touches(p.cell, q.cell, gap) ? normalsInto(p.cell, q.cell, gap) : [])),
    ),
  )
}

const STILL = straightMotion(AT_REST, [0, 0, 0])
const DEEP = 1e3

/** Near enough to touch, by shapes that are split until that is sure. */
function touches(a: Cell, b: Cell, gap: number): boolean {
  if (extentGap(a.extent, b.extent) > gap) return false
  const reach = 2 * gap
  return encounter([a], [b], STILL, { tolerance: DEEP, reach, resolution: gap / 4 }).gap <= gap
}

function normalsInto(a: Cell, b: Cell, gap: number): readonly Vec3[] {
  const fits = fitsOf(a, b, gap).flatMap(normalsAlong)
  return fits.length > 0 ? fits : faceNormals(a, b, gap, FINEST)
}

/** A round part in a bore with the same axis: the arc of the shaft, and the angles of it that both have. */
interface Fit {
  own: Arc
  spans: readonly (readonly [number, number])[]
  /** The shaft is the first of the two: normals into it point to the axis. */
  inward: boolean
}

/** Coaxial fits of two cells, whichever is the shaft. */
export const fitsOf = (a: Cell, b: Cell, gap: number): readonly Fit[] => [
  ...fitIn(a, b, gap, true),
  ...fitIn(b, a, gap, false),
]

function fitIn(shaft: Cell, hole: Cell, gap: number, inward: boolean): Fit[] {
  const { bore } = hole
  if (bore === undefined) return []
  const around = hole.outer.arcs[0]
  const own = shaft.outer.arcs.find((arc) => {
    const off = subtract(arc.centre, bore.origin)
    const across = norm(subtract(off, scale(bore.axis, dot(off, bore.axis))))
    const parallel = norm(cross(cross(arc.u, arc.v), bore.axis)) < 1e-9
    return parallel && across <= gap && Math.abs(arc.radius - bore.radius) <= gap
  })
  if (own === undefined || around === undefined) return []
  const spans = sharedAngles(own, around)
  return spans.length === 0 ? [] : [{ own, spans, inward }]
}

function normalsAlong({ own, spans, inward }: Fit): Vec3[] {
  return spans.flatMap(([from, to]) => {
    const middle = (from + to) / 2
    const at = (t: number): Vec3 => add(scale(own.u, Math.cos(t)), scale(own.v, Math.sin(t)))
    return wrapNormals(at(middle), at(middle + Math.PI / 2), (to - from) / 2, inward)
  })
}

/** Angles that two arcs about one axis have in common, in the frame of the first. */
function sharedAngles(a: Arc, b: Arc): (readonly [number, number])[] {
  if (b.half >= Math.PI) return [[-a.half, a.half]]
  const turned = Math.atan2(dot(b.u, a.v), dot(b.u, a.u))
  if (a.half >= Math.PI) return [[turned - b.half, turned + b.half]]
  return [-1, 0, 1].flatMap((k) => {
    const middle = turned + 2 * Math.PI * k
    const [from, to] = [Math.max(-a.half, middle - b.half), Math.min(a.half, middle + b.half)]
    return from < to - 1e-9 ? [[from, to] as const] : []
  })
}

const FINEST = 5

/** Normals of faces of either that part the two, into the first. */
export function partingNormals(a: Cell, b: Cell, gap: number): readonly Vec3[] {
  const parting = [...a.normals.map((n) => scale(n, -1)), ...b.normals].filter(
    (n) => -reachAlong(a.outer, scale(n, -1)) - reachAlong(b.outer, n) >= -gap,
  )
  return withoutRepeats(parting)
}

/** Faces of either that part the two; where the outer shapes run into each other, those of smaller cells. */
function faceNormals(a: Cell, b: Cell, gap: number, depth: number): Vec3[] {
  if (extentGap(a.extent, b.extent) > gap) return []
  const [only, second] = partingNormals(a, b, gap)
  if (only !== undefined) return second === undefined ? [only] : []
  const apart = separation(a.outer, b.outer, gap, gap)
  if (apart.gap > gap) return []
  if (apart.gap > 0) return [scale(apart.normal, -1)]
  const [loosest, other] = a.loose >= b.loose ? [a, b] : [b, a]
  const parts = depth > 0 && loosest.loose > 0 ? loosest.split() : []
  return parts.flatMap((part) =>
    loosest === a ? faceNormals(part, other, gap, depth - 1) : faceNormals(other, part, gap, depth - 1),
  )
}
