import type { Prism } from './body.ts'
import type { Cell } from './cell.ts'
import { cellAround } from './cell-around.ts'
import { type Cut, cutsInto, isCutAway } from './cut.ts'
import { extentOf, type Hull, hullOf } from './hull.ts'
import { clipped, convexParts, type Point2, type Polygon } from './polygon.ts'
import { add, apply, multiply, norm, type Pose, place, scale, subtract, unit, type Vec3 } from './vector.ts'

/** The cell of a polygon drawn out along its normal: in convex parts where it is not convex itself. */
export function prismCell(prism: Prism, pose: Pose, cuts: readonly Cut[]): Cell | undefined {
  const placed: Prism = {
    ...prism,
    origin: place(pose, prism.origin),
    turn: multiply(pose.turn, prism.turn),
  }
  return cellAround(
    convexParts(prism.outline).flatMap((outline) => partCell({ ...placed, outline }, prism.outline, cuts) ?? []),
  )
}

function partCell(part: Prism, whole: Polygon, cuts: readonly Cut[]): Cell | undefined {
  const outer = hullOfPrism(part)
  const touching = cutsInto(outer, cuts)
  if (isCutAway(outer, touching)) return undefined
  const bare = touching.length === 0
  let children: readonly Cell[] | undefined
  return {
    outer,
    inner: bare ? outer : undefined,
    loose: bare ? 0 : sizeOf(part),
    extent: extentOf(outer),
    normals: normalsOf(part, whole),
    split: () => {
      children ??= bare ? [] : halvesOf(part).flatMap((half) => partCell(half, whole, touching) ?? [])
      return children
    },
  }
}

/** Corners of both ends of a prism. */
export const cornersOfPrism = ({ origin, turn, outline, depth }: Prism): Vec3[] =>
  [0, depth].flatMap((c) => outline.map(([a, b]) => add(origin, apply(turn, [a, b, c]))))

export const hullOfPrism = (prism: Prism): Hull => hullOf(cornersOfPrism(prism))

function sizeOf(part: Prism): number {
  const corners = cornersOfPrism(part)
  return Math.max(...corners.map((p) => norm(subtract(p, corners[0] as Vec3))))
}

/** Outward normals of its ends, and of those of its sides that are sides of the whole. */
function normalsOf({ turn, outline }: Prism, whole: Polygon): Vec3[] {
  const out = apply(turn, [0, 0, 1])
  const sides = outline.flatMap((p, i): Vec3[] => {
    const q = outline[(i + 1) % outline.length] as Point2
    const isSide = whole.some((c, k) => c === p && whole[(k + 1) % whole.length] === q)
    return isSide ? [unit(apply(turn, [q[1] - p[1], p[0] - q[0], 0]))] : []
  })
  return [out, scale(out, -1), ...sides]
}

function halvesOf(part: Prism): Prism[] {
  const spans = ([0, 1] as const).map((k) => {
    const values = part.outline.map((p) => p[k])
    return [Math.min(...values), Math.max(...values)] as const
  }) as [Point2, Point2]
  const [a, b] = spans.map(([least, most]) => most - least) as [number, number]
  if (part.depth >= Math.max(a, b)) {
    const depth = part.depth / 2
    return [
      { ...part, depth },
      { ...part, depth, origin: add(part.origin, apply(part.turn, [0, 0, depth])) },
    ]
  }
  const axis = a >= b ? 0 : 1
  const [least, most] = spans[axis] as Point2
  return ([1, -1] as const).map((side) => ({ ...part, outline: clipped(part.outline, axis, (least + most) / 2, side) }))
}
