import type { Vec3 } from '../numeric/vector.ts'
import { type Answer, type Given, given, largestOf, leastOf, stated, type Term } from '../working/answer.ts'
import { chartsOf, type Fitted, type Reading, readCharts } from './chart.ts'
import { allowedLoad, planDistance, reserveShare } from './hook.formulas.ts'
import { hookOver, posesOver } from './hookCourse.ts'
import { motionsOf } from './motions.ts'
import { hookPlaces } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { standingIn } from './swept.ts'

/** Rated load of a hook for this lift: one figure, or the charts at the largest radius passed. */
export function ratedOf(pick: Pick, hooked: Hooked): Answer<'kg'> {
  const { hook, hookAt } = hooked
  if (hook.rated !== undefined) return hook.rated
  return chartReading(pick, hooked)?.rated ?? given('kg', `${hookAt}/rated`, undefined)
}

/** The charts of a hook read for this lift; undefined where the hook has none, or one rating for its whole travel. */
export function chartReading(pick: Pick, hooked: Hooked): Reading | undefined {
  const charts = hooked.hook.rated === undefined ? chartsOf(hooked.hook) : []
  if (charts.length === 0) return undefined
  const readAt = (radius: Answer<'m'>): Reading =>
    readCharts(charts, fittedOf(pick, hooked), radius, `${hooked.systemAt}/setUp`)
  const farthest = readAt(radiusOf(pick, hooked))
  const nearest = farthest.outside.length > 0 ? undefined : leastRadius(pick, hooked)
  if (nearest === undefined) return farthest
  // a boom cannot be drawn in past the first row of its chart
  const { outside, rated } = readAt(nearest)
  return outside.length === 0 ? farthest : { ...farthest, outside, rated }
}

/** What is fitted in this lift, and where the lift does not say, on the crane. */
export const fittedOf = (pick: Pick, hooked: Hooked): Fitted => ({
  ...hooked.system.setUp,
  ...(hooked === pick.tail ? pick.lift.tail?.setUp : pick.lift.setUp),
})

/** Where the project sets no share of its own for lifts of several machines. */
const RESERVE_OF_TWO = stated(
  '1',
  0.2,
  'Mobile Crane Code of Practice (Queensland), 14.3.2: 20 % with two cranes (read)',
)

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
  else if (pick.tail !== undefined && pick.tail.systemId !== pick.main.systemId)
    shares.push({ label: 'two machines share the load', answer: reserveShare.show({ r: RESERVE_OF_TWO }) })
  if (critical !== false && pick.settings.criticalUse !== undefined)
    shares.push({ label: 'a critical lift', answer: pick.settings.criticalUse })
  return shares
}

/** Largest radius passed: as stated, and as it follows from the standing and the places of the hook. */
export function radiusOf(pick: Pick, hooked: Hooked = pick.main): Answer<'m'> {
  const said = hooked === pick.tail ? pick.lift.tail : pick.lift
  const planned: Term<'m'>[] = said?.radius === undefined ? [] : [{ label: 'as planned', answer: said.radius }]
  const terms = [...planned, ...radiiOf(pick, hooked)]
  if (terms.length === 0) return given('m', `${pick.at}${hooked === pick.tail ? '/tail' : ''}/radius`, undefined)
  return terms.length === 1 ? (terms[0] as Term<'m'>).answer : largestOf('Largest radius passed', 'm', terms)
}

/** Radii over the places of the hook; none where the crane has several standings and the lift names none. */
function radiiOf(pick: Pick, hooked: Hooked): Term<'m'>[] {
  const said = hooked === pick.tail ? pick.lift.tail : pick.lift
  const standing = hooked.system.standings[standingIn(hooked.system, said?.standing) ?? -1]
  return standing === undefined
    ? []
    : placesOf(pick, hooked, standing).map(({ label, x, y }) => radiusAt(label, x, y, standing))
}

/** Least radius of a piece on one hook, over its places. Of a shared piece only the farthest place of each movement is known. */
function leastRadius(pick: Pick, hooked: Hooked): Answer<'m'> | undefined {
  const terms = pick.tail === undefined ? radiiOf(pick, hooked) : []
  return terms.length === 0 ? undefined : leastOf('Least radius passed', 'm', terms)
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

/** Where the load hangs: over the piece after each of its moves, and over its bay. A hook that shares it stands over its points. */
function placesOf(pick: Pick, hooked: Hooked, standing: readonly [Given<'m'>, Given<'m'>]): Place[] {
  if (pick.tail !== undefined) return placesOfPoints(pick, hooked, standing)
  const places = hookPlaces(pick).map(({ label, at }): Place => {
    const coordinate = (axis: 0 | 1) =>
      stated('m', at[axis], `centre of gravity ${label}, site ${'xy'[axis]}: from the mass roll-up and the moves`)
    return { label, x: coordinate(0), y: coordinate(1) }
  })
  const [x, y] = pick.lift.landing ?? pick.bay?.centre ?? []
  if (x !== undefined && y !== undefined) places.push({ label: 'over where it is set down', x, y })
  return places
}

/** Where in each movement it is farthest out; lines count as plumb here. */
function placesOfPoints(pick: Pick, hooked: Hooked, [x0, y0]: readonly [Given<'m'>, Given<'m'>]): Place[] {
  const over = hookOver(pick, hooked)
  const far = ([x, y]: Vec3): number => Math.hypot(x - (x0.value as number), y - (y0.value as number))
  return motionsOf(pick, undefined).flatMap((motion, i): Place[] => {
    const places = posesOver(pick, motion).map(over)
    if (places.length === 0) return []
    const at = places.reduce((most, one) => (far(one) > far(most) ? one : most))
    const label = `farthest out in stage ${i + 1}, ${motion.name}`
    const coordinate = (axis: 0 | 1) =>
      stated('m', at[axis], `middle of the points of ${hooked.hook.name} ${label}, site ${'xy'[axis]}: from the moves`)
    return [{ label, x: coordinate(0), y: coordinate(1) }]
  })
}
