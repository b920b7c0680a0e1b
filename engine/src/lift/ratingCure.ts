import type { Answer } from '../working/answer.ts'

/**
 * What would mend something that carries more than it is rated for, in words: a rating as much higher.
 *
 * @param rated on its tag; what hitch, bend and side pull take from it stays in proportion
 */
export function ratingCure(demand: Answer<'N'>, capacity: Answer<'N'>, rated: Answer<'kg'> | undefined): string[] {
  const [pull, bears, tag] = [demand.value, capacity.value, rated?.value]
  if (pull === undefined || bears === undefined || tag === undefined || pull <= bears || pull > WAY_OFF * bears)
    return []
  return [`rated ${tonnes(tag)}: ${tonnes(Math.ceil((tag * pull) / bears / TENTH) * TENTH)} or more would bear it`]
}

/** Of what carries more than this many times its rating the arrangement is wrong, such as a leg that does not reach. */
const WAY_OFF = 10

/** Ratings are told to a tenth of a tonne, rounded up, kg. */
const TENTH = 100
const tonnes = (mass: number): string => `${(mass / 1000).toFixed(1)} t`
