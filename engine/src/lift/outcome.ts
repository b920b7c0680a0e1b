import { apply, type Mat3, place, rotationBy, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, largestOf } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { classOf, criteriaOf } from './classification.ts'
import { clearanceOf } from './clearanceChecks.ts'
import { componentChecks, type LoadedRig } from './components.ts'
import { durationOf } from './duration.ts'
import { hangChecks } from './hangChecks.ts'
import { heightChain } from './height.ts'
import { heightCheck } from './heightChecks.ts'
import { hookLoad } from './hook.ts'
import {
  breakOutCheck,
  classCheck,
  hookReachCheck,
  hookUseCheck,
  loadCompleteCheck,
  loadTestCheck,
  looseCheck,
  ratingBasisCheck,
  stressCheck,
} from './hookChecks.ts'
import { type Hull, turnOnto } from './hull.ts'
import type { LegResult, LiftOutcome } from './lift.ts'
import { bodyTurn, hookPlaces } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { allowedOf, ratedOf } from './rated.ts'
import { rigOf } from './rig.ts'
import { largestSail, type Sail } from './sail.ts'
import { type LegAnswer, type Suspension, suspensionOf } from './suspension.ts'
import { tandemOf } from './tandem.ts'
import { tandemChecks } from './tandemChecks.ts'
import { tailRig, turnChecks, turnStages } from './turnChecks.ts'
import { turningOf } from './turningOf.ts'
import { windLimit } from './wind.ts'
import { windCheck } from './windChecks.ts'

/** Everything that follows for one lift. */
export function outcomeOf(pick: Pick, hull: Hull | undefined, memory: Memory): LiftOutcome {
  const { main } = pick
  const load = hookLoad(pick)
  const rated = ratedOf(pick, main)
  const criteria = criteriaOf(pick, load.demand, rated)
  const critical = classOf(criteria)
  const allowed = allowedOf(pick, main, rated, critical)
  const tandem = pick.tail === undefined || pick.lift.kind === 'turn' ? undefined : tandemOf(pick, pick.tail)
  const suspension = tandem?.suspension ?? suspensionOf(pick, rigOf(pick))
  const height = heightChain(pick, suspension, hull)
  const way = clearanceOf(pick, hull, suspension)
  const turning = pick.lift.kind === 'turn' ? turningOf(pick, hull) : undefined
  const tail = turning === undefined ? undefined : tailRig(pick, turning)
  const sail = sailOf(pick, hull, memory)
  const wind = windLimit(pick, sail.area)
  const checks: Check[] = [
    loadCompleteCheck(pick, main, load),
    ...(tandem === undefined || pick.tail === undefined
      ? [hookUseCheck(pick, main, load.demand, allowed)]
      : tandemChecks(pick, pick.tail, tandem, critical)),
    ratingBasisCheck(pick, main),
    ...(pick.lift.kind === 'out' || pick.lift.kind === 'move' ? [breakOutCheck(pick, main, load.demand, rated)] : []),
    loadTestCheck(pick, main),
    classCheck(pick, criteria, critical),
    looseCheck(pick),
    ...present(stressCheck(pick, criteria)),
    ...(pick.tail === undefined ? [] : [ratingBasisCheck(pick, pick.tail)]),
    ...present(hookReachCheck(pick)),
    ...hangChecks(pick, suspension),
    ...(tandem === undefined
      ? componentChecks(pick, loadedRig(pick.main, suspension.legs, suspension))
      : [
          ...componentChecks(pick, loadedRig(pick.main, tandem.legs.main, suspension)),
          ...componentChecks(pick, loadedRig(pick.tail as Hooked, tandem.legs.tail, suspension)),
        ]),
    heightCheck(pick, height),
    ...way.checks,
    ...(turning === undefined ? [] : turnChecks(pick, turning, critical)),
    ...(tail === undefined ? [] : componentChecks(pick, tail)),
    windCheck(pick, wind),
  ]
  return {
    id: pick.id,
    piece: pick.lift.piece,
    kind: pick.lift.kind,
    state: pick.state,
    system: main.systemId,
    hook: main.id,
    hookLoad: load.load,
    lines: load.lines,
    demand: load.demand,
    rated,
    allowed,
    legs: suspension.legs.map((leg, i) => legResult(leg, i, suspension)),
    tilt: suspension.tilt,
    worstTilt: suspension.worstTilt,
    height,
    ...(way.least === undefined ? {} : { clearance: way.least }),
    turning: turning === undefined ? [] : turnStages(turning),
    allowableWind: wind.allowable,
    wind: wind.terms,
    sail,
    duration: durationOf(pick),
    critical,
    criteria: criteria.map(({ text, met }) => ({ text, met })),
    places: hookPlaces(pick),
    ...governingOf(checks),
    checks,
  }
}

/** The arrangement of a hook with the worst tension of each leg. */
function loadedRig(hooked: Hooked, legs: readonly LegAnswer[], { rig }: Suspension): LoadedRig {
  return {
    hooked,
    legs: legs.map(({ leg, worst }) => ({ leg, tension: worst })),
    load: rig.weight,
    flattest: largestOf(
      'Angle of the flattest leg',
      'rad',
      legs.map(({ leg, angle }) => ({ label: leg.id, answer: angle })),
    ),
  }
}

const present = <T>(value: T | undefined): T[] => (value === undefined ? [] : [value])

function governingOf(checks: readonly Check[]): { governing?: string } {
  const used = checks.filter((c) => c.utilisation !== undefined)
  const most = used.sort((a, b) => (b.utilisation as number) - (a.utilisation as number))[0]
  return most === undefined ? {} : { governing: most.id }
}

function sailOf(pick: Pick, hull: Hull | undefined, memory: Memory): LiftOutcome['sail'] {
  const turn = bodyTurn(pick)
  const sail: Sail | undefined =
    hull === undefined
      ? undefined
      : memory.once(`lift-sail/${pick.lift.piece}/${turn.flat().join()}`, [hull], () => largestSail(hull, turn))
  const area: Answer<'m2'> = found({
    unit: 'm2',
    value: sail?.area,
    method:
      'largest area of the outline of all solids on an upright plane, over 12 headings; outlines drawn from outside',
    inputs: {},
    residuals: [],
  })
  return { area, heading: sail?.heading ?? 0 }
}

/** A leg for the sheet, with its ends as the piece hangs. */
function legResult(answer: LegAnswer, index: number, suspension: Suspension): LegResult {
  const { leg, tension, worst, angle, slack } = answer
  const link = suspension.links.find((l) => l.leg === leg.id)
  const ends = endsOf(index, suspension)
  return {
    id: leg.id,
    tension,
    worst,
    angle,
    slack,
    item: leg.itemId,
    ...(link === undefined ? {} : { link: { item: link.item, setting: link.setting } }),
    to: leg.above ? (leg.node ?? '') : (leg.lower?.id ?? ''),
    ...(leg.above || leg.node === undefined ? {} : { from: leg.node }),
    ...(ends === undefined ? {} : { ends }),
  }
}

function endsOf(index: number, { hang, load }: Suspension): readonly [Vec3, Vec3] | undefined {
  if (hang === undefined || load === undefined) return undefined
  const { pose, up } = hang
  const level: Mat3 = rotationBy(turnOnto(up, [0, 0, 1]))
  const fromHook = (p: Vec3): Vec3 => apply(level, subtract(p, pose.hook))
  const leg = load.legs[index]
  if (leg !== undefined) {
    const upper = leg.from === undefined ? pose.hook : place(pose.spreader, leg.from)
    return [fromHook(leg.to), fromHook(upper)]
  }
  const top = load.spreader?.top[index - load.legs.length]
  return top === undefined ? undefined : [fromHook(place(pose.spreader, top.to)), fromHook(pose.hook)]
}
