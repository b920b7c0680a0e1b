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

/** The parts of a run of points that lie inside a box (Liang and Barsky, from memory). */
export function clippedLine(points: readonly PaperPoint[], room: PaperBox): PaperPoint[][] {
  const runs: PaperPoint[][] = []
  points.slice(1).forEach((to, i) => {
    const part = clippedSegment(points[i] as PaperPoint, to, room)
    if (part === undefined) return
    const run = runs.at(-1)
    const last = run?.at(-1)
    if (run !== undefined && last?.[0] === part[0][0] && last[1] === part[0][1]) run.push(part[1])
    else runs.push([...part])
  })
  return runs
}

function clippedSegment(
  from: PaperPoint,
  to: PaperPoint,
  { left, right, top, bottom }: PaperBox,
): readonly [PaperPoint, PaperPoint] | undefined {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  let [enter, leave] = [0, 1]
  const sides: [number, number][] = [
    [-dx, from[0] - left],
    [dx, right - from[0]],
    [-dy, from[1] - top],
    [dy, bottom - from[1]],
  ]
  for (const [step, room] of sides) {
    if (step === 0 && room < 0) return undefined
    if (step < 0) enter = Math.max(enter, room / step)
    if (step > 0) leave = Math.min(leave, room / step)
  }
  const at = (t: number): PaperPoint => (t === 0 ? from : t === 1 ? to : [from[0] + t * dx, from[1] + t * dy])
  return enter < leave ? [at(enter), at(leave)] : undefined
}
