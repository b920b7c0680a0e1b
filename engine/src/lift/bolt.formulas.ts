import { formula, type Source } from '../working/formula.ts'

const en = (text: string): Source => ({ basis: 'memory', text: `EN 1993-1-8 ${text}` })
const aisc = (text: string): Source => ({
  basis: 'memory',
  text: `AISC 360-16 ${text}; 1.20 N_d of ASME BTH-1 3-3.2 in the place of Ω`,
})

/** Resistance of a bolt to tension. */
export const boltTension = formula({
  id: 'lift.bolt.tension-eurocode',
  title: 'Resistance of a bolt to tension',
  source: en('table 3.4: 0.9 f_ub A_s/γ_M2'),
  gives: ['F_t', 'N'],
  from: {
    f_ub: ['Pa', 'nominal tensile strength of the bolt'],
    A_s: ['m2', 'stress area'],
    gamma_M2: ['1', 'partial factor of the strength'],
  },
  as: '0.9 * f_ub * A_s / gamma_M2',
})

/** Resistance of a bolt to shear through its thread. */
export const boltShear = formula({
  id: 'lift.bolt.shear-eurocode',
  title: 'Resistance of a bolt to shear through its thread',
  source: en('table 3.4: α_v f_ub A_s/γ_M2, α_v 0.6 for class 8.8 and 0.5 for 10.9'),
  gives: ['F_v', 'N'],
  from: {
    alpha_v: ['1', 'factor of the class'],
    f_ub: ['Pa', 'nominal tensile strength of the bolt'],
    A_s: ['m2', 'stress area'],
    gamma_M2: ['1', 'partial factor of the strength'],
  },
  as: 'alpha_v * f_ub * A_s / gamma_M2',
})

/** Resistance of the plate to a bolt that bears on its hole. */
export const boltBearing = formula({
  id: 'lift.bolt.bearing-eurocode',
  title: 'Resistance of the plate to bearing of a bolt',
  source: en('table 3.4: k_1 α_b f_u d t/γ_M2, an edge bolt with the same edge both ways'),
  gives: ['F_b', 'N'],
  from: {
    d: ['m', 'bolt'],
    d_0: ['m', 'hole'],
    e: ['m', 'from the centre of the hole to the edge'],
    t: ['m', 'plate'],
    f_u: ['Pa', 'tensile strength of the plate'],
    f_ub: ['Pa', 'nominal tensile strength of the bolt'],
    gamma_M2: ['1', 'partial factor of the strength'],
  },
  where: {
    alpha_b: ['1', 'min(e / (3 * d_0), f_ub / f_u, 1)', 'α_b'],
    k_1: ['1', 'min(2.8 * e / d_0 - 1.7, 2.5)', 'k_1'],
  },
  as: 'k_1 * alpha_b * f_u * d * t / gamma_M2',
  valid: ['e >= 1.2 * d_0'],
})

/** What a bolt of a flange bears in tension when the flange bends and pries. */
export const tStub = formula({
  id: 'lift.bolt.t-stub',
  title: 'Tension that a bolt of a bending flange bears: T-stub',
  source: en('6.2.4, table 6.2: the least of modes 1, 2 and 3, for one of the two bolts of a row'),
  gives: ['F', 'N'],
  from: {
    F_t: ['N', 'resistance of a bolt to tension'],
    l: ['m', 'effective length of flange for the row'],
    t: ['m', 'flange'],
    m: ['m', 'from the bolt to the web'],
    e: ['m', 'from the bolt to the free edge'],
    f_y: ['Pa', 'yield strength of the flange'],
    gamma_M0: ['1', 'partial factor of the strength'],
  },
  where: {
    M_pl: ['N m', '0.25 * l * t^2 * f_y / gamma_M0', 'plastic moment of the flange'],
    n: ['m', 'min(e, 1.25 * m)', 'lever of the prying force'],
    F_1: ['N', '4 * M_pl / m', 'mode 1: the flange yields'],
    F_2: ['N', '(2 * M_pl + 2 * n * F_t) / (m + n)', 'mode 2: bolts break while the flange yields'],
  },
  as: 'min(F_1 / 2, F_2 / 2, F_t)',
  valid: ['m > 0', 'e > 0'],
})

/** Use of a bolt in shear and tension. */
export const boltUseByEurocode = formula({
  id: 'lift.bolt.use-eurocode',
  title: 'Use of the worst bolt, EN 1993-1-8',
  source: en('table 3.4: F_v/F_v,Rd + F_t/(1.4 F_t,Rd); tension with prying; bearing'),
  gives: ['u', '1'],
  from: {
    V: ['N', 'shear of the bolt'],
    T: ['N', 'tension of the bolt'],
    F_v: ['N', 'resistance to shear'],
    F_t: ['N', 'resistance to tension'],
    F_p: ['N', 'tension that it bears with prying'],
    F_b: ['N', 'resistance of the plate to bearing'],
    gamma_F: ['1', 'factor on the load'],
  },
  as: 'gamma_F * max(V / F_v + T / (1.4 * F_t), T / F_p, V / F_b)',
})

/** Slip of a preloaded bolt. */
export const boltSlip = formula({
  id: 'lift.bolt.slip-eurocode',
  title: 'Resistance of a preloaded bolt to slip under tension',
  source: en('3.9.2, category C: μ (F_p,C − 0.8 F_t,Ed)/γ_M3, normal holes, one face'),
  gives: ['F_s', 'N'],
  from: {
    mu: ['1', 'friction of the faces'],
    F_p: ['N', 'preload'],
    T: ['N', 'tension of the bolt'],
    gamma_F: ['1', 'factor on the load'],
    gamma_M3: ['1', 'partial factor of the strength'],
  },
  as: 'mu * max(0 * F_p, F_p - 0.8 * gamma_F * T) / gamma_M3',
})

/** What a bolt bears in tension with prying, by US rules. */
export const pryingByAisc = formula({
  id: 'lift.bolt.prying-aisc',
  title: 'Tension that a bolt of a bending flange bears, AISC Manual part 9',
  source: aisc('and Manual part 9: B Q with t_c = √(4 N_d B b′/(p F_u))'),
  gives: ['T_a', 'N'],
  from: {
    B: ['N', 'allowable tension of the bolt'],
    t: ['m', 'flange'],
    b: ['m', 'from the bolt to the web'],
    a: ['m', 'from the bolt to the free edge'],
    p: ['m', 'length of flange to a bolt'],
    d: ['m', 'bolt'],
    d_h: ['m', 'hole'],
    F_u: ['Pa', 'tensile strength of the flange'],
    N_d: ['1', 'design factor'],
  },
  where: {
    b_1: ['m', 'b - d / 2', "b'"],
    a_1: ['m', 'min(a, 1.25 * b) + d / 2', "a'"],
    delta: ['1', '1 - d_h / p', 'δ'],
    t_c: ['m', 'sqrt(4 * N_d * B * b_1 / (p * F_u))', 'flange without prying'],
    alpha: ['1', '((t_c / t)^2 - 1) / (delta * (1 + b_1 / a_1))', "α'"],
  },
  as: 'B * if(alpha <= 0, 1, (t / t_c)^2 * (1 + delta * min(alpha, 1)))',
  valid: ['b > d / 2', 'p > d_h'],
})

/** Allowable tension of a bolt by US rules. */
export const allowableTension = formula({
  id: 'lift.bolt.tension-aisc',
  title: 'Allowable tension of a bolt',
  source: aisc('J3.6: 0.75 F_u on the nominal area'),
  gives: ['B', 'N'],
  from: { F_u: ['Pa', 'tensile strength of the bolt'], d: ['m', 'bolt'], N_d: ['1', 'design factor'] },
  as: '0.75 * F_u * pi * d^2 / 4 / (1.20 * N_d)',
})

/** Use of a bolt in shear and tension by US rules. */
export const boltUseByAisc = formula({
  id: 'lift.bolt.use-aisc',
  title: 'Use of the worst bolt, AISC 360 J3',
  source: aisc(
    'J3.6, J3.7 and J3.10: threads in the shear plane, F_nv = 0.45 F_u; bearing 1.2 l_c t F_u up to 2.4 d t F_u',
  ),
  gives: ['u', '1'],
  from: {
    V: ['N', 'shear of the bolt'],
    T: ['N', 'tension of the bolt'],
    F_u: ['Pa', 'tensile strength of the bolt'],
    d: ['m', 'bolt'],
    d_h: ['m', 'hole'],
    e: ['m', 'from the centre of the hole to the edge'],
    t: ['m', 'plate'],
    F_up: ['Pa', 'tensile strength of the plate'],
    T_a: ['N', 'tension that it bears with prying'],
    N_d: ['1', 'design factor'],
  },
  where: {
    A_b: ['m2', 'pi * d^2 / 4', 'nominal area'],
    u_v: ['1', '1.20 * N_d * V / (0.45 * F_u * A_b)', 'use in shear'],
    F_nt: ['Pa', 'max(0.01, min(1, 1.3 - u_v)) * 0.75 * F_u', 'nominal tension beside that shear'],
    R_n: ['N', 'min(1.2 * (e - d_h / 2), 2.4 * d) * t * F_up', 'bearing and tear-out'],
  },
  as: 'max(u_v, 1.20 * N_d * T / (F_nt * A_b), T / T_a, 1.20 * N_d * V / R_n)',
  valid: ['e > d_h / 2'],
})

/** Slip by US rules. */
export const boltSlipByAisc = formula({
  id: 'lift.bolt.slip-aisc',
  title: 'Allowable slip load of a pretensioned bolt beside its tension',
  source: {
    basis: 'memory',
    text: 'AISC 360-16 J3.8 and J3.9: μ 1.13 T_b (1 − 1.5 T/(1.13 T_b))/1.50, standard holes, one face',
  },
  gives: ['F_s', 'N'],
  from: { mu: ['1', 'friction of the faces'], T_b: ['N', 'pretension'], T: ['N', 'tension of the bolt'] },
  as: 'mu * max(0 * T_b, 1.13 * T_b - 1.5 * T) / 1.50',
})
