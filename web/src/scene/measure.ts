import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { SceneItem } from './sceneItem.ts'

/** Between two points of the site, m. */
export interface Measured {
  from: Vec3
  to: Vec3
}

export interface Spans {
  distance: number
  dx: number
  dy: number
  dz: number
}

/** What lies between two points: straight, and along each axis of the site. */
export function spansOf({ from, to }: Measured): Spans {
  const [dx, dy, dz] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]]
  return { distance: Math.hypot(dx, dy, dz), dx, dy, dz }
}

/** Places of a thing that a measure holds on to, its own frame: ends of axes. */
export function axisEnds(item: SceneItem): Vec3[] {
  return item.solids.flatMap((s): Vec3[] => {
    if (s.shape === 'cylinder') return [s.from, s.to]
    if (s.shape === 'ring sector') return s.along.map((x): Vec3 => [x, 0, 0])
    if (s.shape === 'sphere') return [s.centre]
    return []
  })
}

/** The candidate nearest to the pointer, if one is near enough; else the point itself. */
export function snapped(
  point: Vec3,
  candidates: readonly Vec3[],
  pixelsAway: (p: Vec3) => number,
  reach = 10,
): { at: Vec3; held: boolean } {
  let best: { at: Vec3; away: number } | undefined
  for (const at of candidates) {
    const away = pixelsAway(at)
    if (away <= reach && (best === undefined || away < best.away)) best = { at, away }
  }
  return best === undefined ? { at: point, held: false } : { at: best.at, held: true }
}
