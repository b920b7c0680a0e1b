import type { StockItem } from '../model/index.ts'
import { type Answer, found, given, knownOr, leastOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { bendEfficiency, bentRating } from './component.formulas.ts'
import { tooMuch } from './cure.ts'
import { bend } from './kinds.ts'
import { legCapacity } from './legRating.ts'
import { type LoadedLeg, type LoadedRig, named } from './loadedRig.ts'
import type { Pick } from './pick.ts'
import type { RigLeg } from './rig.ts'
import { shacklesOf } from './shackle.ts'

/** Ropes lose strength over a tight bend: what their rating assumes must be known. */
const ROPES: readonly StockItem['kind'][] = ['wire rope sling', 'wire rope grommet']

/** Whether a sling bends over what holds it: a rope without thimbles, and what else has a rating that assumes a bend. */
const bends = ({ kind, thimbles, ratedBend }: StockItem): boolean =>
  thimbles !== true && (ratedBend !== undefined || ROPES.includes(kind))

/** Sling over the bow or pin it bends on. */
export function bendChecks(pick: Pick, rig: LoadedRig, { leg, tension }: LoadedLeg): Check[] {
  const { item } = leg
  if (item === undefined || !bends(item)) return []
  const at = (field: string): string => pointerOf('stock', leg.itemId, field)
  const [D, d] = [bentOver(pick, rig, leg), knownOr(item.body, 'm', at('body'))]
  const thin = thinnerThanRope({ D, d, rated: item.ratedBend })
  const capacity = bentCapacity(pick, leg, { D, d, thin })
  return [
    check({
      kind: bend,
      ...named(pick, rig, leg.id),
      title: `${bend.title}: ${leg.id}`,
      demand: tension,
      capacity,
      assumptions: [
        'Bow of the shackle on the sling, its pin through the lug; without a shackle the sling bends over the pin of the lug.',
        ...(thin === 'rated'
          ? ['Bent over less than its own thickness: rated for it by its maker, as its rated bend says.']
          : []),
      ],
      found:
        thin === 'unrated'
          ? [
              `${leg.id} bends over ${millimetres(D)}, thinner than its own ${millimetres(d)}: no rule rates a rope below D/d = 1; a thicker bow or pin, a thimble, or a thinner rope`,
            ]
          : tooMuch(
              tension,
              capacity,
              `bent over ${millimetres(D)}, ${((D.value ?? 0) / (d.value ?? 1)).toFixed(1)} times its own ${millimetres(d)}: a thicker bow or pin, a thimble, or a sling rated higher`,
            ),
    }),
  ]
}

interface Bent {
  D: Answer<'m'>
  d: Answer<'m'>
}

/** A rope over less than its own thickness is outside every rule, unless its maker rates it for such a bend. */
function thinnerThanRope({ D, d, rated }: Bent & { rated: Answer<'1'> | undefined }): 'rated' | 'unrated' | undefined {
  if (D.value === undefined || d.value === undefined || D.value >= d.value) return undefined
  return rated?.value !== undefined && rated.value <= D.value / d.value ? 'rated' : 'unrated'
}

const NO_RATING = 'IMCA M 179 as quoted in 0027/ND: the body of a sling never over less than its own diameter (read)'

function bentCapacity(
  pick: Pick,
  leg: RigLeg,
  { D, d, thin }: Bent & { thin: 'rated' | 'unrated' | undefined },
): Answer<'N'> {
  const straight = legCapacity(pick, leg)
  if (thin === 'rated') return straight
  if (thin === 'unrated')
    return found({
      unit: 'N',
      value: 0,
      method: `no rating at this bend: ${NO_RATING}`,
      inputs: { 'what it bends over': D, 'its body': d },
      residuals: [],
    })
  return bentRating.show({
    F0: straight,
    e: bendEfficiency.show({ D, d }),
    b: knownOr(leg.item?.ratedBend, '1', pointerOf('stock', leg.itemId, 'ratedBend')),
  })
}

const millimetres = ({ value }: Answer<'m'>): string => `${((value ?? 0) * 1000).toFixed(0)}\u00a0mm`

/** What a leg bends over: the thinnest bow of the shackles that may hold it; without one, the pin of the lug. */
function bentOver(pick: Pick, rig: LoadedRig, leg: RigLeg): Answer<'m'> {
  const bows = shacklesOf(pick, rig, [leg]).map(({ id, item }) => ({
    label: `bow of ${item?.name ?? 'shackle'} ${id}`,
    answer: knownOr(item?.bow, 'm', pointerOf('stock', id, 'bow')),
  }))
  if (bows.length > 0) return leastOf('Thinnest bow on the leg', 'm', bows)
  return leg.lower?.point.lug?.pin ?? given('m', `${leg.pointer}/fittings`, undefined)
}
