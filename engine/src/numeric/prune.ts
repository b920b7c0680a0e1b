import { type Extent, extentGap } from './hull.ts'
import { cross, norm, unit, type Vec3 } from './vector.ts'

/** Boxes as they are seen along a direction: least and greatest across it, two ways. */
interface Shadow {
  at: number
  u: readonly [number, number]
  v: readonly [number, number]
}

/**
 * Pairs of boxes that could meet if one of them went along a direction, or back, without end: those whose shadows across it
 * overlap. Shadows are sorted and swept over, so that pairs far apart are never looked at.
 *
 * @param visit called once for each such pair, i < j
 */
export function shadowPairs(extents: readonly Extent[], direction: Vec3, visit: (i: number, j: number) => void): void {
  const [u, v] = acrossOf(direction)
  const shadows = extents.map((e, at): Shadow => ({ at, u: shadowOf(e, u), v: shadowOf(e, v) }))
  shadows.sort((a, b) => a.u[0] - b.u[0])
  let open: Shadow[] = []
  for (const next of shadows) {
    open = open.filter((s) => s.u[1] >= next.u[0])
    for (const s of open) {
      if (s.v[1] < next.v[0] || next.v[1] < s.v[0]) continue
      if (s.at < next.at) visit(s.at, next.at)
      else visit(next.at, s.at)
    }
    open.push(next)
  }
}

/**
 * Pairs of boxes that meet or touch, i < j, in order. Boxes are sorted along x and swept over, so that pairs far apart are
 * never looked at.
 */
export function extentPairs(extents: readonly Extent[]): readonly (readonly [number, number])[] {
  const order = [...extents.keys()].sort((i, j) => (extents[i] as Extent)[0] - (extents[j] as Extent)[0])
  const pairs: (readonly [number, number])[] = []
  let open: number[] = []
  for (const next of order) {
    const box = extents[next] as Extent
    open = open.filter((i) => (extents[i] as Extent)[3] >= box[0])
    for (const i of open) if (extentGap(extents[i] as Extent, box) === 0) pairs.push(i < next ? [i, next] : [next, i])
    open.push(next)
  }
  return pairs.sort((p, q) => p[0] - q[0] || p[1] - q[1])
}

/** Two units across a direction. */
function acrossOf(d: Vec3): readonly [Vec3, Vec3] {
  const least = d.reduce<number>((k, x, i) => (Math.abs(x) < Math.abs(d[k] as number) ? i : k), 0)
  const u = unit(cross(d, [0, 1, 2].map((i) => Number(i === least)) as unknown as Vec3))
  return [u, unit(cross(d, u))]
}

function shadowOf(e: Extent, u: Vec3): readonly [number, number] {
  let [least, most] = [0, 0]
  for (let i = 0; i < 3; i++) {
    const [a, b] = [(e[i] as number) * (u[i] as number), (e[i + 3] as number) * (u[i] as number)]
    least += Math.min(a, b)
    most += Math.max(a, b)
  }
  return [least, most]
}

/** Whether a box that goes along a direction without end could meet another: a ray against the difference of the two. */
export function boxesMeet(a: Extent, b: Extent, d: Vec3): boolean {
  let [enter, leave] = [0, Number.POSITIVE_INFINITY]
  for (let i = 0; i < 3; i++) {
    const low = (b[i] as number) - (a[i + 3] as number)
    const high = (b[i + 3] as number) - (a[i] as number)
    const along = d[i] as number
    if (along === 0) {
      if (low > 0 || high < 0) return false
    } else {
      enter = Math.max(enter, Math.min(low / along, high / along))
      leave = Math.min(leave, Math.max(low / along, high / along))
    }
  }
  return enter <= leave
}

/** Length of a way that surely brings one box clear of another, m. */
export const clearOf = (a: Extent, b: Extent): number =>
  norm(
    [0, 1, 2].map(
      (i) => Math.max(a[i + 3] as number, b[i + 3] as number) - Math.min(a[i] as number, b[i] as number),
    ) as unknown as Vec3,
  ) + 1
