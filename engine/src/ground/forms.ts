import type { Cradle, Ground, Machine, Shaft } from '../model/index.ts'
import { type Answer, knownOr, stated } from '../working/answer.ts'
import {
  flotation,
  headLost,
  hydraulicHeave,
  netPressure,
  plugMomentCentre,
  plugMomentEdge,
  thicknessOf,
} from './base.formulas.ts'
import { basePlug } from './base.ts'
import {
  generalBearing,
  weightFactorAnnexD,
  weightFactorHansen,
  weightFactorMeyerhof,
  weightFactorVesic,
} from './bearing.formulas.ts'
import { projectedPressure, slideIn, stripNormal, stripPush } from './cradle.formulas.ts'
import type { CradleCase } from './cradle.ts'
import { bjerrumEide, meanUnitWeight, sideShearHeave, stabilityNumber, terzaghiHeave } from './heave.formulas.ts'
import { cutWidth, type HeaveCase, heaveCase } from './heave.ts'
import { inflowForms } from './inflow.ts'
import { layersDown, waterWeight } from './pressure.ts'
import { edgeStress, inwardMovement, lame, outOfRound } from './ring.formulas.ts'
import { bucklingPressure, governingLevel, type RingLevel } from './ring.ts'
import { half, innerFaceOf, twice } from './wall.formulas.ts'
import type { WallRing } from './wall.ts'

/** The same question by another form: to compare with a check, never to choose the kindest. */
export interface OtherForm {
  /** Kind of the check beside which it stands. */
  of: string
  title: string
  answer: Answer
}

interface FormsCase {
  shaft: Shaft
  ground: Ground
  ring: WallRing
  levels: readonly RingLevel[]
  /** Surcharge in the heave check. */
  surcharge: Answer<'Pa'>
}

/** Other forms of the checks of shaft and base; one outside its limits says so by being unknown. */
export function otherForms(c: FormsCase): OtherForm[] {
  return [
    ...ringForms(c),
    ...heaveForms(c),
    ...gradientForms(c),
    ...slabForms(c),
    ...inflow(c),
    ...bearingForms(c.ground),
  ]
}

const inflow = ({ shaft, ground, ring }: FormsCase) => inflowForms(shaft, ground, ring.outerRadius)

const NU = stated('1', 0.2, "Poisson's ratio of uncracked concrete, EN 1992-1-1 3.1.3 (4) (from memory)")

/** The governing level as a thick ring. */
function ringForms({ shaft, ring, levels }: FormsCase): OtherForm[] {
  if (levels.length === 0) return []
  const { at, thickness: t, thrust: N } = governingLevel(levels)
  const r_o = ring.outerRadius
  const r_i = innerFaceOf.show({ r_o, t })
  const none = stated('Pa', 0, 'the shaft is empty')
  const sigma = lame.show({ p_o: at.lateral, p_i: none, r_i, r_o, r: r_i })
  const E = knownOr(shaft.wall.youngLong, 'Pa', '/shaft/wall/youngLong')
  return [
    { of: 'ground.ring.stress', title: 'Thick ring (Lamé): stress at the inner face, no factor', answer: sigma },
    {
      of: 'ground.ring.stress',
      title: 'Thick ring (Lamé): inward movement of the inner face, long term',
      answer: inwardMovement.show({ sigma, r_i, E, nu: NU }),
    },
    {
      of: 'ground.ring.bending',
      title: 'Largest edge stress from thrust and the ring out of round, no factor',
      answer: edgeStress.show({
        N,
        M: outOfRound.show({
          p: at.lateral,
          r: ring.meanRadius,
          w_0: knownOr(shaft.wall.outOfRound, 'm', '/shaft/wall/outOfRound'),
          p_cr: bucklingPressure({ shaft, ring }),
        }),
        t,
      }),
    },
  ]
}

/** The two forms of the code on hydraulic failure give different answers: this is the one in total stress. */
function gradientForms({ shaft, ground }: FormsCase): OtherForm[] {
  const plug = basePlug(shaft, ground)
  const relied = plug?.states.at(-1)
  if (plug === undefined || relied === undefined) return []
  return [
    {
      of: 'ground.base.gradient',
      title: `Hydraulic failure in total stress (EN 1997-1 eq. 2.9a), use of the resistance, ${relied.name}`,
      answer: hydraulicHeave.show({
        gamma_dst: stated('1', 1.35, 'EN 1997-1 table A.17 (from memory); national annexes differ'),
        u: relied.pressure,
        gamma_stb: stated('1', 0.9, 'EN 1997-1 table A.17 (from memory); national annexes differ'),
        sigma: plug.weight,
      }),
    },
  ]
}

/** The three forms of the heave check differ by far more than the usual margin. */
function heaveForms({ shaft, ground, surcharge: q }: FormsCase): OtherForm[] {
  const base: HeaveCase | undefined = heaveCase(shaft, ground)
  if (base === undefined) return []
  const { c_u, N_c, H, B, sigma_v } = base
  const gamma = meanUnitWeight.show({ sigma_v, H })
  const of = 'ground.base.heave'
  return [
    { of, title: 'Bjerrum and Eide: strength below the base only', answer: bjerrumEide.show({ N_c, c_u, sigma_v, q }) },
    {
      of,
      title: 'With shear on the side of the sinking block',
      answer: sideShearHeave.show({ N_c, c_u, gamma, H, q, B }),
    },
    { of, title: 'Terzaghi, for cuts wider than deep', answer: terzaghiHeave.show({ c_u, gamma, H, B }) },
    { of, title: 'Stability number', answer: stabilityNumber.show({ sigma_v, q, c_u }) },
  ]
}

const CONCRETE = stated('N/m3', 24000, 'normal-weight concrete, EN 1991-1-1 table A.1 (from memory)')

/** Slab and wall under the head of the confined water, should the plug below them leak in time: the slab as a plate, the whole afloat. */
function slabForms({ shaft, ground, ring }: FormsCase): OtherForm[] {
  const head = Object.values(ground.water)
    .map((w) => w.head)
    .sort((x, y) => (y.value as number) - (x.value as number))[0]
  if (head === undefined) return []
  const gamma_w = waterWeight(ground)
  const h = headLost.show({ head, base: shaft.excavation })
  const p = netPressure.show({ gamma_w, h, gamma_c: CONCRETE, t: shaft.slabThickness })
  const a = half.show({ D: shaft.clearDiameter })
  const of = 'ground.slab.uplift'
  return [
    {
      of,
      title: 'Moment at the middle of the slab, edge free to turn, full head below it',
      answer: plugMomentCentre.show({ p, a, nu: NU }),
    },
    {
      of,
      title: 'Moment at the edge of the slab, built in, full head below it',
      answer: plugMomentEdge.show({ p, a }),
    },
    {
      of,
      title: 'The whole shaft afloat: weight of wall and slab over buoyancy, full head, no friction counted',
      answer: flotation.show({
        D_i: cutWidth(shaft),
        D_o: twice.show({ r: ring.outerRadius }),
        L: thicknessOf.show({ top: shaft.collar, bottom: shaft.wall.toe }),
        gamma_wall: CONCRETE,
        t: shaft.slabThickness,
        gamma_plug: CONCRETE,
        tau: stated('Pa', 0, 'none counted until decision G4 says so'),
        gamma_w,
        h,
      }),
    },
  ]
}

/** A base one metre square on the top layer, by author. */
function bearingForms(ground: Ground): OtherForm[] {
  const [top] = layersDown(ground)
  const phi = top?.is.phi
  if (top === undefined || phi === undefined) return []
  const of = 'ground.platform.bearing'
  const authors = [
    ['EN 1997-1 Annex D', weightFactorAnnexD],
    ['Vesić', weightFactorVesic],
    ['Hansen', weightFactorHansen],
    ['Meyerhof', weightFactorMeyerhof],
  ] as const
  const metre = stated('m', 1, 'one metre square')
  const all = generalBearing.show({
    phi,
    c: top.is.cohesion ?? stated('Pa', 0, 'no cohesion given'),
    q: stated('Pa', 0, 'no depth counted'),
    gamma: top.is.unitWeight,
    C_w: stated('1', 0.5, 'water at the base'),
    B: metre,
    L: metre,
    k: stated('1', 0, 'no depth counted'),
  })
  return [
    ...authors.map(([author, f]) => ({
      of,
      title: `Factor for weight in ${top.is.name}: ${author}`,
      answer: f.show({ phi }),
    })),
    { of, title: `Ultimate pressure of a base one metre square on ${top.is.name}, Vesić`, answer: all },
  ]
}

/** The cradle by other forms: pressure taken as even, and the thrust that slides the machine in. */
export function cradleForms(cradle: Cradle, machine: Machine, stands: CradleCase): OtherForm[] {
  const R = cradle.radius ?? half.show({ D: knownOr(machine.shieldDiameter, 'm', '/machine/shieldDiameter') })
  const mu = knownOr(cradle.friction, '1', '/cradle/friction')
  const level = stated('1', 0, 'cradle level')
  const of = 'ground.cradle.contact'
  const smooth = stated('1', 0, 'no friction counted')
  const N = stripNormal.show({ w: stands.along, beta: cradle.contactHalfAngle, mu: smooth })
  return [
    {
      of,
      title: 'Pressure of the saddle taken as even, where the load along is largest',
      answer: projectedPressure.show({ w: stands.along, R, alpha: cradle.contactHalfAngle }),
    },
    {
      of,
      title: 'Thrust that slides it along, as on two strips at the ends of the arc',
      answer: slideIn.show({ W: stands.weight, mu, beta: cradle.contactHalfAngle, i: level }),
    },
    { of, title: 'As on two strips at the ends of the arc, smooth: reaction of one', answer: N },
    {
      of,
      title: 'As on two strips at the ends of the arc, smooth: outward push of one, which tries to split the block',
      answer: stripPush.show({ N, beta: cradle.contactHalfAngle, mu: smooth }),
    },
  ]
}
