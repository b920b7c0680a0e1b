import type { Shaft } from '../../model/index.ts'
import type { Point2 } from '../outline/convex.ts'
import { distanceBetween } from '../outline/distance.ts'

/** Where the piece, on its way up the shaft, comes nearest to one thing that stays; how near is for the lift stage to say. */
export interface PlanPlace {
  /** `wall`, or the id of the fixed thing. */
  id: string
  what: string
  /** On the piece, and on what is near. */
  from: Point2
  to: Point2
}

type Obstruction = Shaft['obstructions'][string]

const CIRCLE_SIDES = 72

/** Plan outline of a fixed thing. */
export function planOutline({ x, y, round }: Pick<Obstruction, 'x' | 'y' | 'round'>): Point2[] {
  const [x1, x2] = x.map((v) => v.value as number) as [number, number]
  const [y1, y2] = y.map((v) => v.value as number) as [number, number]
  if (!round)
    return [
      [x1, y1],
      [x2, y1],
      [x2, y2],
      [x1, y2],
    ]
  const [cx, cy, r] = [(x1 + x2) / 2, (y1 + y2) / 2, Math.max(x2 - x1, y2 - y1) / 2]
  return Array.from({ length: CIRCLE_SIDES }, (_, k): Point2 => {
    const angle = (2 * Math.PI * k) / CIRCLE_SIDES
    return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)]
  })
}

/** Nearest places in plan to the wall and to every fixed thing. */
export function planPlaces(shaft: Shaft, outline: readonly (readonly Point2[])[]): PlanPlace[] {
  const things = Object.entries(shaft.obstructions).map(([id, o]): PlanPlace => {
    const { from, to } = distanceBetween(outline, [planOutline(o)])
    return { id, what: o.what, from, to }
  })
  return [wallPlace(shaft, outline), ...things]
}

function wallPlace({ clearDiameter }: Shaft, outline: readonly (readonly Point2[])[]): PlanPlace {
  const radius = (clearDiameter.value as number) / 2
  const away = ([u, v]: Point2): number => Math.hypot(u, v)
  const out = outline.flat().reduce((far, p) => (away(p) > away(far) ? p : far), [0, 0] as Point2)
  const to: Point2 = away(out) === 0 ? [radius, 0] : [(out[0] * radius) / away(out), (out[1] * radius) / away(out)]
  return { id: 'wall', what: 'wall', from: out, to }
}
