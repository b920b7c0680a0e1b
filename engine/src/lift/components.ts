import { type Answer, GRAVITY, given, knownOr, largestOf, leastOf, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { bendChecks } from './bendChecks.ts'
import { bridleChecks } from './bridle.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { ratingCure } from './cure.ts'
import { edgeCheck } from './edgeCheck.ts'
import { gearBeamChecks } from './gearBeam.ts'
import { weightOf } from './hook.formulas.ts'
import { gearOf } from './hook.ts'
import { componentUse, designFactor, legTension, lug } from './kinds.ts'
import { heatCheck, legCapacity, requiredFactor } from './legRating.ts'
import { inSeries } from './levels.ts'
import { type CountedItem, type LoadedLeg, type LoadedRig, named } from './loadedRig.ts'
import { gearProofChecks } from './loadTests.ts'
import { type Lug, lugCapacities, lugCapacity, lugCure } from './lug.ts'
import { lugFootChecks, testedCheck } from './lugFoot.ts'
import { pulledLug } from './lugFootUse.ts'
import type { Pick } from './pick.ts'
import type { HangingPoint, RigLeg } from './rig.ts'
import { includedAngleCheck, jawChecks, joinedCheck, pinCheck, shacklesOf, sideRating } from './shackle.ts'
import { stockChecks } from './stockChecks.ts'

/** Every component between hook and piece against its rating. */
export function componentChecks(pick: Pick, rig: LoadedRig): Check[] {
  return [
    ...legChecks(pick, rig),
    ...linkChecks(pick, rig),
    ...shackleChecks(pick, rig),
    ...gearChecks(pick, rig),
    ...gearProofChecks(pick, rig.hooked),
    ...pointChecks(pick, rig),
    ...stockChecks(pick, rig.hooked),
  ]
}

const ratedForce = (rated: Answer<'kg'> | undefined, pointer: string): Answer<'N'> =>
  weightOf.show({ m: knownOr(rated, 'kg', pointer), g: GRAVITY })

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
    ...bridleChecks(pick, rig),
    ...heatCheck(pick, rig),
    ...edgeCheck(pick, rig),
    ...includedAngleCheck(pick, rig),
    ...joinedCheck(pick, rig),
    ...designFactorChecks(pick, rig),
  ]
}

function tensionCheck(pick: Pick, rig: LoadedRig, { leg, tension }: LoadedLeg): Check {
  const capacity = legCapacity(pick, leg)
  return check({
    kind: legTension,
    ...named(pick, rig, leg.id),
    title: `${legTension.title}: ${leg.id}, ${leg.item?.name ?? leg.itemId}`,
    demand: tension,
    capacity,
    found: ratingCure(tension, capacity, leg.item?.rated),
    assumptions: [
      'Legs are linear and without sag; the piece is rigid, which is the cautious side for the legs.',
      leg.laid.hitch === 'straight'
        ? 'A leg hangs straight: no choke, no edge.'
        : `Rated in a ${leg.laid.hitch} hitch; the edges that it goes round are checked beside it.`,
    ],
  })
}

function designFactorChecks(pick: Pick, rig: LoadedRig): Check[] {
  const items = new Map(rig.legs.map(({ leg }) => [leg.itemId, leg.item]))
  return [...items].flatMap(([id, item]) => {
    const required = item === undefined ? undefined : requiredFactor(pick, item.kind)
    if (item === undefined || required === undefined) return []
    return [
      check({
        kind: designFactor,
        ...named(pick, rig, id),
        title: `${designFactor.title}: ${item.name ?? item.kind} ${id}`,
        demand: required,
        capacity: knownOr(item.designFactor, '1', pointerOf('stock', id, 'designFactor')),
        // the required factor met exactly is met
        near: 1,
        found: [
          `its design factor is ${item.designFactor?.value}, ${required.value} is the least: take one with that factor, or a lower rating that its maker states at it`,
        ],
      }),
    ]
  })
}

/** What stands in line with a leg: its level link and its fittings. */
function linkChecks(pick: Pick, rig: LoadedRig): Check[] {
  return rig.legs.flatMap((loaded) => {
    const { leg, tension } = loaded
    const link = leg.linkId === undefined ? [] : [{ id: leg.linkId, item: leg.link, title: `level link on ${leg.id}` }]
    const fittings = leg.laid.fittings.map((id) => {
      const item = pick.stock[id]
      return { id, item, title: `${item?.name ?? item?.kind ?? id} ${id} on ${leg.id}` }
    })
    return [...link, ...fittings].map(({ id, item, title }) => {
      const capacity = sideRating(item?.kind, ratedForce(item?.rated, pointerOf('stock', id, 'rated')), [loaded])
      return check({
        kind: componentUse,
        ...named(pick, rig, `${leg.id}/${id}`),
        title: `${componentUse.title}: ${title}`,
        demand: tension,
        capacity,
        found: ratingCure(tension, capacity, item?.rated),
      })
    })
  })
}

/** Shackles, and whatever else but tag lines is counted beside the legs: on the legs each carries the largest tension, beside them the whole load. */
function shackleChecks(pick: Pick, rig: LoadedRig): Check[] {
  const largest = largestTension(rig)
  return (rig.hooked.rigging?.others ?? []).flatMap(({ item: id, onLegs }) => {
    const item = pick.stock[id]
    if (item === undefined || item.kind === 'tag line') return []
    const demand = onLegs ? largest : rig.load
    const rated = ratedForce(item.rated, pointerOf('stock', id, 'rated'))
    const capacity = sideRating(item.kind, rated, onLegs ? rig.legs : [])
    return [
      check({
        kind: componentUse,
        ...named(pick, rig, id),
        title: `${componentUse.title}: ${item.name ?? item.kind} ${id}`,
        demand,
        capacity,
        found: ratingCure(demand, capacity, item.rated),
        assumptions: [
          'Bow on the sling and pin through the lug; a side pull counts where the leg states one or leans out of the plane of its lug.',
        ],
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
  return (rigging === undefined ? [] : gearOf(rigging)).map((id) => {
    const { rated } = pick.gear[id] ?? {}
    const [demand, capacity] = [loadBelow(pick, rig, id), ratedForce(rated, pointerOf('gear', id, 'rated'))]
    return check({
      kind: componentUse,
      ...named(pick, rig, id),
      title: `${componentUse.title}: ${pick.gear[id]?.name ?? id}`,
      demand,
      capacity,
      found: ratingCure(demand, capacity, rated),
      assumptions: ['The rating stands for all of it; what its beam, lugs and bolts bear is checked beside it.'],
      cautions: STRENGTH_CAUTIONS,
    })
  })
}

/**
 * What a spreader carries. Alone under its hook, all that hangs there; of several, the lower of two figures that it can never
 * pass: the worst pulls of its own legs together, and the whole load with the spreaders below it.
 */
function loadBelow(pick: Pick, rig: LoadedRig, id: string): Answer<'N'> {
  const { rigging } = rig.hooked
  if (!inSeries(rig.hooked) || rigging === undefined) return rig.load
  const ends = (gear: string): string[] => Object.keys(rigging.nodes).filter((n) => rigging.nodes[n]?.gear === gear)
  const isFrom = (gear: string, leg: RigLeg): boolean => ends(gear).includes((leg.above ? leg.over : leg.node) ?? '')
  const pulls = rig.legs.filter(({ leg }) => isFrom(id, leg))
  if (pulls.length === 0) return rig.load
  const under = (gear: string, seen: readonly string[] = []): string[] =>
    rig.legs
      .filter(({ leg }) => leg.above && isFrom(gear, leg))
      .flatMap(({ leg }) => {
        const next = rigging.nodes[leg.node ?? '']?.gear
        return next === undefined || seen.includes(next) ? [] : [next, ...under(next, [...seen, next])]
      })
  const below = [...new Set(under(id))].map((gear) => ({
    label: pick.gear[gear]?.name ?? gear,
    answer: ratedForce(pick.gear[gear]?.mass, pointerOf('gear', gear, 'mass')),
  }))
  return leastOf('What it can carry at most', 'N', [
    {
      label: 'worst pulls of its legs together',
      answer: sumOf(
        'Worst pulls of its legs',
        'N',
        pulls.map(({ leg, tension }) => ({ label: leg.id, answer: tension })),
      ),
    },
    {
      label: 'whole load',
      answer: sumOf('Whole load with what is below', 'N', [{ label: 'load', answer: rig.load }, ...below]),
    },
  ])
}

/** Every lifting point: its rating, its lug, and the pin through it. */
function pointChecks(pick: Pick, rig: LoadedRig): Check[] {
  const pulled = pulledPoints(rig)
  const lugs = pulled.flatMap(({ point, pull, legs }) => {
    const { lug } = point.point
    return lug === undefined ? [] : [pulledLug({ point, lug, at: `${point.pointer}/lug`, pull, legs })]
  })
  return [
    ...gearBeamChecks(pick, rig, lugs),
    ...pulled.flatMap(({ point, pull, legs }) => [
      pointUse(pick, rig, point, pull),
      ...lugChecks(pick, rig, point, pull, legs),
      ...lugs.filter((l) => l.point === point).flatMap((l) => lugFootChecks(pick, rig, l)),
    ]),
    ...testedCheck(pick, rig, lugs),
  ]
}

/** Every lifting point with the legs on it and their pull together. */
function pulledPoints(rig: LoadedRig): { point: HangingPoint; pull: Answer<'N'>; legs: LoadedLeg[] }[] {
  const points = new Map<string, { point: HangingPoint; legs: LoadedLeg[] }>()
  for (const loaded of rig.legs) {
    const lower = loaded.leg.lower
    if (lower === undefined) continue
    const known = points.get(lower.pointer) ?? { point: lower, legs: [] }
    known.legs.push(loaded)
    points.set(lower.pointer, known)
  }
  return [...points.values()].map(({ point, legs }) => ({ point, legs, pull: pullTogether(legs) }))
}

const pullTogether = (legs: readonly LoadedLeg[]): Answer<'N'> =>
  legs.length === 1
    ? (legs[0] as LoadedLeg).tension
    : sumOf(
        'Legs at the point',
        'N',
        legs.map(({ leg, tension }) => ({ label: leg.id, answer: tension })),
      )

function pointUse(pick: Pick, rig: LoadedRig, { id, pointer, point }: HangingPoint, pull: Answer<'N'>): Check {
  const capacity = ratedForce(point.rated, `${pointer}/rated`)
  return check({
    kind: componentUse,
    ...named(pick, rig, id),
    title: `${componentUse.title}: lifting point ${id}`,
    demand: pull,
    capacity,
    found: ratingCure(pull, capacity, point.rated),
  })
}

function lugChecks(
  pick: Pick,
  rig: LoadedRig,
  { id, pointer, point }: HangingPoint,
  pull: Answer<'N'>,
  legs: readonly LoadedLeg[],
): Check[] {
  const of = point.lug
  if (of === undefined) return []
  const shackles = shacklesOf(
    pick,
    rig,
    legs.map(({ leg }) => leg),
  )
  const pin = thinnestPin(shackles) ?? of.pin
  const terms = lugCapacities(of, `${pointer}/lug`, pin)
  const capacity = lugCapacity(terms)
  const governs = terms.find(({ answer }) => answer.value === capacity.value)
  const isSpaced = legs.every(({ leg }) => leg.laid.spacers)
  return [
    check({
      kind: lug,
      ...named(pick, rig, id),
      title: `${lug.title}: ${id}`,
      demand: pull,
      capacity,
      assumptions: [
        'Design category B; the edge is round about the hole. A pull out of the plane is for the foot of the lug.',
        'Cheek plates count in bearing only.',
        ...(capacity.value === undefined || governs === undefined ? [] : [`Governs: ${governs.label}.`]),
      ],
      found: lugFaults(of, `${pointer}/lug`, pull, capacity, pin),
      cautions: STRENGTH_CAUTIONS,
    }),
    ...shackles.flatMap((shackle) => {
      // several kinds of shackle at one point: each has its own checks
      const common = named(pick, rig, shackles.length === 1 ? id : `${id}/${shackle.id}`)
      return [pinCheck(common, id, shackle, of), ...jawChecks(common, shackle, of, isSpaced)]
    }),
  ]
}

/** The pin that bears on the least of a plate. */
function thinnestPin(shackles: readonly CountedItem[]): Answer<'m'> | undefined {
  const pins = shackles.flatMap(({ item }) => (item?.pin === undefined ? [] : [item.pin]))
  return pins.sort((a, b) => (a.value as number) - (b.value as number))[0]
}

/** What would mend a lug that fails. */
const lugFaults = (of: Lug, at: string, pull: Answer<'N'>, capacity: Answer<'N'>, pin: Answer<'m'>): string[] =>
  pull.value !== undefined && capacity.value !== undefined && pull.value > capacity.value
    ? lugCure(of, at, pull.value, pin)
    : []
