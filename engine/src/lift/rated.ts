import { type Answer, found, type Given, given, largestOf, leastOf, stated, type Term } from '../working/answer.ts'
import { allowedLoad, planDistance } from './hook.formulas.ts'
import { hookPlaces } from './path.ts'
import type { Hooked, Pick } from './pick.ts'

/** Rated load of a hook for this lift: one figure, or the chart at the largest radius passed. */
export function ratedOf(pick: Pick, { hook, hookAt }: Hooked): Answer<'kg'> {
  if (hook.rated !== undefined) return hook.rated
  if (hook.chart === undefined) return given('kg', `${hookAt}/rated`, undefined)
  return chartRating(hook.chart, radiusOf(pick))
}

/** Load of the plan: the rating times the lowest share that applies. */
export function allowedOf(
  pick: Pick,
  hooked: Hooked,
  rated: Answer<'kg'>,
  critical: boolean | undefined,
): Answer<'kg'> {
  const shares = sharesOf(pick, hooked, critical)
  return shares.length === 0 ? rated : allowedLoad.show({ R: rated, s: leastOf('Share that may be used', '1', shares) })
}

function sharesOf(pick: Pick, { system }: Hooked, critical: boolean | undefined): Term<'1'>[] {
  const shares: Term<'1'>[] = []
  if (system.planned !== undefined) shares.push({ label: 'a planned lift', answer: system.planned })
  if (pick.tail !== undefined && system.tandem !== undefined)
    shares.push({ label: 'a shared lift', answer: system.tandem })
  if (critical !== false && pick.settings.criticalUse !== undefined)
    shares.push({ label: 'a critical lift', answer: pick.settings.criticalUse })
  return shares
}

type Chart = NonNullable<Hooked['hook']['chart']>

/**
 * Rated load from a chart: the row of the next larger radius that is listed, for between rows capacity falls faster than
 * a chord. Beyond the last row nothing is rated.
 *
 * Source: lower value between rows, unless the maker permits interpolation (crane safety handbooks; see README).
 */
export function chartRating(chart: Chart, radius: Answer<'m'>): Answer<'kg'> {
  const rows = [...chart].sort((a, b) => (a.radius.value as number) - (b.radius.value as number))
  const row =
    radius.value === undefined ? undefined : rows.find((r) => (r.radius.value as number) >= (radius.value as number))
  const inputs: Record<string, Answer> = { radius }
  if (row !== undefined) Object.assign(inputs, { 'radius of the row': row.radius, 'rated load of the row': row.rated })
  return found({
    unit: 'kg',
    value: radius.value === undefined ? undefined : (row?.rated.value ?? 0),
    method: 'crane chart: row of the next larger radius',
    inputs,
    residuals: [],
    ...(row === undefined && radius.value !== undefined ? { note: 'the radius lies beyond the chart' } : {}),
  })
}

/** Largest radius passed: as stated, and as it follows from the standing and the places of the load. */
export function radiusOf(pick: Pick): Answer<'m'> {
  const terms: Term<'m'>[] = pick.lift.radius === undefined ? [] : [{ label: 'as planned', answer: pick.lift.radius }]
  const standing = pick.main.system.standings[pick.lift.standing ?? -1]
  if (standing !== undefined) terms.push(...placesOf(pick).map(({ label, x, y }) => radiusAt(label, x, y, standing)))
  if (terms.length === 0) return given('m', `${pick.at}/radius`, undefined)
  return terms.length === 1 ? (terms[0] as Term<'m'>).answer : largestOf('Largest radius passed', 'm', terms)
}

const radiusAt = (
  label: string,
  x: Answer<'m'>,
  y: Answer<'m'>,
  [x0, y0]: readonly [Given<'m'>, Given<'m'>],
): Term<'m'> => ({
  label,
  answer: planDistance.show({ x, y, x0, y0 }),
})

interface Place {
  label: string
  x: Answer<'m'>
  y: Answer<'m'>
}

/** Where the load hangs: over the piece after each of its moves, and over its bay. */
function placesOf(pick: Pick): Place[] {
  const places = hookPlaces(pick).map(({ label, at }): Place => {
    const coordinate = (axis: 0 | 1) =>
      stated('m', at[axis], `centre of gravity ${label}, site ${'xy'[axis]}: from the mass roll-up and the moves`)
    return { label, x: coordinate(0), y: coordinate(1) }
  })
  if (pick.bay !== undefined) places.push({ label: 'over the bay', x: pick.bay.centre[0], y: pick.bay.centre[1] })
  return places
}
