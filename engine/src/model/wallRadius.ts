import type { Shaft } from './schema/project.ts'

/** How thick a pile or panel is: by the diameter of the one, by the thickness of the other. */
export const elementThickness = ({ wall }: Pick<Shaft, 'wall'>): Shaft['wall']['thickness'] =>
  wall.kind === 'secant piles' ? wall.pileDiameter : wall.thickness

/** Whether a wall is set out on a circle of middles, piles or panels. */
export const isSetOutOnCircle = ({ wall }: Pick<Shaft, 'wall'>): boolean =>
  wall.kind === 'secant piles' || wall.kind === 'slurry panels'

/**
 * Outer radius of the shaft's wall, m: from the circle it is set out on; else from the clear bore with lining and thickness, as far
 * as they are given.
 */
export function wallRadius(shaft: Pick<Shaft, 'clearDiameter' | 'wall'>): number {
  const { ringDiameter, lining } = shaft.wall
  const thick = elementThickness(shaft)?.value
  const circle = ringDiameter?.value
  if (isSetOutOnCircle(shaft) && circle !== undefined && thick !== undefined) return (circle + thick) / 2
  return (shaft.clearDiameter.value as number) / 2 + (lining?.value ?? 0) + (thick ?? 0)
}
