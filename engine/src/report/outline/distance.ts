import type { Point2 } from './convex.ts'

/** Where two outlines come nearest, and how near; zero where they meet. */
export interface Nearness {
  gap: number
  from: Point2
  to: Point2
}

/** Least distance between closed loops; what lies inside the other counts as touching. */
export function distanceBetween(a: readonly (readonly Point2[])[], b: readonly (readonly Point2[])[]): Nearness {
  let best: Nearness = { gap: Infinity, from: [0, 0], to: [0, 0] }
  for (const loop of a) for (const p of loop) best = nearer(best, p, b, false)
  for (const loop of b) for (const p of loop) best = nearer(best, p, a, true)
  const inside = a.some((loop) => isInside(loop[0] as Point2, b)) || b.some((loop) => isInside(loop[0] as Point2, a))
  return inside || crossing(a, b) ? { ...best, gap: 0 } : best
}

function nearer(best: Nearness, p: Point2, loops: readonly (readonly Point2[])[], swap: boolean): Nearness {
  let found = best
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i++) {
      const q = nearestOnSegment(p, loop[i] as Point2, loop[(i + 1) % loop.length] as Point2)
      const gap = Math.hypot(p[0] - q[0], p[1] - q[1])
      if (gap < found.gap) found = swap ? { gap, from: q, to: p } : { gap, from: p, to: q }
    }
  }
  return found
}

/** The point of a segment nearest to a point. */
export function nearestOnSegment(p: Point2, a: Point2, b: Point2): Point2 {
  const [du, dv] = [b[0] - a[0], b[1] - a[1]]
  const length = du * du + dv * dv
  const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * du + (p[1] - a[1]) * dv) / length))
  return [a[0] + t * du, a[1] + t * dv]
}

/** Whether an odd number of loops surround a point. */
export function isInside([u, v]: Point2, loops: readonly (readonly Point2[])[]): boolean {
  let odd = false
  for (const loop of loops)
    for (let i = 0; i < loop.length; i++) {
      const [a, b] = [loop[i] as Point2, loop[(i + 1) % loop.length] as Point2]
      if (a[1] > v !== b[1] > v && u < a[0] + ((v - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) odd = !odd
    }
  return odd
}

function crossing(a: readonly (readonly Point2[])[], b: readonly (readonly Point2[])[]): boolean {
  return a.some((loop) => loop.some((p, i) => meets(p, loop[(i + 1) % loop.length] as Point2, b)))
}

function meets(p: Point2, q: Point2, loops: readonly (readonly Point2[])[]): boolean {
  return loops.some((loop) =>
    loop.some((a, i) => {
      const b = loop[(i + 1) % loop.length] as Point2
      return side(p, q, a) * side(p, q, b) < 0 && side(a, b, p) * side(a, b, q) < 0
    }),
  )
}

const side = (a: Point2, b: Point2, p: Point2): number => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])

/** A convex loop moved outwards by a distance, corners rounded in chords. */
export function grown(loop: readonly Point2[], by: number): Point2[] {
  return loop.flatMap((p, i) => {
    const [before, after] = [loop[(i + loop.length - 1) % loop.length] as Point2, loop[(i + 1) % loop.length] as Point2]
    const [from, to] = [outward(before, p), outward(p, after)]
    let turn = to - from
    if (turn < 0) turn += 2 * Math.PI
    const chords = Math.max(1, Math.ceil(turn / CHORD))
    return Array.from({ length: chords + 1 }, (_, k): Point2 => {
      const angle = from + (turn * k) / chords
      return [p[0] + by * Math.cos(angle), p[1] + by * Math.sin(angle)]
    })
  })
}

const CHORD = Math.PI / 12

const outward = (a: Point2, b: Point2): number => Math.atan2(b[1] - a[1], b[0] - a[0]) - Math.PI / 2
