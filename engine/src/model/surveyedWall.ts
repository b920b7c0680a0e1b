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

const bearing = ({ is }: Element): number => Math.atan2(is.head[1].value as number, is.head[0].value as number)

/** Where a pile or panel stands at a level, site frame, m: straight between its two surveyed points, and below. */
export function elementAt({ head, low, lowAt }: Surveyed, collar: number, z: number): readonly [number, number] {
  const down = (collar - z) / (collar - (lowAt.value as number))
  const along = (i: 0 | 1) => (head[i].value as number) + ((low[i].value as number) - (head[i].value as number)) * down
  return [along(0), along(1)]
}
