import type { StockItem } from '../model/index.ts'
import { type Answer, knownOr, largestOf, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { hitchRating, jawFill, sidePull } from './component.formulas.ts'
import { includedAngle, jawFit, pinFit } from './kinds.ts'
import { type CountedItem, type LoadedRig, type Named, named } from './loadedRig.ts'
import type { Lug } from './lug.ts'
import type { Pick } from './pick.ts'
import type { RigLeg } from './rig.ts'

/** Rating of a shackle at the largest pull out of line that any of its legs states; anything else keeps its own. */
export function sideRating(
  kind: StockItem['kind'] | undefined,
  rated: Answer<'N'>,
  legs: readonly RigLeg[],
): Answer<'N'> {
  const sides = legs.flatMap((leg) => (leg.laid.side === undefined ? [] : [{ label: leg.id, answer: leg.laid.side }]))
  if (kind !== 'shackle' || sides.length === 0) return rated
  const a = largestOf('Largest pull out of line', 'rad', sides)
  return hitchRating.show({ F_0: rated, h: sidePull.show({ a }) })
}

/** The pin passes the hole. */
export const pinCheck = (common: Named, at: string, shackle: CountedItem, of: Lug): Check =>
  check({
    kind: pinFit,
    ...common,
    title: `${pinFit.title}: ${shackle.id} at ${at}`,
    demand: knownOr(shackle.item?.pin, 'm', pointerOf('stock', shackle.id, 'pin')),
    capacity: of.hole,
    near: 1,
  })

/** The lug goes into the jaw, and fills it or is kept in its middle. */
export function jawChecks(common: Named, shackle: CountedItem, of: Lug, isSpaced: boolean): Check[] {
  const w = knownOr(shackle.item?.jaw, 'm', pointerOf('stock', shackle.id, 'jaw'))
  const thickness = thicknessOf(of)
  const one = (what: string, demand: Answer<'m'>, capacity: Answer<'m'>): Check =>
    check({
      kind: jawFit,
      ...common,
      of: `${common.of}/${what}`,
      title: `${jawFit.title}: ${shackle.id}, ${what}`,
      demand,
      capacity,
      near: 1,
    })
  return [one('enters', thickness, w), ...(isSpaced ? [] : [one('fills', jawFill.show({ w }), thickness)])]
}

const thicknessOf = ({ plate, cheeks }: Lug): Answer<'m'> =>
  cheeks === undefined
    ? plate
    : sumOf('Thickness in the jaw', 'm', [
        { label: 'plate', answer: plate },
        { label: 'cheeks', answer: cheeks },
      ])

const WIDEST = stated('rad', (2 * Math.PI) / 3, '120°: catalogues of shackles, a state guide on slings')

/** The widest pair of legs in one hook, link or bow. */
export function includedAngleCheck(pick: Pick, rig: LoadedRig): Check[] {
  if (rig.included === undefined) return []
  return [check({ kind: includedAngle, ...named(pick, rig, 'legs'), demand: rig.included, capacity: WIDEST })]
}
