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

/** A surveyed point of a pile or panel, site frame, m. */
export interface SurveyedPoint {
  at: readonly [number, number]
  z: number
}

/** All of its points from the collar down; two at least. */
export function surveyedPoints({ head, low, lowAt, between }: Surveyed, collar: number): SurveyedPoint[] {
  const point = ([x, y]: Surveyed['head'], z: number): SurveyedPoint => ({
    at: [x.value as number, y.value as number],
    z,
  })
  return [
    point(head, collar),
    ...between.map(({ at, z }) => point(at, z.value as number)),
    point(low, lowAt.value as number),
  ]
}

/**
 * Where a pile or panel stands at a level, site frame, m: straight from each surveyed point to the next, and on below the last as it ran
 * to it. How far it may leave that line where nobody has measured is not in it.
 */
export function elementAt(is: Surveyed, collar: number, z: number): readonly [number, number] {
  const points = surveyedPoints(is, collar)
  const reached = points.findIndex((p) => p.z <= z)
  const next = reached === -1 ? points.length - 1 : Math.max(1, reached)
  const [a, b] = [points[next - 1], points[next]] as [SurveyedPoint, SurveyedPoint]
  const down = (a.z - z) / (a.z - b.z)
  const along = (i: 0 | 1) => a.at[i] + (b.at[i] - a.at[i]) * down
  return [along(0), along(1)]
}

/** Levels at which a pile or panel turns, strictly between two others, from the top down, site z, m. */
export const turnsBetween = (is: Surveyed, high: number, low: number): number[] =>
  [...is.between.map(({ z }) => z.value as number), is.lowAt.value as number].filter((z) => z < high && z > low)
