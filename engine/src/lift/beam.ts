import { type Answer, knownOr, leastOf, stated } from '../working/answer.ts'
import { type Check, type CheckKind, check, type Subject } from '../working/check.ts'
import {
  beamUseByEurocode,
  bucklingMoment,
  classedModulus,
  compressionResistance,
  criticalMoment,
  shearResistance,
  webBearing,
} from './beam.formulas.ts'
import { betweenFlanges, factored, sagAllowed } from './beamLoad.formulas.ts'
import {
  allowableCompression,
  allowableShear,
  beamUseByBth,
  compactModulus,
  nominalMoment,
  nominalMomentOfBox,
  slenderness,
  webYielding,
} from './beamUs.formulas.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { tooMuch, usedUp } from './cure.ts'
import { beamBearing, beamSag, beamShear, beamUse } from './kinds.ts'
import type { Pick } from './pick.ts'
import { type Beam, type Section, sectionOf } from './section.ts'
import { byRules, DESIGN_FACTOR, GAMMA_M0, LOAD_FACTOR, unchosen, WHOLE } from './structure.ts'

/** What uses the strength of a beam at its worst place. */
interface Forces {
  compression: Answer<'N'>
  moment: Answer<'N m'>
  shear: Answer<'N'>
}

/** How far a beam is free to buckle. */
export interface Unheld {
  /** Between points held against turning sideways, and for buckling in compression. */
  length: Answer<'m'>
  /** Load above the shear centre, with the factors of the shape of the moment. */
  shape: { z_g: Answer<'m'>; C_1: Answer<'1'>; C_2: Answer<'1'> }
}

/** What a beam carries at its worst place, under the load as it is. */
export interface BeamLoad extends Forces, Unheld {
  /** Largest force at one point. */
  point: Answer<'N'>
  sag: Answer<'m'>
  /** What its sag is a share of. */
  span: Answer<'m'>
  /** Factors on the load and in place of the design factor, where they are not those of lifting gear. */
  factors?: { gamma_F: Answer<'1'>; N_d: Answer<'1'> }
  assumptions: readonly string[]
}

/** A uniform moment over the length and the load at the shear centre: the cautious side for what hangs below its hold. */
export const UNIFORM = {
  z_g: stated('m', 0, 'load at the shear centre'),
  C_1: stated('1', 1, 'moment taken as uniform over the length, which is the cautious side'),
  C_2: stated('1', 0, 'no share of the height of the load'),
}

export const STEEL = stated('Pa', 210e9, 'modulus of elasticity of steel, EN 1993-1-1 3.2.6')
const SHEAR_MODULUS = stated('Pa', 81e9, 'shear modulus of steel, EN 1993-1-1 3.2.6')
const F_0 = stated('Pa', 235e6, '235 N/mm², EN 1993-1-1 table 5.2')
const GAMMA_M1 = stated('1', 1, 'EN 1993-1-1 6.1: γ_M1 = 1.00 (recommended value, from memory)')
const C_B = stated('1', 1, 'C_b = 1, which is the cautious side')

/** Strength, shear, bearing and sag of a beam by the rules of the project. */
export function beamChecks(
  pick: Pick,
  name: { subject: Subject; of: string; title: string },
  beam: Beam,
  at: string,
  load: BeamLoad,
): Check[] {
  const section = sectionOf(beam)
  const shared = {
    subject: name.subject,
    of: name.of,
    near: pick.near,
    assumptions: load.assumptions,
    cautions: STRENGTH_CAUTIONS,
  }
  const titled = (kind: CheckKind) => ({ kind, ...shared, title: `${kind.title}: ${name.title}` })
  const { gamma_F, N_d } = load.factors ?? { gamma_F: LOAD_FACTOR, N_d: DESIGN_FACTOR }
  const resists = { pick, beam, section, unheld: load, gamma_F, N_d }
  const use = useUnder(resists)(load)
  const against = (kind: CheckKind, demand: Answer, capacity: Answer, cure: string): Check =>
    check({ ...titled(kind), demand, capacity, found: tooMuch(demand, capacity, cure) })
  return [
    check({ ...titled(beamUse), demand: use, capacity: WHOLE, found: usedUp(use, BEAM_CURES.use) }),
    against(beamShear, onLoad(resists, load.shear), shearOf(resists), BEAM_CURES.shear),
    against(beamBearing, onLoad(resists, load.point), bearingOf(resists, at), BEAM_CURES.bearing),
    against(
      beamSag,
      load.sag,
      sagAllowed.show({ L: load.span, s: knownOr(beam.sag, '1', `${at}/sag`) }),
      BEAM_CURES.sag,
    ),
  ]
}

const BEAM_CURES = {
  use: 'a heavier section, a shorter span, more points held against turning sideways, or stronger steel',
  shear: 'a deeper or thicker web, or a section with two webs',
  bearing: 'a longer bearing, a thicker web, or stiffeners worked by a structural engineer',
  sag: 'a deeper section or a shorter span',
}

/** Of some forces those that use a beam the most, or the first whose use is open; undefined where there are none. */
export function mostUsing<F extends Forces>(
  pick: Pick,
  beam: Beam,
  unheld: Unheld,
  forces: readonly F[],
): F | undefined {
  const use = useUnder({ pick, beam, section: sectionOf(beam), unheld, gamma_F: LOAD_FACTOR, N_d: DESIGN_FACTOR })
  let most: { of: F; use: number } | undefined
  for (const of of forces) {
    const { value } = use(of)
    if (value === undefined) return of
    if (most === undefined || value > most.use) most = { of, use: value }
  }
  return most?.of
}

interface Resists {
  pick: Pick
  beam: Beam
  section: Section
  unheld: Unheld
  gamma_F: Answer<'1'>
  N_d: Answer<'1'>
}

/** The load as the rules count it: with its factor where they have one on that side. */
const onLoad = ({ pick, gamma_F }: Resists, F: Answer<'N'>): Answer<'N'> =>
  byRules(pick, { European: (): Answer<'N'> => factored.show({ F, k: gamma_F }), US: () => F, open: () => F })

const openForce = (): Answer<'N'> => factored.show({ F: stated('N', 1, 'one'), k: unchosen() })

type Use = (forces: Forces) => Answer<'1'>

/** Use of a beam under any forces: what it resists is worked once. */
function useUnder(resists: Resists): Use {
  return byRules<Use>(resists.pick, {
    European: () => useByEurocode(resists),
    US: () => useByBth(resists),
    open: () => unchosen,
  })
}

function useByEurocode({ beam, section, unheld, gamma_F }: Resists): Use {
  const f_y = beam.yield
  const { I_z, I_t, I_w, A } = section
  const W = modulusOf(beam, section)
  const M_cr = criticalMoment.show({
    E: STEEL,
    G: SHEAR_MODULUS,
    I_z,
    I_t,
    I_w,
    L: unheld.length,
    ...unheld.shape,
  })
  const alpha = imperfectionOf(beam)
  const resistance = {
    N_b: compressionResistance.show({
      A,
      I: smallerOf(section),
      L: unheld.length,
      E: STEEL,
      f_y,
      alpha: COMPRESSION_CURVE,
      gamma_M1: GAMMA_M1,
    }),
    M_b: bucklingMoment.show({ W, f_y, M_cr, alpha, gamma_M1: GAMMA_M1 }),
    V_Rd: shearByEurocode(beam, section),
    W,
    f_y,
    gamma_M0: GAMMA_M0,
    gamma_F,
  }
  return ({ compression, moment, shear }) =>
    beamUseByEurocode.show({ N: compression, M: moment, V: shear, ...resistance })
}

const smallerOf = ({ I_y, I_z }: Section): Answer<'m4'> =>
  leastOf('Smaller second moment of area', 'm4', [
    { label: 'strong axis', answer: I_y },
    { label: 'weak axis', answer: I_z },
  ])

const COMPRESSION_CURVE = stated(
  '1',
  0.49,
  'curve c: EN 1993-1-1 table 6.2, the lowest of welded I-sections and boxes of ordinary plates (from memory)',
)

/** Of lateral-torsional buckling, general case. */
function imperfectionOf({ section }: Beam): Answer<'1'> {
  const slim = (section.depth.value as number) <= 2 * (section.width.value as number)
  const [alpha, curve] =
    section.kind === 'box'
      ? [0.76, 'd']
      : section.made === 'rolled'
        ? slim
          ? [0.21, 'a']
          : [0.34, 'b']
        : slim
          ? [0.49, 'c']
          : [0.76, 'd']
  return stated('1', alpha as number, `curve ${curve}: EN 1993-1-1 tables 6.3 and 6.4 (from memory)`)
}

const limit = (value: number): Answer<'1'> => stated('1', value, 'EN 1993-1-1 table 5.2 (from memory)')

function modulusOf(beam: Beam, { W_pl, W_el, s_w, s_f }: Section): Answer<'m3'> {
  const box = beam.section.kind === 'box'
  return classedModulus.show({
    W_pl,
    W_el,
    s_w,
    s_f,
    k_w2: limit(83),
    k_w3: limit(124),
    k_f2: limit(box ? 38 : 10),
    k_f3: limit(box ? 42 : 14),
    f_y: beam.yield,
    f_0: F_0,
  })
}

const shearByEurocode = (beam: Beam, { A_w, s_w }: Section): Answer<'N'> =>
  shearResistance.show({ A_w, s_w, f_y: beam.yield, f_0: F_0, gamma_M1: GAMMA_M1 })

function shearOf({ pick, beam, section, N_d }: Resists): Answer<'N'> {
  return byRules<Answer<'N'>>(pick, {
    European: () => shearByEurocode(beam, section),
    US: () => allowableShear.show({ A_w: section.A_w, s_w: section.s_w, F_y: beam.yield, E: STEEL, N_d }),
    open: openForce,
  })
}

function useByBth({ beam, section, unheld, N_d }: Resists): Use {
  const F_y = beam.yield
  const s = slenderness.show({ L: unheld.length, I: smallerOf(section), A: section.A })
  const resistance = {
    A: section.A,
    F_a: allowableCompression.show({ s, F_y, E: STEEL, N_d }),
    M_n: momentByAisc(beam, section, unheld.length),
    s,
    E: STEEL,
    N_d,
  }
  return ({ compression, moment }) => beamUseByBth.show({ N: compression, M: moment, ...resistance })
}

const compact = (value: number): Answer<'1'> => stated('1', value, 'AISC 360-16 table B4.1b (from memory)')

function momentByAisc(beam: Beam, section: Section, L_b: Answer<'m'>): Answer<'N m'> {
  const box = beam.section.kind === 'box'
  const { W_pl, W_el, s_w, s_f, I_z, I_t, I_w, A } = section
  const Z_x = compactModulus.show({
    W_pl,
    s_w,
    s_f,
    k_w: compact(box ? 2.42 : 3.76),
    k_f: compact(box ? 1.12 : 0.38),
    E: STEEL,
    F_y: beam.yield,
  })
  const common = { E: STEEL, F_y: beam.yield, Z_x, S_x: W_el, I_y: I_z, J: I_t, A, L_b, C_b: C_B }
  if (box) return nominalMomentOfBox.show(common)
  const h_o = betweenFlanges.show({ h: beam.section.depth, t_f: beam.section.flange })
  return nominalMoment.show({ ...common, C_w: I_w, h_o })
}

function bearingOf({ pick, beam, section, N_d }: Resists, at: string): Answer<'N'> {
  const { width: b, flange: t_f, web: t_w } = beam.section
  const length = knownOr(beam.bearing, 'm', `${at}/bearing`)
  const n = section.webs
  return byRules<Answer<'N'>>(pick, {
    European: () =>
      webBearing.show({ s_s: length, b, t_f, t_w, h_w: section.h_w, n, f_y: beam.yield, E: STEEL, gamma_M1: GAMMA_M1 }),
    US: () => webYielding.show({ l_b: length, t_f, t_w, n, F_y: beam.yield, N_d }),
    open: openForce,
  })
}
