import { coordinates, type Gear } from '../model/index.ts'
import { add, cross, scale, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import { gradeOf, holeOf, stressArea, stressAreaInch, threadOf } from '../strip/index.ts'
import { type Answer, found, given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { unitOf } from './attitudes.ts'
import { factored } from './beamLoad.formulas.ts'
import {
  allowableTension,
  boltBearing,
  boltShear,
  boltSlip,
  boltSlipByAisc,
  boltTension,
  boltUseByAisc,
  boltUseByEurocode,
  pryingByAisc,
  tStub,
} from './bolt.formulas.ts'
import { type BoltForces, boltForces, planeOf } from './boltGroup.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { tooMuch, usedUp } from './cure.ts'
import { boltedGear } from './hook.ts'
import { boltSlips, boltUse } from './kinds.ts'
import type { LoadedLeg, LoadedRig } from './loadedRig.ts'
import type { Pick } from './pick.ts'
import { byRules, DESIGN_FACTOR, GAMMA_M0, GAMMA_M2, LOAD_FACTOR, unchosen, WHOLE } from './structure.ts'

type Bolts = NonNullable<Gear['bolts']>

/** Bolts of every frame that is bolted to the piece, under the pulls of all hooks on its lugs at the same time. */
export function frameBoltChecks(pick: Pick, rigs: readonly LoadedRig[]): Check[] {
  return boltedGear(pick).flatMap((id) => {
    const gear = pick.gear[id]
    const own = pointerOf('gear', id, 'points')
    const legs = rigs.flatMap((rig) => rig.legs).filter(({ leg }) => leg.lower?.pointer.startsWith(`${own}/`))
    if (gear === undefined || legs.length === 0) return []
    return checksOf(pick, id, gear, worstOf(pick, id, gear, legs))
  })
}

/** The worst bolt in one attitude of the piece. */
interface Asked {
  label: string
  use: Answer<'1'>
  slip: { demand: Answer<'N'>; capacity: Answer<'N'> }
}

function checksOf(pick: Pick, id: string, gear: Gear, { use, slip }: { use: Asked; slip: Asked }): Check[] {
  const shared = { subject: pick.subject, of: id, near: pick.near, cautions: STRENGTH_CAUTIONS }
  const assumptions = (label: string): string[] => [
    'A stiff joint, elastic, turning about the middle of the group; largest shear and largest tension are taken on one bolt.',
    'What the faces press is not counted beyond the bolts; the weight of the frame is left out.',
    `Worst ${label}.`,
  ]
  return [
    check({
      kind: boltUse,
      ...shared,
      title: `${boltUse.title}: ${gear.name}`,
      demand: use.use,
      capacity: WHOLE,
      assumptions: assumptions(use.label),
      found: usedUp(
        use.use,
        'larger bolts, more of them, a higher grade, a wider group, or thicker plates where these govern',
      ),
    }),
    check({
      kind: boltSlips,
      ...shared,
      title: `${boltSlips.title}: ${gear.name}`,
      ...slip.slip,
      assumptions: assumptions(slip.label),
      found: tooMuch(
        slip.slip.demand,
        slip.slip.capacity,
        'more bolts or more preload in each, rougher faces, or a shear key that takes the force',
      ),
    }),
  ]
}

/** Of all attitudes that the legs have: the one with the largest use, and the one nearest to slip. */
function worstOf(pick: Pick, id: string, gear: Gear, legs: readonly LoadedLeg[]): { use: Asked; slip: Asked } {
  const at = pointerOf('gear', id, 'bolts')
  const labels = [...new Set(legs.flatMap(({ attitudes }) => (attitudes ?? []).map(({ label }) => label)))]
  const asked = (labels.length === 0 ? ['in an attitude that is not known'] : labels).map((label) =>
    askedAt(pick, gear.bolts, at, legs, label),
  )
  const most = (of: (a: Asked) => number | undefined): Asked =>
    asked.find((a) => of(a) === undefined) ??
    (asked.reduce((a, b) => ((of(b) as number) > (of(a) as number) ? b : a)) as Asked)
  return {
    use: most(({ use }) => use.value),
    slip: most(({ slip: { demand, capacity } }) =>
      demand.value === undefined || capacity.value === undefined ? undefined : demand.value / (capacity.value || 1e-9),
    ),
  }
}

function askedAt(pick: Pick, bolts: Bolts | undefined, at: string, legs: readonly LoadedLeg[], label: string): Asked {
  if (bolts === undefined) {
    const missing = given('N', at, undefined)
    return { label, use: given('1', at, undefined), slip: { demand: missing, capacity: missing } }
  }
  const { V, T } = worstBolt(bolts, at, legs, label)
  const bolt = boltOf(bolts, at)
  return { label, use: useOf(pick, bolts, at, bolt, V, T), slip: slipOf(pick, bolts, at, V, T) }
}

/** Largest shear and largest tension of a bolt of the group. */
function worstBolt(bolts: Bolts, at: string, legs: readonly LoadedLeg[], label: string) {
  const axis = unitOf(bolts.axis)
  const middle = coordinates(bolts.at)
  const pulls = legs.flatMap(({ leg, tension, attitudes }) => {
    const attitude = attitudes?.find((a) => a.label === label)
    return leg.lower === undefined || attitude === undefined ? [] : [{ at: leg.lower.at, tension, attitude }]
  })
  const known = axis !== undefined && pulls.length > 0 && pulls.every(({ tension }) => tension.value !== undefined)
  const forces = known ? solved(bolts, axis, middle, pulls) : undefined
  const inputs: Record<string, Answer> = {
    ...Object.fromEntries(legs.map(({ leg, tension }) => [`${leg.itemId} at ${leg.lower?.id}`, tension])),
    ...Object.fromEntries(bolts.at.map((x, i) => [`middle of the group ${'xyz'[i]}`, x])),
    ...(axis === undefined ? { 'axis of the bolts': given('1', `${at}/axis`, undefined) } : {}),
    ...(pulls.length === 0 ? { 'direction of the pulls': legs[0]?.leg.length ?? given('m', at, undefined) } : {}),
  }
  const answer = (value: number | undefined, of: string): Answer<'N'> =>
    found({
      unit: 'N',
      value,
      method: `${of} of a bolt: elastic group under all pulls ${label}`,
      inputs,
      residuals:
        forces === undefined
          ? []
          : [
              { title: 'ΣF of the bolts', value: forces.residual.force, unit: 'N', tolerance: 1 },
              { title: 'ΣM of the bolts', value: forces.residual.moment, unit: 'N m', tolerance: 1 },
            ],
    })
  return {
    V: answer(forces === undefined ? undefined : Math.max(...forces.shear), 'largest shear'),
    T: answer(forces === undefined ? undefined : Math.max(0, ...forces.tension), 'largest tension'),
  }
}

function solved(
  bolts: Bolts,
  axis: Vec3,
  middle: Vec3,
  pulls: readonly { at: Vec3; tension: Answer<'N'>; attitude: { up: Vec3; share: number } }[],
): BoltForces {
  const vectors = pulls.map(({ at, tension, attitude }) => ({
    arm: subtract(at, middle),
    pull: scale(attitude.up, (tension.value as number) * attitude.share),
  }))
  const force = vectors.reduce<Vec3>((sum, { pull }) => add(sum, pull), ZERO)
  const moment = vectors.reduce<Vec3>((sum, { arm, pull }) => add(sum, cross(arm, pull)), ZERO)
  return boltForces(placesOf(bolts, axis), axis, force, moment)
}

/** Places of the bolts from the middle of the group. */
function placesOf({ layout }: Bolts, axis: Vec3): Vec3[] {
  const [u, v] = planeOf(axis)
  const at = (x: number, y: number): Vec3 => add(scale(u, x), scale(v, y))
  if (layout.kind === 'circle') {
    const r = (layout.diameter.value as number) / 2
    return Array.from({ length: layout.count }, (_, i) => {
      const angle = (2 * Math.PI * (i + 0.5)) / layout.count
      return at(r * Math.cos(angle), r * Math.sin(angle))
    })
  }
  const [m, n] = layout.counts
  const [p, q] = layout.pitches.map((x) => x.value as number) as [number, number]
  return Array.from({ length: m * n }, (_, i) => at(((i % m) - (m - 1) / 2) * p, (Math.floor(i / m) - (n - 1) / 2) * q))
}

/** One bolt by its thread and its grade; open where these mean none. */
function boltOf(bolts: Bolts, at: string) {
  const thread = threadOf(bolts.thread)
  const grade = thread === undefined ? undefined : gradeOf(bolts.grade, thread.d)
  const d = knownText('m', thread?.d, `${at}/thread`, `diameter of ${bolts.thread}`)
  const P = knownText('m', thread?.pitch, `${at}/thread`, `pitch of ${bolts.thread}`)
  const inch = thread?.form === 'inch'
  return {
    d,
    A_s: inch ? stressAreaInch.show({ d, P }) : stressArea.show({ d, P }),
    f_ub: knownText('Pa', grade?.nominal, `${at}/grade`, grade?.source ?? bolts.grade),
    alpha_v: stated(
      '1',
      grade?.name === '8.8' ? 0.6 : 0.5,
      `α_v of ${bolts.grade}: EN 1993-1-8 table 3.4 (from memory)`,
    ),
    hole:
      bolts.hole ??
      knownText('m', thread === undefined ? undefined : holeOf(thread), `${at}/hole`, 'medium hole of this size'),
  }
}

const knownText = <U extends 'm' | 'Pa'>(unit: U, value: number | undefined, at: string, text: string): Answer<U> =>
  value === undefined ? given(unit, at, undefined) : stated(unit, value, text)

function useOf(
  pick: Pick,
  bolts: Bolts,
  at: string,
  bolt: ReturnType<typeof boltOf>,
  V: Answer<'N'>,
  T: Answer<'N'>,
): Answer<'1'> {
  const t = knownOr(bolts.plate, 'm', `${at}/plate`)
  const e = knownOr(bolts.edge, 'm', `${at}/edge`)
  const m = knownOr(bolts.web, 'm', `${at}/web`)
  const l = knownOr(bolts.row, 'm', `${at}/row`)
  const f_u = knownOr(bolts.ultimate, 'Pa', `${at}/ultimate`)
  const { d, A_s, f_ub, alpha_v, hole } = bolt
  return byRules<Answer<'1'>>(pick, {
    European: () => {
      const F_t = boltTension.show({ f_ub, A_s, gamma_M2: GAMMA_M2 })
      const f_y = knownOr(bolts.yield, 'Pa', `${at}/yield`)
      return boltUseByEurocode.show({
        V,
        T,
        F_v: boltShear.show({ alpha_v, f_ub, A_s, gamma_M2: GAMMA_M2 }),
        F_t,
        F_p: tStub.show({ F_t, l, t, m, e, f_y, gamma_M0: GAMMA_M0 }),
        F_b: boltBearing.show({ d, d_0: hole, e, t, f_u, f_ub, gamma_M2: GAMMA_M2 }),
        gamma_F: LOAD_FACTOR,
      })
    },
    US: () => {
      const B = allowableTension.show({ F_u: f_ub, d, N_d: DESIGN_FACTOR })
      const T_a = pryingByAisc.show({ B, t, b: m, a: e, p: l, d, d_h: hole, F_u: f_u, N_d: DESIGN_FACTOR })
      return boltUseByAisc.show({ V, T, F_u: f_ub, d, d_h: hole, e, t, F_up: f_u, T_a, N_d: DESIGN_FACTOR })
    },
    open: unchosen,
  })
}

const GAMMA_M3 = stated('1', 1.25, 'EN 1993-1-8 table 2.1: γ_M3 = 1.25 (recommended value, from memory)')

function slipOf(pick: Pick, bolts: Bolts, at: string, V: Answer<'N'>, T: Answer<'N'>): Asked['slip'] {
  const mu = knownOr(bolts.friction, '1', `${at}/friction`)
  const preload = knownOr(bolts.preload, 'N', `${at}/preload`)
  return byRules<Asked['slip']>(pick, {
    European: () => ({
      demand: factored.show({ F: V, k: LOAD_FACTOR }),
      capacity: boltSlip.show({ mu, F_p: preload, T, gamma_F: LOAD_FACTOR, gamma_M3: GAMMA_M3 }),
    }),
    US: () => ({ demand: V, capacity: boltSlipByAisc.show({ mu, T_b: preload, T }) }),
    open: () => ({ demand: V, capacity: factored.show({ F: V, k: unchosen() }) }),
  })
}
