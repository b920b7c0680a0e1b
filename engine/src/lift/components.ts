import type { StockItem } from '../model/index.ts'
import { type Answer, GRAVITY, given, knownOr, largestOf, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { RIGGING_CAUTIONS, STRENGTH_CAUTIONS } from './caution.ts'
import { bendEfficiency, bentRating, legsByRule } from './component.formulas.ts'
import { weightOf } from './hook.formulas.ts'
import { countsOf, gearOf } from './hook.ts'
import { bend, componentUse, designFactor, legRule, legTension, lug, pinFit, stockCount } from './kinds.ts'
import { type Lug, lugCapacities, lugCapacity } from './lug.ts'
import type { Hooked, Pick } from './pick.ts'
import { legRating } from './rig.formulas.ts'
import type { HangingPoint, RigLeg } from './rig.ts'

/** A leg with the tension it is held to: the worst over the tolerances, or the largest of a turn. */
export interface LoadedLeg {
  leg: RigLeg
  tension: Answer<'N'>
}

/** What hangs from one hook: its legs, and the load on them. */
export interface LoadedRig {
  hooked: Hooked
  legs: readonly LoadedLeg[]
  /** Load on the legs below any spreader. */
  load: Answer<'N'>
  /** Steepness of the flattest leg as it hangs. */
  flattest: Answer<'rad'>
}

/** Every component between hook and piece against its rating. */
export function componentChecks(pick: Pick, rig: LoadedRig): Check[] {
  return [
    ...legChecks(pick, rig),
    ...linkChecks(pick, rig),
    ...shackleChecks(pick, rig),
    ...gearChecks(pick, rig),
    ...pointChecks(pick, rig),
    ...stockChecks(pick, rig.hooked),
  ]
}

const ratedForce = (rated: Answer<'kg'> | undefined, pointer: string): Answer<'N'> =>
  weightOf.show({ m: knownOr(rated, 'kg', pointer), g: GRAVITY })

const named = (pick: Pick, { hooked }: LoadedRig, of: string): Named => ({
  subject: pick.subject,
  of: `${hooked.id}/${of}`,
  near: pick.near,
  cautions: RIGGING_CAUTIONS,
})
type Named = { subject: Pick['subject']; of: string; near: number; cautions: readonly string[] }

function legChecks(pick: Pick, rig: LoadedRig): Check[] {
  if (rig.legs.length === 0)
    return [
      check({
        kind: legTension,
        ...named(pick, rig, 'legs'),
        demand: given('N', `${rig.hooked.riggingAt}/legs`, undefined),
        capacity: given('N', `${rig.hooked.riggingAt}/legs`, undefined),
      }),
    ]
  return [
    ...rig.legs.flatMap((loaded) => [tensionCheck(pick, rig, loaded), ...bendChecks(pick, rig, loaded)]),
    ...ruleChecks(pick, rig),
    ...designFactorChecks(pick, rig),
  ]
}

const legCapacity = ({ itemId, item, parts }: RigLeg): Answer<'N'> =>
  legRating.show({
    R: knownOr(item?.rated, 'kg', pointerOf('stock', itemId, 'rated')),
    g: GRAVITY,
    p: stated('1', parts, 'falls side by side in the arrangement'),
  })

function tensionCheck(pick: Pick, rig: LoadedRig, { leg, tension }: LoadedLeg): Check {
  return check({
    kind: legTension,
    ...named(pick, rig, leg.id),
    title: `${legTension.title}: ${leg.id}, ${leg.item?.name ?? leg.itemId}`,
    demand: tension,
    capacity: legCapacity(leg),
    assumptions: [
      'Legs are linear and without sag; the piece is rigid, which is the cautious side for the legs.',
      'A leg hangs straight: no choke, no edge.',
    ],
  })
}

/** Four legs and more to one hook: what the standards let them count for, whatever the lengths. */
function ruleChecks(pick: Pick, rig: LoadedRig): Check[] {
  const legs = rig.legs.filter(({ leg }) => !leg.above)
  if (legs.length < 4 || legs.some(({ leg }) => leg.node !== undefined)) return []
  const byRule = (n: number, text: string): Answer<'N'> =>
    legsByRule.show({ W: rig.load, n: stated('1', n, text), beta: rig.flattest })
  const three = byRule(legs.length - 1, 'one leg is taken not to carry')
  const two = byRule(2, 'two opposite legs carry all')
  const worst = largestOf(
    'Largest tension of a leg in equilibrium',
    'N',
    legs.map(({ leg, tension }) => ({ label: leg.id, answer: tension })),
  )
  return [
    check({
      kind: legRule,
      ...named(pick, rig, 'rule'),
      title: `${legRule.title}: ${legs.length} legs count as ${legs.length - 1}`,
      demand: three,
      capacity: legCapacity((legs[0] as LoadedLeg).leg),
      assumptions: [governingRule(worst.value, three.value, two.value)],
    }),
  ]
}

function governingRule(elastic: number | undefined, three: number | undefined, two: number | undefined): string {
  const kN = (x: number | undefined): string => (x === undefined ? 'open' : `${(x / 1000).toFixed(0)} kN`)
  const governs =
    elastic === undefined || three === undefined ? 'open' : elastic >= three ? 'the equilibrium' : 'the rule'
  return `Equilibrium at the worst corner ${kN(elastic)}; one leg fewer ${kN(three)}; two opposite legs alone ${kN(two)}. Of the first two, ${governs} governs.`
}

/** Sling over the pin it bends on, where the rating says which bend it assumes. */
function bendChecks(pick: Pick, rig: LoadedRig, { leg, tension }: LoadedLeg): Check[] {
  const assumed = leg.item?.ratedBend
  if (assumed === undefined) return []
  const at = (field: string): string => pointerOf('stock', leg.itemId, field)
  const pin = pinThrough(pick, rig, leg) ?? given('m', at('pin'), undefined)
  const e = bendEfficiency.show({ D: pin, d: knownOr(leg.item?.body, 'm', at('body')) })
  return [
    check({
      kind: bend,
      ...named(pick, rig, leg.id),
      title: `${bend.title}: ${leg.id}`,
      demand: tension,
      capacity: bentRating.show({ F0: legCapacity(leg), e, b: assumed }),
    }),
  ]
}

/** The pin of the shackle on the legs; without one, that of the lug. */
function pinThrough(pick: Pick, rig: LoadedRig, leg: RigLeg): Answer<'m'> | undefined {
  const pins = shacklesOn(pick, rig).flatMap(({ item }) => (item?.pin === undefined ? [] : [item.pin]))
  const largest = pins.sort((a, b) => (b.value as number) - (a.value as number))[0]
  return largest ?? leg.lower?.point.lug?.pin
}

const REQUIRED: Partial<Record<StockItem['kind'], number>> = {
  'wire rope sling': 5,
  'wire rope grommet': 5,
  'round sling': 5,
  'chain sling': 4,
}

function designFactorChecks(pick: Pick, rig: LoadedRig): Check[] {
  const items = new Map(rig.legs.map(({ leg }) => [leg.itemId, leg.item]))
  return [...items].flatMap(([id, item]) => {
    const required = item === undefined ? undefined : REQUIRED[item.kind]
    if (item === undefined || required === undefined) return []
    return [
      check({
        kind: designFactor,
        ...named(pick, rig, id),
        title: `${designFactor.title}: ${item.name ?? item.kind} ${id}`,
        demand: stated('1', required, `least for a ${item.kind}`),
        capacity: knownOr(item.designFactor, '1', pointerOf('stock', id, 'designFactor')),
        // the required factor met exactly is met
        near: 1,
      }),
    ]
  })
}

function linkChecks(pick: Pick, rig: LoadedRig): Check[] {
  return rig.legs.flatMap(({ leg, tension }) =>
    leg.linkId === undefined
      ? []
      : [
          check({
            kind: componentUse,
            ...named(pick, rig, `${leg.id}/${leg.linkId}`),
            title: `${componentUse.title}: level link on ${leg.id}`,
            demand: tension,
            capacity: ratedForce(leg.link?.rated, pointerOf('stock', leg.linkId, 'rated')),
          }),
        ],
  )
}

interface CountedItem {
  id: string
  item: StockItem | undefined
}

const LOADED: readonly StockItem['kind'][] = ['shackle', 'hook', 'swivel', 'level link']

const shacklesOn = (pick: Pick, { hooked }: LoadedRig): CountedItem[] =>
  (hooked.rigging?.others ?? [])
    .filter((o) => o.onLegs)
    .map((o) => ({ id: o.item, item: pick.stock[o.item] }))
    .filter(({ item }) => item?.kind === 'shackle')

/** Shackles and the like: on the legs each carries the largest tension, beside them the whole load. */
function shackleChecks(pick: Pick, rig: LoadedRig): Check[] {
  const largest = largestTension(rig)
  return (rig.hooked.rigging?.others ?? []).flatMap(({ item: id, onLegs }) => {
    const item = pick.stock[id]
    if (item === undefined || !LOADED.includes(item.kind)) return []
    return [
      check({
        kind: componentUse,
        ...named(pick, rig, id),
        title: `${componentUse.title}: ${item.name ?? item.kind} ${id}`,
        demand: onLegs ? largest : rig.load,
        capacity: ratedForce(item.rated, pointerOf('stock', id, 'rated')),
        assumptions: ['In line, bow on the sling and pin through the lug; no side load.'],
      }),
    ]
  })
}

const largestTension = ({ legs, hooked }: LoadedRig): Answer<'N'> =>
  legs.length === 0
    ? given('N', `${hooked.riggingAt}/legs`, undefined)
    : largestOf(
        'Largest tension of a leg',
        'N',
        legs.map(({ leg, tension }) => ({ label: leg.id, answer: tension })),
      )

/** Spreaders, frames and crosses carry all that hangs below them. */
function gearChecks(pick: Pick, rig: LoadedRig): Check[] {
  const { rigging } = rig.hooked
  return (rigging === undefined ? [] : gearOf(rigging)).map((id) =>
    check({
      kind: componentUse,
      ...named(pick, rig, id),
      title: `${componentUse.title}: ${pick.gear[id]?.name ?? id}`,
      demand: rig.load,
      capacity: ratedForce(pick.gear[id]?.rated, pointerOf('gear', id, 'rated')),
      assumptions: ['Its strength stands behind its rating: bending, buckling and welds are for a licensed engineer.'],
      cautions: STRENGTH_CAUTIONS,
    }),
  )
}

/** Every lifting point: its rating, its lug, and the pin through it. */
function pointChecks(pick: Pick, rig: LoadedRig): Check[] {
  const points = new Map<string, { point: HangingPoint; pulls: Term<'N'>[] }>()
  for (const { leg, tension } of rig.legs) {
    if (leg.lower === undefined) continue
    const known = points.get(leg.lower.pointer) ?? { point: leg.lower, pulls: [] }
    known.pulls.push({ label: leg.id, answer: tension })
    points.set(leg.lower.pointer, known)
  }
  return [...points.values()].flatMap(({ point, pulls }) => {
    const pull = pulls.length === 1 ? (pulls[0] as Term<'N'>).answer : sumOf('Legs at the point', 'N', pulls)
    return [pointUse(pick, rig, point, pull), ...lugChecks(pick, rig, point, pull)]
  })
}

function pointUse(pick: Pick, rig: LoadedRig, { id, pointer, point }: HangingPoint, pull: Answer<'N'>): Check {
  return check({
    kind: componentUse,
    ...named(pick, rig, id),
    title: `${componentUse.title}: lifting point ${id}`,
    demand: pull,
    capacity: ratedForce(point.rated, `${pointer}/rated`),
  })
}

function lugChecks(pick: Pick, rig: LoadedRig, { id, pointer, point }: HangingPoint, pull: Answer<'N'>): Check[] {
  if (point.lug === undefined) return []
  const shackle = shacklesOn(pick, rig).sort((a, b) => (b.item?.pin?.value ?? 0) - (a.item?.pin?.value ?? 0))[0]
  const pin = shackle?.item?.pin
  const terms = lugCapacities(point.lug, `${pointer}/lug`, pin ?? point.lug.pin)
  return [
    check({
      kind: lug,
      ...named(pick, rig, id),
      title: `${lug.title}: ${id}`,
      demand: pull,
      capacity: lugCapacity(terms),
      assumptions: [
        'Design category B; the leg pulls in the plane of the plate, and the edge is round about the hole.',
        'Cheek plates count in bearing only.',
      ],
      cautions: STRENGTH_CAUTIONS,
    }),
    ...(shackle === undefined ? [] : [pinCheck(pick, rig, id, shackle, point.lug)]),
  ]
}

const pinCheck = (pick: Pick, rig: LoadedRig, id: string, shackle: CountedItem, of: Lug): Check =>
  check({
    kind: pinFit,
    ...named(pick, rig, id),
    title: `${pinFit.title}: ${shackle.id} at ${id}`,
    demand: knownOr(shackle.item?.pin, 'm', pointerOf('stock', shackle.id, 'pin')),
    capacity: of.hole,
    near: 1,
  })

function stockChecks(pick: Pick, { rigging, riggingAt, id }: Hooked): Check[] {
  if (rigging === undefined) {
    const arrangement = given('1', riggingAt, undefined)
    return [
      check({ kind: stockCount, subject: pick.subject, of: id, demand: arrangement, capacity: arrangement, near: 1 }),
    ]
  }
  return [...countsOf(rigging)].map(([item, count]) =>
    check({
      kind: stockCount,
      subject: pick.subject,
      of: `${id}/${item}`,
      title: `${stockCount.title}: ${pick.stock[item]?.name ?? item} ${item}`,
      demand: stated('1', count, 'counted in the arrangement'),
      capacity: given('1', pointerOf('stock', item, 'quantity'), pick.stock[item]?.quantity),
      near: 1,
    }),
  )
}
