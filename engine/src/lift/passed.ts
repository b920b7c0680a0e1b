import type { Vec3 } from '../numeric/vector.ts'
import { type Answer, found, type Given, given, largestOf, leastOf, stated, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { planDistance } from './hook.formulas.ts'
import { type HookOver, hookOver, posesOver } from './hookCourse.ts'
import { landingOf, motionsOf } from './motions.ts'
import { hookPlaces } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { type Sector, widened } from './sector.ts'
import { standingOf } from './swept.ts'
import { turnPlaneOf } from './turningOf.ts'

/** Largest radius passed: as stated, and as it follows from the standing and the places of the hook. */
export function radiusOf(pick: Pick, hooked: Hooked = pick.main): Answer<'m'> {
  const said = hooked === pick.tail ? pick.lift.tail : pick.lift
  const planned: Term<'m'>[] = said?.radius === undefined ? [] : [{ label: 'as planned', answer: said.radius }]
  const terms = [...planned, ...radiiOf(pick, hooked, 'farthest')]
  if (terms.length === 0) return given('m', `${pick.at}${hooked === pick.tail ? '/tail' : ''}/radius`, undefined)
  return terms.length === 1 ? (terms[0] as Term<'m'>).answer : largestOf('Largest radius passed', 'm', terms)
}

/** Least radius passed, as it follows from the standing and the places of the hook; undefined where they are not known. */
export function leastRadius(pick: Pick, hooked: Hooked): Answer<'m'> | undefined {
  const terms = radiiOf(pick, hooked, 'nearest')
  return terms.length === 0 ? undefined : leastOf('Least radius passed', 'm', terms)
}

/**
 * Slews passed from straight ahead of the carrier, to the left: as stated, and wider where the hook goes wider by its moves. Open
 * at the heading of the carrier where the way is known and that is not.
 */
export function slewPassed(pick: Pick, hooked: Hooked, slew: Sector<Answer<'rad'>>): Sector<Answer<'rad'>> {
  const standing = placeOf(pick, hooked)
  if (standing === undefined) return slew
  const places = wayOf(pick, hooked)
  if (places.length === 0) return slew
  const heading = hooked.system.headings[standing.index]
  const [from, to] = slewsOver(places, standing.at, heading?.value ?? 0, slew)
  const answer = (stated: Answer<'rad'>, value: number): Answer<'rad'> =>
    found({
      unit: 'rad',
      value: heading === undefined ? undefined : value,
      method:
        'bearings of the hook over its way less the heading of the carrier, and the slew as stated: all that either passes',
      inputs: {
        'as stated': stated,
        'heading of the carrier':
          heading ?? given('rad', hooked.systemAt + pointerOf('headings', standing.index), undefined),
      },
      residuals: [],
    })
  return [answer(slew[0], from), answer(slew[1], to)]
}

function slewsOver(
  places: readonly Vec3[],
  [x0, y0]: Standing['at'],
  heading: number,
  slew: Sector<Answer<'rad'>>,
): readonly [number, number] {
  const [dx, dy] = [x0.value as number, y0.value as number]
  const followed = places.map(([x, y]) => Math.atan2(y - dy, x - dx) - heading)
  return widened(slew, followed)
}

interface Standing {
  index: number
  at: readonly [Given<'m'>, Given<'m'>]
}

/** Where a crane stands in this lift; undefined where it has several standings and the lift names none. */
function placeOf(pick: Pick, { system }: Hooked): Standing | undefined {
  const index = standingOf(pick, system)
  const at = system.standings[index ?? -1]
  return index === undefined || at === undefined ? undefined : { index, at }
}

type Which = 'farthest' | 'nearest'

function radiiOf(pick: Pick, hooked: Hooked, which: Which): Term<'m'>[] {
  const standing = placeOf(pick, hooked)
  if (standing === undefined) return []
  const [x0, y0] = standing.at
  const places = hangsPlumb(pick) ? placesOfPiece(pick) : placesOfPoints(pick, hooked, standing, which)
  return places.map(({ label, x, y }) => ({ label, answer: planDistance.show({ x, y, x0, y0 }) }))
}

interface Place {
  label: string
  x: Answer<'m'>
  y: Answer<'m'>
}

/** One hook hangs plumb over the piece; hooks that share it, and one that turns it, stand over their points. */
const hangsPlumb = ({ tail, lift }: Pick): boolean => tail === undefined && lift.turn === undefined

/** Over the piece after each of its moves, and over the place where it is set down or taken from. */
function placesOfPiece(pick: Pick): Place[] {
  const places = hookPlaces(pick).map(({ label, at }): Place => {
    const coordinate = (axis: 0 | 1) =>
      stated('m', at[axis], `centre of gravity ${label}, site ${'xy'[axis]}: from the mass roll-up and the moves`)
    return { label, x: coordinate(0), y: coordinate(1) }
  })
  const [x, y] = landingOf(pick)
  return x.value === undefined || y.value === undefined
    ? places
    : [...places, { label: 'over where it is set down', x, y }]
}

/** Where in each movement a hook over its points is farthest out, or nearest in. */
function placesOfPoints(pick: Pick, hooked: Hooked, { at: [x0, y0] }: Standing, which: Which): Place[] {
  const over = overPoints(pick, hooked)
  const [dx, dy] = [x0.value as number, y0.value as number]
  const sign = which === 'farthest' ? 1 : -1
  const ranked = ([x, y]: Vec3): number => sign * Math.hypot(x - dx, y - dy)
  return motionsOf(pick, undefined).flatMap((motion, i): Place[] => {
    const places = posesOver(pick, motion).map(over)
    if (places.length === 0) return []
    const at = places.reduce((most, one) => (ranked(one) > ranked(most) ? one : most))
    const label = `${which === 'farthest' ? 'farthest out' : 'nearest in'} in stage ${i + 1}, ${motion.name}`
    const coordinate = (axis: 0 | 1) =>
      stated('m', at[axis], `middle of the points of ${hooked.hook.name} ${label}, site ${'xy'[axis]}: from the moves`)
    return [{ label, x: coordinate(0), y: coordinate(1) }]
  })
}

/** In a turn by two hooks a hook stands beside its points as far as its line leans. */
const overPoints = (pick: Pick, hooked: Hooked): HookOver => hookOver(pick, hooked, turnPlaneOf(pick))

/** Where a hook goes, place after place. */
function wayOf(pick: Pick, hooked: Hooked): Vec3[] {
  const over = hangsPlumb(pick) ? hookOver(pick, hooked) : overPoints(pick, hooked)
  return motionsOf(pick, undefined).flatMap((motion) => posesOver(pick, motion).map(over))
}
