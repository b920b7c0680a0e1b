import { type Ground, type Shaft, surveyedElements } from '../model/index.ts'
import { type Answer, governing, knownOr, largestOf, stated, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { surveyedTurns, surveyText } from './asBuilt.ts'
import { factored } from './base.formulas.ts'
import { factorOf, RING, SOIL } from './caution.ts'
import { overlapChanceChecks } from './chance.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { thicknessNeeded } from './overlap.formulas.ts'
import { surchargeText, type WallLevel } from './pressure.ts'
import {
  buckling,
  designStress,
  eccentricResistance,
  factoredMoment,
  factoredThrust,
  hoopStress,
  outOfRound,
  plainStrength,
  thrust,
} from './ring.formulas.ts'
import type { WallRing } from './wall.ts'

/** The wall at one level as a ring under pressure. */
export interface RingLevel {
  at: WallLevel
  thickness: Answer<'m'>
  thrust: Answer<'N/m'>
  /** With the load factor. */
  stress: Answer<'Pa'>
}

const PLAIN = stated('1', 0.8, 'α_cc,pl recommended by EN 1992-1-1:2004 12.3.1 (from memory); national annexes differ')

/** Thrust, thickness and stress of the ring at each level. */
export function ringLevels(ground: Ground, ring: WallRing, levels: readonly WallLevel[]): RingLevel[] {
  const gamma_F = factorOf(ground, 'ringLoad')
  return levels.map((at) => {
    const N = thrust.show({ p: at.lateral, r_o: ring.outerRadius })
    const t = ring.thicknessAt(at.z)
    return { at, thickness: t, thrust: N, stress: designStress.show({ gamma_F, sigma: hoopStress.show({ N, t }) }) }
  })
}

/** Design strength of the wall's plain concrete. */
export const wallStrength = (shaft: Shaft, ground: Ground): Answer<'Pa'> =>
  plainStrength.show({
    alpha: PLAIN,
    f_ck: knownOr(shaft.wall.strength, 'Pa', '/shaft/wall/strength'),
    gamma_c: factorOf(ground, 'ringConcrete'),
  })

const wallSubject = { pointer: '/shaft/wall', id: 'wall', name: 'Shaft wall' }
const levelText = (z: Answer<'m'>): string => `z ${(z.value as number).toFixed(1)} m`

/** A wall with what stands outside it. */
export interface RingCase {
  shaft: Shaft
  ground: Ground
  ring: WallRing
  levels: readonly RingLevel[]
  near: number
}

/** Checks of the wall as a ring: stress, thickness, closed overlap, out of round, buckling. Practice 57, 58, 59. */
export function ringChecks(c: RingCase): Check[] {
  if (c.levels.length === 0) return []
  return [stressCheck(c), bendingCheck(c), ...overlapChecks(c), ...overlapChanceChecks(c), bucklingCheck(c)]
}

function ringNotes({ shaft, ground }: RingCase) {
  return {
    assumptions: [
      restingOn(ground, 'G1', 'G2', 'G3', 'G5', 'G7'),
      `Earth pressure ${ground.earthPressure ?? 'in a state nobody has chosen'}; aquifers at high tide; no arching, no slab, no lining counted.`,
      surchargeText(ground),
      ...(shaft.wall.kind === 'secant piles' || shaft.wall.kind === 'slurry panels' ? [surveyText(shaft.wall)] : []),
    ],
    cautions: [SOIL, RING],
  }
}

const stressesOf = (levels: readonly RingLevel[]) =>
  largestOf(
    'hoop stress over depth, load factor in',
    'Pa',
    levels.map((l): Term<'Pa'> => ({ label: `${l.at.layer}, ${levelText(l.at.z)}`, answer: l.stress })),
  )

/** The level whose stress governs; while it is not known everywhere, the deepest of those at which it is not. */
export function governingLevel(levels: readonly RingLevel[]): RingLevel {
  const answer = governing(stressesOf(levels))?.answer
  const governs = levels.find((l) => l.stress === answer && answer?.value !== undefined)
  return governs ?? (levels.findLast((l) => l.stress.value === undefined) as RingLevel)
}

function stressCheck(c: RingCase): Check {
  const worst = governingLevel(c.levels)
  return check({
    kind: kinds.ringStress,
    subject: wallSubject,
    title: `${kinds.ringStress.title}: ${worst.at.layer}, ${levelText(worst.at.z)}`,
    demand: stressesOf(c.levels),
    capacity: wallStrength(c.shaft, c.ground),
    near: c.near,
    ...ringNotes(c),
  })
}

function overlapChecks(c: RingCase): Check[] {
  const worst = governingLevel(c.levels)
  const needed = thicknessNeeded.show({
    gamma_F: factorOf(c.ground, 'ringLoad'),
    N: worst.thrust,
    f_cd: wallStrength(c.shaft, c.ground),
  })
  const thickness = check({
    kind: kinds.overlapThickness,
    subject: wallSubject,
    title: `${kinds.overlapThickness.title}: ${levelText(worst.at.z)}`,
    demand: needed,
    capacity: worst.thickness,
    near: c.near,
    ...ringNotes(c),
  })
  return [thickness, ...closedChecks(c)]
}

/** Piles that still meet, panels that have not parted farther than they overlap. */
function closedChecks(c: RingCase): Check[] {
  const { wall } = c.shaft
  const { spacingAt, openingAt } = c.ring
  if (spacingAt !== undefined)
    return [closedCheck(c, atAnyLevel(c, spacingAt), knownOr(wall.pileDiameter, 'm', '/shaft/wall/pileDiameter'))]
  if (openingAt === undefined) return []
  return [closedCheck(c, atAnyLevel(c, openingAt), knownOr(wall.jointOverlap, 'm', '/shaft/wall/jointOverlap'))]
}

/** By tolerance neighbours part most at the toe; as surveyed they may at the head, or where one turns. */
function atAnyLevel({ shaft }: RingCase, of: (z: Answer<'m'>) => Answer<'m'>): Answer<'m'> {
  const { collar, wall } = shaft
  if (surveyedElements(shaft) === undefined) return of(wall.toe)
  const levels = [collar, ...surveyedTurns(shaft, collar, wall.toe), wall.toe]
  return largestOf(
    'over the levels surveyed and the toe',
    'm',
    levels.map((z): Term<'m'> => ({ label: levelText(z), answer: of(z) })),
  )
}

function closedCheck(c: RingCase, demand: Answer<'m'>, capacity: Answer<'m'>): Check {
  const { wall } = c.shaft
  return check({
    kind: kinds.overlapClosed,
    subject: wallSubject,
    demand,
    capacity,
    near: c.near,
    assumptions: [
      surveyText(wall),
      ...(wall.kind === 'slurry panels'
        ? ['Neighbours meet at the guide wall; a panel turned about its own axis is not seen.']
        : []),
      restingOn(c.ground, 'G7'),
    ],
    cautions: [SOIL, 'Measured verticality replaces the tolerance as soon as a pile is bored or a panel is dug.'],
  })
}

/** Out of round bends the whole ring, so its stiffness is that of the nominal overlap; the thinnest joint must carry it. */
function bendingCheck(c: RingCase): Check {
  const gamma_F = factorOf(c.ground, 'ringLoad')
  const w_0 = knownOr(c.shaft.wall.outOfRound, 'm', '/shaft/wall/outOfRound')
  const f_cd = wallStrength(c.shaft, c.ground)
  const p_cr = bucklingPressure(c)
  const cases = c.levels
    .filter((l) => l.at.lateral.value !== 0)
    .map((l) => {
      const M = factoredMoment.show({
        gamma_F,
        M: outOfRound.show({ p: l.at.lateral, r: c.ring.meanRadius, w_0, p_cr }),
      })
      const N = factoredThrust.show({ gamma_F, N: l.thrust })
      return { at: l.at, N, resistance: eccentricResistance.show({ f_cd, t: l.thickness, M, N }) }
    })
  const use = (i: (typeof cases)[number]) => (i.N.value ?? Number.NaN) / (i.resistance.value ?? Number.NaN)
  const worst = cases.reduce((a, b) => (use(b) > use(a) || Number.isNaN(use(b)) ? b : a))
  return check({
    kind: kinds.ringBending,
    subject: wallSubject,
    title: `${kinds.ringBending.title}: ${worst.at.layer}, ${levelText(worst.at.z)}`,
    demand: worst.N,
    capacity: worst.resistance,
    near: c.near,
    ...ringNotes(c),
  })
}

/** Pressure at which the ring buckles without help from the ground, long-term modulus. */
export const bucklingPressure = ({ shaft, ring }: Pick<RingCase, 'shaft' | 'ring'>): Answer<'Pa'> =>
  buckling.show({
    E: knownOr(shaft.wall.youngLong, 'Pa', '/shaft/wall/youngLong'),
    t: ring.nominal,
    r: ring.meanRadius,
  })

function bucklingCheck(c: RingCase): Check {
  const gamma = factorOf(c.ground, 'buckling')
  const pressures = c.levels.map(
    (l): Term<'Pa'> => ({ label: `${l.at.layer}, ${levelText(l.at.z)}`, answer: l.at.lateral }),
  )
  return check({
    kind: kinds.ringBuckling,
    subject: wallSubject,
    demand: factored.show({ gamma, p: largestOf('pressure over depth', 'Pa', pressures) }),
    capacity: bucklingPressure(c),
    near: c.near,
    assumptions: [
      'Free ring, long-term modulus, thickness of the nominal overlap all round: one thin joint is a hinge, not a thin ring.',
      restingOn(c.ground, 'G3', 'G5', 'G7'),
    ],
    cautions: [SOIL, RING],
  })
}
