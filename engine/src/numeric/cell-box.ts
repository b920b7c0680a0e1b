import type { Ball, Box, Cap } from './body.ts'
import type { Cell } from './cell.ts'
import { type Cut, cutsInto, isCutAway } from './cut.ts'
import { arcOf, extentOf, type Hull, hullOf } from './hull.ts'
import { add, apply, cross, type Mat3, multiply, norm, type Pose, place, scale, unit, type Vec3 } from './vector.ts'

/** The cell of a box; undefined when the cuts leave nothing of it. */
export function boxCell({ centre, half, turn }: Box, pose: Pose, cuts: readonly Cut[]): Cell | undefined {
  return placedBox(place(pose, centre), half, multiply(pose.turn, turn), cuts)
}

function placedBox(centre: Vec3, half: Vec3, turn: Mat3, cuts: readonly Cut[]): Cell | undefined {
  const outer = hullOf(cornersOf(centre, half, turn))
  const touching = cutsInto(outer, cuts)
  if (isCutAway(outer, touching)) return undefined
  const bare = touching.length === 0
  let children: readonly Cell[] | undefined
  return {
    outer,
    inner: bare ? outer : undefined,
    loose: bare ? 0 : 2 * norm(half),
    ...(bare ? { core: { centre, radius: Math.min(...half) } } : {}),
    extent: extentOf(outer),
    normals: [0, 1, 2].flatMap((i) => [column(turn, i, 1), column(turn, i, -1)]),
    split: () => {
      children ??= bare ? [] : halvesOf(centre, half, turn).flatMap(([c, h]) => placedBox(c, h, turn, touching) ?? [])
      return children
    },
  }
}

const column = (m: Mat3, i: number, sign: number): Vec3 => [
  sign * (m[0][i] as number),
  sign * (m[1][i] as number),
  sign * (m[2][i] as number),
]

/** Corners of a box with edges of length 2·half along the columns of `turn`. */
export function cornersOf(centre: Vec3, [a, b, c]: Vec3, turn: Mat3): Vec3[] {
  const signs = [-1, 1]
  return signs.flatMap((i) => signs.flatMap((j) => signs.map((k) => add(centre, apply(turn, [i * a, j * b, k * c])))))
}

function halvesOf(centre: Vec3, half: Vec3, turn: Mat3): [Vec3, Vec3][] {
  const longest = half.indexOf(Math.max(...half))
  const quarter = half.map((h, i) => (i === longest ? h / 2 : h)) as unknown as Vec3
  const step = column(turn, longest, (half[longest] as number) / 2)
  return [
    [add(centre, scale(step, -1)), quarter],
    [add(centre, step), quarter],
  ]
}

/** The cell of a ball. A ball that is cut cannot be split: it stays undecided. */
export function ballCell({ centre, radius }: Ball, pose: Pose, cuts: readonly Cut[]): Cell | undefined {
  const outer = hullOf([place(pose, centre)], [], radius)
  const touching = cutsInto(outer, cuts)
  if (isCutAway(outer, touching)) return undefined
  const bare = touching.length === 0
  return {
    outer,
    inner: bare ? outer : undefined,
    loose: bare ? 0 : radius,
    ...(bare ? { core: { centre: place(pose, centre), radius } } : {}),
    extent: extentOf(outer),
    normals: [],
    split: () => [],
  }
}

/** Hull of a cap in a pose: its rim and the part of the sphere beyond it. */
export function hullOfCap({ centre, axis, radius, height }: Cap, pose: Pose): Hull {
  const base = radius - height
  const rim = Math.sqrt(Math.max(0, radius * radius - base * base))
  const [up, middle] = [apply(pose.turn, axis), place(pose, centre)]
  const least = [0, 1, 2].reduce((k, i) => (Math.abs(up[i] as number) < Math.abs(up[k] as number) ? i : k), 0)
  const u = unit(cross(up, [0, 1, 2].map((i) => Number(i === least)) as unknown as Vec3))
  const arcs = [arcOf(add(middle, scale(up, base)), u, cross(up, u), rim, Math.PI)]
  return { ...hullOf([], arcs), caps: [{ centre: middle, axis: up, radius, cos: base / radius }] }
}

/** The cell of a spherical cap. Like a ball, one that is cut cannot be split: it stays undecided. */
export function capCell(cap: Cap, pose: Pose, cuts: readonly Cut[]): Cell | undefined {
  const outer = hullOfCap(cap, pose)
  const touching = cutsInto(outer, cuts)
  if (isCutAway(outer, touching)) return undefined
  const bare = touching.length === 0
  return {
    outer,
    inner: bare ? outer : undefined,
    loose: bare ? 0 : 2 * cap.radius,
    extent: extentOf(outer),
    normals: [scale(apply(pose.turn, cap.axis), -1)],
    split: () => [],
  }
}
