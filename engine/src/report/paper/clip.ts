import type { PaperBox, PaperPoint } from '../drawing.ts'

/** A loop cut off at the sides of a box (Sutherland and Hodgman). */
export function clippedLoop(loop: readonly PaperPoint[], room: PaperBox): PaperPoint[] {
  const sides: [0 | 1, number, 1 | -1][] = [
    [0, room.left, 1],
    [0, room.right, -1],
    [1, room.top, 1],
    [1, room.bottom, -1],
  ]
  return sides.reduce<PaperPoint[]>((points, [axis, limit, sign]) => clippedAt(points, axis, limit, sign), [...loop])
}

function clippedAt(points: readonly PaperPoint[], axis: 0 | 1, limit: number, sign: 1 | -1): PaperPoint[] {
  return points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length] as PaperPoint
    const [a, b] = [sign * (p[axis] - limit), sign * (q[axis] - limit)]
    const crossing = (): PaperPoint => {
      const t = a / (a - b)
      return [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]
    }
    if (a >= 0) return b >= 0 ? [p] : [p, crossing()]
    return b >= 0 ? [crossing()] : []
  })
}
