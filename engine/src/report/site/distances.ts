import type { Bay, Utility } from '../../model/index.ts'
import type { Point2 } from '../outline/convex.ts'
import { nearestOnSegment } from '../outline/distance.ts'
import { planOf } from './planFrame.ts'

/** From the shaft's centre in plan, m; undefined where the model has no place for it. */
export function distanceFromCentre({ line, at }: Pick<Utility, 'line' | 'at'>): number | undefined {
  const points = (line ?? (at === undefined ? [] : [at])).map(planOf)
  if (points.length === 0) return undefined
  const nearest = points.map((p, i) => nearestOnSegment([0, 0], p, points[i + 1] ?? p))
  return Math.min(...nearest.map(fromCentre))
}

export const fromCentre = ([x, y]: Point2): number => Math.hypot(x, y)

export const bayDistance = ({ centre }: Bay): number => fromCentre(planOf(centre))
