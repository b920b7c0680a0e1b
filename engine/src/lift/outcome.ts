import { angleBetween, subtract, unit } from '../numeric/vector.ts'
import { type Answer, found, largestOf } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { allowancesOf } from './allowances.ts'
import { arrangedCheck, arrangementsOf } from './arranged.ts'
import { hangingAttitude, overTheTurn } from './attitudes.ts'
import { besideChecks } from './beside.ts'
import { bridleOf } from './bridle.ts'
import { PIVOT_CAUTIONS, TURNING_CAUTIONS } from './caution.ts'
import { type ChartRead, chartRangeCheck, chartRead } from './chartChecks.ts'
import { classOf, criteriaOf } from './classification.ts'
import { clearanceOf } from './clearanceChecks.ts'
import { componentChecks } from './components.ts'
import { dayChecks, holdingChecks } from './dayChecks.ts'
import { durationOf } from './duration.ts'
import { feetOf, underHead } from './feet.ts'
import { feetChecks } from './feetChecks.ts'
import { frameBoltChecks } from './frameBolts.ts'
import { hangChecks } from './hangChecks.ts'
import { headersOf } from './headerCases.ts'
import { heightChain } from './height.ts'
import { heightCheck, tailHeightCheck } from './heightChecks.ts'
import { holdingOf } from './holding.ts'
import { hookLoad } from './hook.ts'
import {
  breakOutCheck,
  classCheck,
  hookUseCheck,
  loadCompleteCheck,
  looseCheck,
  ratingBasisCheck,
  stressCheck,
} from './hookChecks.ts'
import type { Hull } from './hull.ts'
import {
  beamBearing,
  beamShear,
  beamUse,
  bend,
  boltUse,
  bothHooksUse,
  componentUse,
  hookUse,
  legRule,
  legTension,
  lug,
  lugFoot,
  lugParent,
  lugWeld,
  sharedWorst,
  turnShare,
} from './kinds.ts'
import { landingCheck } from './landingCheck.ts'
import { legEnds, legResult } from './legResult.ts'
import { levelProposals } from './levelling.ts'
import type { LiftOutcome, TurnStage } from './lift.ts'
import type { LoadedRig } from './loadedRig.ts'
import { loadTestChecks } from './loadTests.ts'
import { machinesOf, type SecondMachine, underOwnHead } from './machines.ts'
import { overheadOf } from './overhead.ts'
import { radiusOf } from './passed.ts'
import { hookPlaces } from './path.ts'
import { type Hooked, identityOf, onHook, type Pick } from './pick.ts'
import { type PieceSail, pieceSail } from './pieceSail.ts'
import { pivotChecks } from './pivotChecks.ts'
import { pivotingOf, pivotOnGround } from './pivotOf.ts'
import { pointsOnCheck } from './pointsOn.ts'
import { allowedOf, ratedOf } from './rated.ts'
import { hookReachChecks } from './reachChecks.ts'
import { rigOf } from './rig.ts'
import { stagesOf } from './stages.ts'
import { carryingGear, carryingItems, takenItems } from './stockChecks.ts'
import { type LegAnswer, type Suspension, suspensionOf } from './suspension.ts'
import { isCrane } from './swept.ts'
import { tagLineChecks } from './tagLines.ts'
import { tailAngleCheck, tailLegsOf, tailRig } from './tailRig.ts'
import { type Tandem, tandemOf } from './tandem.ts'
import { tandemChecks } from './tandemChecks.ts'
import { turnAttitudes, turnChecks, turnStages, worstPull } from './turnChecks.ts'
import { type OpenTurn, type Turning, turningOf } from './turningOf.ts'
import { turnLineChecks } from './turnLineChecks.ts'
import { asMovedCheck } from './turnMoves.ts'
import { unitChecks } from './unitChecks.ts'
import { largestDemand, type UnitGroup, unitGroup } from './units.ts'
import { windLimit } from './wind.ts'
import { swingChecks, windCheck } from './windChecks.ts'
import { worksCheck } from './works.ts'
import { exclusionZone } from './zone.ts'

/** Everything that follows for one lift. */
export function outcomeOf(pick: Pick, hull: Hull | undefined, memory: Memory): LiftOutcome {
  const work = workOf(pick, hull, memory)
  const { main } = pick
  const headers = headersOf(pick, work)
  const plain = checksOf(pick, work)
  const groups = groupsOf(pick, work, plain)
  const held = groups.flatMap(([hooked, group]) => unitChecks(pick, hooked, group))
  const checks = [...plain, ...held, ...headers.checks]
  return {
    id: pick.id,
    piece: pick.lift.piece,
    kind: pick.lift.kind,
    state: pick.state,
    system: main.systemId,
    hook: main.id,
    hookLoad: work.load.load,
    lines: work.load.lines,
    demand: work.load.demand,
    rated: work.rated,
    allowed: work.allowed,
    legs: work.suspension.legs.map((leg, i) => legResult(leg, i, work.suspension)),
    tailLegs: tailLegsOf(pick, work.rigs),
    tilt: work.suspension.tilt,
    worstTilt: work.suspension.worstTilt,
    height: work.height,
    ...(work.way.least === undefined ? {} : { clearance: work.way.least }),
    overhead: work.overhead.over,
    turning: work.turned,
    ...(work.pivoting === undefined ? {} : { pivot: pivotOnGround(pick, work.pivoting) }),
    allowableWind: work.wind.allowable,
    wind: work.wind.terms,
    sail: { area: work.sail.area, heading: work.sail.heading },
    duration: durationOf(pick, work.stages),
    stages: work.stages.map(({ motion: _, ...stage }) => stage),
    ...work.holding,
    zone: exclusionZone(pick, work.stages, hull),
    critical: work.critical,
    criteria: work.criteria.map(({ text, met }) => ({ text, met })),
    arranged: arrangementsOf(pick, work.critical).map(({ arrangement: { text, source }, what }) => ({
      text,
      what,
      source,
    })),
    items: carryingItems(pick),
    takes: takenItems(pick),
    gear: carryingGear(pick),
    works: pick.works.map(({ id }) => id),
    places: hookPlaces(pick),
    ...governingOf(checks),
    bridles: work.rigs.flatMap((rig) => present(bridleOf(pick, rig))),
    levelling: levelProposals(pick, work.suspension),
    allowances: allowancesOf(pick, work.suspension),
    units: groups.map(([, group]) => group),
    charts: chartsRead(pick, work, plain),
    underHead: work.underHead,
    ...(work.feet === undefined ? {} : { feet: work.feet }),
    ...(isCrane(pick.main.system) ? { radius: radiusOf(pick) } : {}),
    ...(work.second === undefined ? {} : { second: work.second }),
    headers: headers.headers,
    checks,
  }
}

type Work = ReturnType<typeof workOf>

/** What the checks and the sheet are made from. */
function workOf(pick: Pick, hull: Hull | undefined, memory: Memory) {
  const load = hookLoad(pick)
  const rated = ratedOf(pick, pick.main)
  const criteria = criteriaOf(pick, load.demand, rated)
  const critical = classOf(criteria)
  const turns = pick.lift.kind === 'turn'
  const hung = hungOf(pick, memory)
  const { tandem, suspension } = hung
  const sail: PieceSail = pieceSail(pick, hull, memory)
  const stages = stagesOf(pick, hull)
  const turning = turns && pick.lift.turn?.pivot === undefined ? turningOf(pick, hull) : undefined
  const shares = sharesOf(pick, tandem, turning)
  const below = shares === undefined ? underHead(pick, load.load) : underOwnHead(pick, pick.main, shares.main)
  const turned = turning === undefined ? [] : turnStages(turning)
  return {
    underHead: below,
    feet: feetOf(pick, pick.main, below),
    second: shares === undefined ? undefined : secondMachine(pick, shares.tail),
    load,
    rated,
    criteria,
    critical,
    allowed: allowedOf(pick, pick.main, rated, critical),
    tandem,
    suspension,
    height: heightChain(pick, suspension, hull),
    way: clearanceOf(pick, hull, suspension, memory),
    turning,
    turned,
    rigs: turning === undefined ? hung.rigs : rigsTurned(pick, hung, turning, turnAttitudes(turning)),
    pivoting: turns && pick.lift.turn?.pivot !== undefined ? pivotingOf(pick, hull) : undefined,
    looked: { hull, memory },
    overhead: overheadOf(pick, stages, hull, suspension, memory),
    sail,
    wind: windLimit(pick, sail.area),
    hull,
    stages,
    holding: holdingOf(pick, stages, hull),
  }
}

function checksOf(pick: Pick, work: Work): Check[] {
  const { load, rated, criteria, critical, suspension } = work
  const breaksOut = pick.lift.kind === 'out' || pick.lift.kind === 'move'
  return [
    loadCompleteCheck(pick, pick.main, load),
    ...hookChecks(pick, work),
    ...(breaksOut ? [breakOutCheck(pick, pick.main, load.demand, rated)] : []),
    ...loadTestChecks(pick),
    classCheck(pick, criteria, critical),
    arrangedCheck(pick, critical),
    looseCheck(pick),
    ...pointsOn(pick, work),
    ...present(stressCheck(pick, criteria)),
    ...hookReachChecks(pick, work.stages, work.turning),
    ...hangChecks(pick, suspension),
    ...rigChecks(pick, work),
    heightCheck(pick, work.height),
    ...tailHeightCheck(pick, work.stages, tailLegsOf(pick, work.rigs)),
    ...work.way.checks,
    ...work.overhead.checks,
    ...(work.turning === undefined
      ? []
      : [...turnChecks(pick, work.turning, critical), ...turnLineChecks(pick, work.turning, critical, work.looked)]),
    ...(work.turning === undefined ? [] : [asMovedCheck(pick, TURNING_CAUTIONS)]),
    ...(work.pivoting === undefined
      ? []
      : [asMovedCheck(pick, PIVOT_CAUTIONS), ...pivotChecks(pick, work.pivoting, critical)]),
    windCheck(pick, work.wind),
    ...swingChecks(pick, work.sail.area, work.wind, work.way.least),
    ...tagLineChecks(pick, { twist: work.sail.twist, gust: work.wind.planned, hull: work.hull }),
    ...besideChecks(pick, work.stages, work.hull),
    ...landingCheck(pick, work.hull),
    ...dayChecks(pick, work.stages, work.hull, work.holding.pointOfNoReturn.window),
    ...holdingChecks(pick, work.holding.refuges),
    ...feetChecks(pick, pick.main, work.feet, work.underHead),
    ...(pick.tail === undefined || work.second === undefined
      ? []
      : feetChecks(pick, pick.tail, work.second.feet, work.second.underHead)),
    ...worksCheck(pick),
  ]
}

/** Use of each hook and the basis of its rating; a hook that shares the piece at rest is held to its share. */
function hookChecks(pick: Pick, { load, allowed, tandem, critical }: Work): Check[] {
  const { main, tail } = pick
  return [
    ...(tandem === undefined || tail === undefined
      ? [hookUseCheck(pick, main, load.demand, allowed)]
      : tandemChecks(pick, tail, tandem, critical)),
    ratingBasisCheck(pick, main),
    ...chartRangeCheck(pick, main),
    ...(tail === undefined ? [] : [ratingBasisCheck(pick, tail), ...chartRangeCheck(pick, tail)]),
  ]
}

/** The charts of each hook under the most that it carries in this lift. */
const chartsRead = (pick: Pick, work: Work, checks: readonly Check[]): ChartRead[] =>
  [pick.main, ...present(pick.tail)].flatMap((hooked) =>
    present(chartRead(pick, hooked, largestDemand(checks, hooked.key) ?? work.load.demand)),
  )

/** The units of each hook under the most that it carries in this lift. */
function groupsOf(pick: Pick, work: Work, checks: readonly Check[]): [Hooked, UnitGroup][] {
  const places = hookPlaces(pick).map((p) => p.at[2])
  const hoisted = places.slice(1).reduce((sum, z, i) => sum + Math.abs(z - (places[i] as number)), 0)
  return [pick.main, ...present(pick.tail)].flatMap((hooked) => {
    const demand = largestDemand(checks, hooked.key) ?? work.load.demand
    const group = unitGroup(hooked, demand, work.height.needed, hoisted)
    return group === undefined ? [] : [[hooked, group] as [Hooked, UnitGroup]]
  })
}

/** Largest pulls on the piece of two machines that share it; undefined where one carries all of it. */
function sharesOf(
  pick: Pick,
  tandem: Tandem | undefined,
  turning: Turning | OpenTurn | undefined,
): { main: Answer<'N'>; tail: Answer<'N'> } | undefined {
  if (machinesOf(pick).length === 1) return undefined
  if (turning !== undefined) return { main: worstPull(pick, turning, 'main'), tail: worstPull(pick, turning, 'tail') }
  return tandem && { main: tandem.main.worst, tail: tandem.tail.worst }
}

function secondMachine(pick: Pick, share: Answer<'N'>): SecondMachine | undefined {
  const { tail } = pick
  if (tail === undefined) return undefined
  const below = underOwnHead(pick, tail, share)
  const feet = feetOf(pick, tail, below)
  return {
    system: tail.systemId,
    hook: tail.id,
    underHead: below,
    radius: radiusOf(pick, tail),
    ...(feet === undefined ? {} : { feet }),
  }
}

/** How a piece hangs at rest, from one hook or two. */
interface Hung {
  tandem: Tandem | undefined
  suspension: Suspension
  /** What hangs from each hook, with the tensions it is held to. */
  rigs: readonly LoadedRig[]
}

/** Kept while only the place changes where the piece is set down or taken from. */
export function hungOf(pick: Pick, memory: Memory): Hung {
  const hooked = onHook(pick)
  return memory.once(`lift-hung/${pick.id}`, identityOf(hooked), () => {
    const atRest = hooked.tail !== undefined && hooked.lift.kind !== 'turn' ? hooked.tail : undefined
    const tandem = atRest && tandemOf(hooked, atRest)
    const suspension = tandem?.suspension ?? suspensionOf(hooked, rigOf(hooked))
    return { tandem, suspension, rigs: rigsOf(hooked, tandem, suspension) }
  })
}

/** Kept while neither the outside of the piece nor a point moves: no mass enters it. */
function pointsOn(pick: Pick, { hull, looked: { memory } }: Work): readonly Check[] {
  const { piece, lift, gear, subject } = pick
  const from = [hull, piece, lift, gear, subject.name]
  return memory.once(`lift-points-on/${pick.id}`, from, () => pointsOnCheck(pick, hull))
}

/** Components of what hangs from each hook against their ratings. */
function rigChecks(pick: Pick, { rigs, looked: { memory } }: Work): readonly Check[] {
  const hooked = onHook(pick)
  return memory.once(`lift-rigged/${pick.id}`, [...identityOf(hooked), ...rigs], () => [
    ...rigs.flatMap((rig) => componentChecks(hooked, rig)),
    ...(pick.lift.kind === 'turn' ? rigs.slice(1).map((tail) => tailAngleCheck(hooked, tail)) : []),
    ...frameBoltChecks(hooked, rigs),
  ])
}

function rigsOf(pick: Pick, tandem: Tandem | undefined, suspension: Suspension): LoadedRig[] {
  if (tandem === undefined || pick.tail === undefined) return [loadedRig(pick.main, suspension.legs, suspension)]
  return [
    loadedRig(pick.main, tandem.legs.main, suspension, tandem.main.worst),
    loadedRig(pick.tail, tandem.legs.tail, suspension, tandem.tail.worst),
  ]
}

/** The same over a turn by two hooks. */
function rigsTurned(
  pick: Pick,
  { rigs }: Hung,
  turning: Turning | OpenTurn,
  turned: readonly TurnStage[],
): LoadedRig[] {
  const tail = tailRig(pick, turning)
  return [
    ...rigs.map((main) => overTheTurn(pick, main, turned, 'main')),
    ...(tail === undefined ? [] : [overTheTurn(pick, tail, turned, 'tail')]),
  ]
}

/** The arrangement of a hook with the worst tension of each leg. */
function loadedRig(
  hooked: Hooked,
  legs: readonly LegAnswer[],
  suspension: Suspension,
  load: Answer<'N'> = suspension.rig.weight,
): LoadedRig {
  return {
    hooked,
    legs: legs.map((answer) => ({
      leg: answer.leg,
      tension: answer.worst,
      attitudes: hangingAttitude(answer, suspension),
    })),
    load,
    flattest: largestOf(
      'Angle of the flattest leg',
      'rad',
      legs.map(({ leg, angle }) => ({ label: leg.id, answer: angle })),
    ),
    ...includedOf(suspension, legs),
  }
}

/** The widest pair of a hook's legs that meet in one hook, link or bow. */
function includedOf(suspension: Suspension, legs: readonly LegAnswer[]): { included?: Answer<'rad'> } {
  const of = suspension.legs.flatMap((answer, i) => (legs.includes(answer) && !answer.leg.above ? [i] : []))
  const ends = suspension.legs.map((_, i) => legEnds(i, suspension))
  const meet = (a: number, b: number): boolean => {
    const [one, other] = [suspension.legs[a]?.leg, suspension.legs[b]?.leg]
    const atPoint = one?.lower !== undefined && one.lower.pointer === other?.lower?.pointer
    return atPoint || (one?.node === undefined && other?.node === undefined)
  }
  const pairs = of.flatMap((a) => of.flatMap((b) => (a < b && meet(a, b) ? [[a, b] as const] : [])))
  if (pairs.length === 0) return {}
  const angles = pairs.map(([a, b]) => {
    const [one, other] = [ends[a], ends[b]]
    return one === undefined || other === undefined
      ? undefined
      : angleBetween(unit(subtract(one[0], one[1])), unit(subtract(other[0], other[1])))
  })
  return {
    included: found({
      unit: 'rad',
      value: angles.includes(undefined) ? undefined : Math.max(...(angles as number[])),
      method: 'angle between the lines of two legs as the piece hangs, the widest pair',
      inputs: Object.fromEntries(suspension.legs.map(({ leg, angle }) => [`${leg.id}: from the vertical`, angle])),
      residuals: [],
    }),
  }
}

const present = <T>(value: T | undefined): T[] => (value === undefined ? [] : [value])

/** Kinds of check in which something carries a load. */
const CARRYING = new Set(
  [
    hookUse,
    bothHooksUse,
    legTension,
    legRule,
    componentUse,
    bend,
    lug,
    lugFoot,
    lugWeld,
    lugParent,
    beamUse,
    beamShear,
    beamBearing,
    boltUse,
    turnShare,
    sharedWorst,
  ].map((k) => k.id),
)

/** Of what carries the load, what is used the most. */
function governingOf(checks: readonly Check[]): { governing?: string } {
  const used = checks.filter((c) => c.utilisation !== undefined && CARRYING.has(c.kind))
  const most = used.sort((a, b) => (b.utilisation as number) - (a.utilisation as number))[0]
  return most === undefined ? {} : { governing: most.id }
}
