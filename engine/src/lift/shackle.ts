import type { StockItem } from '../model/index.ts'
import { dot } from '../numeric/vector.ts'
import { type Answer, found, given, knownOr, largestOf, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { unitOf } from './attitudes.ts'
import { hitchRating, jawFill, sidePull } from './component.formulas.ts'
import { includedAngle, jawFit, legJoined, pinFit } from './kinds.ts'
import { type CountedItem, type LoadedLeg, type LoadedRig, type Named, named } from './loadedRig.ts'
import type { Lug } from './lug.ts'
import type { Pick } from './pick.ts'
import type { RigLeg } from './rig.ts'

/** Shackles that may hold these legs: their own fittings, and what the arrangement counts on its legs, each kind once. */
export function shacklesOf(pick: Pick, { hooked }: LoadedRig, legs: readonly RigLeg[]): CountedItem[] {
  const ids = [
    ...(hooked.rigging?.others ?? []).filter((o) => o.onLegs).map((o) => o.item),
    ...legs.flatMap((leg) => leg.laid.fittings),
  ]
  return [...new Set(ids)].map((id) => ({ id, item: pick.stock[id] })).filter(({ item }) => item?.kind === 'shackle')
}

/**
 * Rating of a shackle at the largest pull out of line that any of its legs states or has from the plane of its lug, through which
 * the pin goes; anything else keeps its own.
 */
export function sideRating(
  kind: StockItem['kind'] | undefined,
  rated: Answer<'N'>,
  legs: readonly LoadedLeg[],
): Answer<'N'> {
  if (kind !== 'shackle') return rated
  const sides = legs.flatMap((loaded) => {
    const { side } = loaded.leg.laid
    return [...(side === undefined ? [] : [{ label: loaded.leg.id, answer: side }]), ...outOfLug(loaded)]
  })
  if (sides.length === 0) return rated
  return hitchRating.show({ F_0: rated, h: sidePull.show({ a: largestOf('Largest pull out of line', 'rad', sides) }) })
}

/** How far a leg leans out of the plane of the lug at its lower end, over all its attitudes; none where either is not known. */
function outOfLug({ leg, attitudes = [] }: LoadedLeg): Term<'rad'>[] {
  const axis = leg.lower?.point.lug?.axis
  const along = unitOf(axis)
  if (leg.lower === undefined || axis === undefined || along === undefined || attitudes.length === 0) return []
  const leans = attitudes.map(({ up }) => Math.asin(Math.min(1, Math.abs(dot(up, along)))))
  return [
    {
      label: `${leg.id}, from the plane of the lug ${leg.lower.id}`,
      answer: found({
        unit: 'rad',
        value: Math.max(...leans),
        method: 'largest angle between the leg and the plane of the lug, as it hangs and over the turn',
        inputs: {
          'length of the leg': leg.length,
          ...Object.fromEntries(axis.map((k, i) => [`axis of the pin, ${'xyz'[i]}`, k])),
        },
        residuals: [],
      }),
    },
  ]
}

/** What goes through the hole of a lug. */
const JOINS: ReadonlySet<string | undefined> = new Set(['shackle', 'hook'])

/** A shackle or a hook for every lug from which a rope or a sling of fibres hangs; chains end in fittings of their own. */
export function joinedCheck(pick: Pick, rig: LoadedRig): Check[] {
  const legs = rig.legs.map(({ leg }) => leg).filter(({ item }) => item !== undefined && item.kind !== 'chain sling')
  const lugs = new Set(legs.flatMap(({ lower }) => (lower?.point.lug === undefined ? [] : [lower.pointer])))
  if (lugs.size === 0) return []
  const joins = (id: string): boolean => JOINS.has(pick.stock[id]?.kind)
  const counted = (rig.hooked.rigging?.others ?? []).filter(({ item, onLegs }) => onLegs && joins(item))
  const inLine = legs.flatMap(({ laid }) => laid.fittings).filter(joins)
  const count = counted.reduce((sum, other) => sum + other.count, inLine.length)
  return [
    check({
      kind: legJoined,
      ...named(pick, rig, 'lugs'),
      demand: stated('1', lugs.size, 'lugs from which ropes or slings hang'),
      capacity:
        count === 0
          ? given('1', `${rig.hooked.riggingAt}/others`, undefined)
          : stated('1', count, 'shackles and hooks counted on the legs and in line with them'),
      near: 1,
      found: [`${lugs.size} lugs and ${count} shackles or hooks on the legs: count one for each lug`],
      assumptions: ['What joins a leg to its hook or spreader is for the rigger.'],
    }),
  ]
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
    found: [
      `a pin of ${millimetres(shackle.item?.pin)} does not go through a hole of ${millimetres(of.hole)}: a shackle with a thinner pin, or a lug whose hole and edges are worked for this one`,
    ],
  })

const millimetres = (length: Answer<'m'> | undefined): string =>
  length?.value === undefined ? 'open' : `${Number((length.value * 1000).toFixed(1))}\u00a0mm`

/** The lug goes into the jaw, and fills it or is kept in its middle. */
export function jawChecks(common: Named, shackle: CountedItem, of: Lug, isSpaced: boolean): Check[] {
  const w = knownOr(shackle.item?.jaw, 'm', pointerOf('stock', shackle.id, 'jaw'))
  const thickness = thicknessOf(of)
  const one = (what: string, demand: Answer<'m'>, capacity: Answer<'m'>, cure: string): Check =>
    check({
      kind: jawFit,
      ...common,
      of: `${common.of}/${what}`,
      title: `${jawFit.title}: ${shackle.id}, ${what}`,
      demand,
      capacity,
      near: 1,
      found: [cure],
    })
  return [
    one('enters', thickness, w, 'the lug is wider than the jaw: a larger shackle, or a thinner lug'),
    ...(isSpaced
      ? []
      : [
          one(
            'fills',
            jawFill.show({ w }),
            thickness,
            'the lug fills too little of the jaw, and its pull may come out of line: spacers that keep it in the middle (spacers of the leg), or a shackle with a narrower jaw',
          ),
        ]),
  ]
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
  return [
    check({
      kind: includedAngle,
      ...named(pick, rig, 'legs'),
      demand: rig.included,
      capacity: WIDEST,
      found: ['two legs in one hook, link or bow stand too far apart: longer legs, or a spreader, bring them closer'],
    }),
  ]
}
