import type { Body, Cap, Frustum, Revolution, RingSector } from '../../numeric/body.ts'
import { cornersOfPrism } from '../../numeric/cell-prism.ts'
import { frameOf } from '../../numeric/cell-profile.ts'
import { convexParts } from '../../numeric/polygon.ts'
import { add, apply, cross, scale, subtract, unit, type Vec3 } from '../../numeric/vector.ts'

/** Corners of a convex solid. */
export type Cell = readonly Vec3[]

const TURN = 2 * Math.PI
const MOST_SIDES = 180

/**
 * Convex cells that together fill a body, curved faces as chords; frame of the body.
 *
 * @param sagitta greatest distance of a chord from its arc, m
 */
export function cellsOf(body: Body, sagitta: number): Cell[] {
  switch (body.kind) {
    case 'ring sector':
      return wedges(body, sagitta)
    case 'frustum':
      return [frustumCorners(body, sagitta)]
    case 'ball':
      return [ballCorners(body.centre, body.radius, sagitta)]
    case 'box':
      return [boxCorners(body.half).map((corner) => add(body.centre, apply(body.turn, corner)))]
    case 'revolution':
      return convexParts(body.profile).flatMap((part) => slicesOf({ ...body, profile: part }, sagitta))
    case 'prism':
      return convexParts(body.outline).map((outline) => cornersOfPrism({ ...body, outline }))
    case 'cap':
      return [capCorners(body, sagitta)]
    case 'mesh':
      return body.mesh.triangles.map((corners) =>
        corners.map((i) => add(body.at, scale(body.mesh.vertices[i] as Vec3, body.scale))),
      )
    default:
      return body satisfies never
  }
}

/** Chords that an arc of this sweep needs. */
export function sidesOf(radius: number, sweep: number, sagitta: number): number {
  if (radius <= sagitta) return 3
  const step = 2 * Math.acos(1 - sagitta / radius)
  return Math.min(MOST_SIDES, Math.max(Math.ceil(sweep / step), Math.ceil((3 * sweep) / TURN)))
}

function wedges({ inner, outer, rear, front, start, sweep }: RingSector, sagitta: number): Cell[] {
  const count = sidesOf(outer, sweep, sagitta)
  const ray = (k: number): readonly [number, number] => {
    const angle = start + (sweep * k) / count
    return [Math.cos(angle), Math.sin(angle)]
  }
  return Array.from({ length: count }, (_, k) => {
    const corners = [ray(k), ray(k + 1)].flatMap(([c, s]) => [
      [inner * c, inner * s] as const,
      [outer * c, outer * s] as const,
    ])
    return [rear, front].flatMap((x) => corners.map(([y, z]): Vec3 => [x, y, z]))
  })
}

function frustumCorners({ from, to, radii }: Frustum, sagitta: number): Cell {
  const axis = unit(subtract(to, from))
  const aside = unit(cross(axis, Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]))
  const other = cross(axis, aside)
  const count = sidesOf(Math.max(...radii), TURN, sagitta)
  return [from, to].flatMap((centre, end) =>
    Array.from({ length: count }, (_, k) => {
      const [c, s] = [Math.cos((TURN * k) / count), Math.sin((TURN * k) / count)]
      return add(centre, scale(add(scale(aside, c), scale(other, s)), radii[end] as number))
    }),
  )
}

function ballCorners(centre: Vec3, radius: number, sagitta: number): Cell {
  const count = sidesOf(radius, TURN, sagitta)
  const rows = Math.ceil(count / 2)
  return Array.from({ length: rows + 1 }, (_, row) => {
    const lift = Math.PI * (row / rows - 0.5)
    return Array.from({ length: count }, (_, k): Vec3 => {
      const angle = (TURN * k) / count
      return add(
        centre,
        scale([Math.cos(lift) * Math.cos(angle), Math.cos(lift) * Math.sin(angle), Math.sin(lift)], radius),
      )
    })
  }).flat()
}

/** A convex profile turned from chord to chord. */
function slicesOf({ origin, axis, profile }: Revolution, sagitta: number): Cell[] {
  const frame = frameOf(axis)
  const count = sidesOf(Math.max(...profile.map(([, r]) => r)), TURN, sagitta)
  const corners = (k: number): Vec3[] => {
    const angle = (TURN * k) / count
    return profile.map(([x, r]) => add(origin, apply(frame, [x, r * Math.cos(angle), r * Math.sin(angle)])))
  }
  return Array.from({ length: count }, (_, k) => [...corners(k), ...corners(k + 1)])
}

/** Circles of latitude from the rim to the top. */
function capCorners({ centre, axis, radius, height }: Cap, sagitta: number): Cell {
  const frame = frameOf(axis)
  const count = sidesOf(radius, TURN, sagitta)
  const most = Math.acos((radius - height) / radius)
  const rows = Math.max(2, Math.ceil((count * most) / TURN))
  return Array.from({ length: rows + 1 }, (_, row) => {
    const from = (most * row) / rows
    return Array.from({ length: row === 0 ? 1 : count }, (_, k): Vec3 => {
      const [out, angle] = [radius * Math.sin(from), (TURN * k) / count]
      return add(centre, apply(frame, [radius * Math.cos(from), out * Math.cos(angle), out * Math.sin(angle)]))
    })
  }).flat()
}

const SIGNS = [-1, 1] as const
const boxCorners = ([a, b, c]: Vec3): Vec3[] =>
  SIGNS.flatMap((x) => SIGNS.flatMap((y) => SIGNS.map((z): Vec3 => [x * a, y * b, z * c])))
