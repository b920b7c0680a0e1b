import type { Answer } from '../working/answer.ts'
import { likeOf, showQuantity } from '../working/quantity.ts'

/** A value in words, with its unit; in the unit that suits `like`, where two stand beside one another. */
export function words({ value, unit }: Answer, like: number | undefined = value): string {
  // a pull on a rope held by hand is told in newtons
  if (unit === 'N' && value !== undefined && Math.abs(like ?? value) < 1000) return `${value.toFixed(0)}\u00a0N`
  return showQuantity(value, unit, 'SI', like)
}

/** More is asked than there is: how much, and what would cure it. Nothing unless it is known to be so. */
export function tooMuch(demand: Answer, capacity: Answer, cure: string): string[] {
  const over = excess(demand, capacity)
  const [asked, allowed] = alike(demand, capacity)
  return over === undefined ? [] : [`${asked} where ${allowed} is allowed, ${over} too much: ${cure}`]
}

/** Less is there than is wanted: how much, and what would cure it. */
export function tooLittle(wanted: Answer, there: Answer, cure: string): string[] {
  const short = excess(wanted, there)
  const [due, left] = alike(wanted, there)
  return short === undefined ? [] : [`${left} where ${due} is wanted, ${short} too little: ${cure}`]
}

/** Two values in one unit. */
export function alike(a: Answer, b: Answer): [string, string] {
  const like = likeOf([a.value, b.value], a.unit, 'SI')
  return [words(a, like), words(b, like)]
}

function excess(more: Answer, less: Answer): string | undefined {
  if (more.value === undefined || less.value === undefined || more.value <= less.value) return undefined
  return words({ ...more, value: more.value - less.value } as Answer)
}

/** Strength used more than once over: how often, and what would cure it. */
export function usedUp({ value }: Answer<'1'>, cure: string): string[] {
  return value === undefined || value <= 1 ? [] : [`its strength is used ${times(value)} over: ${cure}`]
}

/** A ratio in words: two decimals near one, fewer of what is far beyond. */
export const times = (ratio: number): string => `${ratio < 10 ? ratio.toFixed(2) : ratio.toFixed(0)} times`

/**
 * What would mend something that carries more than it is rated for, in words: a rating as much higher.
 *
 * @param rated on its tag; what hitch, bend and side pull take from it stays in proportion
 */
export function ratingCure(demand: Answer<'N'>, capacity: Answer<'N'>, rated: Answer<'kg'> | undefined): string[] {
  const [pull, bears, tag] = [demand.value, capacity.value, rated?.value]
  if (pull === undefined || bears === undefined || pull <= bears) return []
  if (pull > WAY_OFF * bears)
    return [
      `it would carry ${bears > 0 ? `${times(pull / bears)} what it bears` : 'what nothing here bears'}: ${ARRANGEMENT}`,
    ]
  if (tag === undefined) return tooMuch(demand, capacity, 'a higher rating')
  return [`rated ${tonnes(tag)}: ${tonnes(Math.ceil((tag * pull) / bears / TENTH) * TENTH)} or more would bear it`]
}

/** Of what carries more than this many times its rating the arrangement is wrong, such as a leg that does not reach. */
const WAY_OFF = 10
const ARRANGEMENT = 'no higher rating alone mends that; look at lengths, angles and what each leg carries'

/** Ratings are told to a tenth of a tonne, rounded up, kg. */
const TENTH = 100
const tonnes = (mass: number): string => `${(mass / 1000).toFixed(1)}\u00a0t`

/** Least factor above one that makes it true, to a thousandth; undefined where none of those that are tried first does. */
export function leastThat(holds: (factor: number) => boolean): number | undefined {
  const first = TRIED.find(holds)
  if (first === undefined) return undefined
  let [no, yes] = [1, first]
  while (yes - no > 1e-3) {
    const middle = (no + yes) / 2
    if (holds(middle)) yes = middle
    else no = middle
  }
  return yes
}

/** A plate or an edge of more than eight times its own is another one; too large a throat leaves nothing of a short weld. */
const TRIED = [8, 4, 2]

/** A length so many times as large, rounded up to a whole millimetre, in words. */
export const millimetresUp = (length: Answer<'m'>, factor: number): string =>
  `${Math.ceil((length.value as number) * factor * 1000 - 1e-6)}\u00a0mm`

/** What would mend the load of a hook or machine that is above what the plan may use. */
export const loadCure = (demand: Answer<'kg'>, capacity: Answer<'kg'>, isCrane: boolean): string[] =>
  tooMuch(
    demand,
    capacity,
    isCrane
      ? 'a smaller radius, a lighter piece or rigging, or a crane rated for it'
      : 'a lighter piece or rigging, or a hook rated for it',
  )
