import type { Shaft } from './schema/project.ts'

type Surveyed = Shaft['wall']['asBuilt'][string]

/** A pile or panel as surveyed. */
export interface Element {
  id: string
  is: Surveyed
}

/** Piles or panels of a wall that have been surveyed, in their order round the shaft. */
export const surveyedSoFar = ({ wall }: Pick<Shaft, 'wall'>): Element[] =>
  Object.entries(wall.asBuilt)
    .map(([id, is]): Element => ({ id, is }))
    .sort((a, b) => bearing(a) - bearing(b))

/** The same once every one of them is surveyed, so that the survey replaces the tolerances; undefined before. */
export function surveyedElements(shaft: Pick<Shaft, 'wall'>): Element[] | undefined {
  const surveyed = surveyedSoFar(shaft)
  return surveyed.length === 0 || surveyed.length !== shaft.wall.piles ? undefined : surveyed
}

/**
 * The direction from the axis in which a pile or panel stands at its head, in plan. A panel is straight and keeps it: its face stays
 * square to it, however it moves along the wall.
 */
export function outwardsAtHead({ head }: Surveyed): readonly [number, number] {
  const [x, y] = [head[0].value as number, head[1].value as number]
  const far = Math.hypot(x, y)
  return [x / far, y / far]
}

/** How far outside a circle about the axis its middle stands: a pile by its own distance, a panel square to its face. */
export function standingOut(
  { wall }: Pick<Shaft, 'wall'>,
  is: Surveyed,
  [x, y]: readonly [number, number],
  middle: number,
): number {
  const [c, s] = outwardsAtHead(is)
  return (wall.kind === 'slurry panels' ? x * c + y * s : Math.hypot(x, y)) - middle
}

const bearing = ({ is }: Element): number => Math.atan2(is.head[1].value as number, is.head[0].value as number)

/** Where a pile or panel stands at a level, site frame, m: straight between its two surveyed points, and below. */
export function elementAt({ head, low, lowAt }: Surveyed, collar: number, z: number): readonly [number, number] {
  const down = (collar - z) / (collar - (lowAt.value as number))
  const along = (i: 0 | 1) => (head[i].value as number) + ((low[i].value as number) - (head[i].value as number)) * down
  return [along(0), along(1)]
}
