import { formula, type Source } from '../working/formula.ts'

const bth = (text: string): Source => ({ basis: 'memory', text: `ASME BTH-1 ${text}` })

/** Nominal moment of a compact I-section. */
export const nominalMoment = formula({
  id: 'lift.beam.nominal-moment',
  title: 'Nominal moment of a compact I-section, AISC 360 F2',
  source: {
    basis: 'read',
    text: 'AISC 360 F2.1 and F2.2 (eqs. F2-1 to F2-6) in a handbook that prints them, with c = 1; limits of compact plates, table B4.1b, from memory',
  },
  gives: ['M_n', 'N m'],
  from: {
    E: ['Pa', 'modulus of elasticity'],
    F_y: ['Pa', 'yield strength'],
    Z_x: ['m3', 'plastic modulus'],
    S_x: ['m3', 'elastic modulus'],
    I_y: ['m4', 'second moment of area about the weak axis'],
    C_w: ['m6', 'warping constant'],
    J: ['m4', 'torsion constant'],
    A: ['m2', 'area'],
    h_o: ['m', 'between the middles of the flanges'],
    L_b: ['m', 'unbraced length'],
    C_b: ['1', 'factor of the shape of the moment'],
  },
  where: {
    r_y: ['m', 'sqrt(I_y / A)', 'radius of gyration about the weak axis'],
    r_ts: ['m', 'sqrt(sqrt(I_y * C_w) / S_x)', 'effective radius of gyration'],
    L_p: ['m', '1.76 * r_y * sqrt(E / F_y)', 'limit of yielding'],
    q: ['1', 'J / (S_x * h_o)', 'torsion over bending'],
    L_r: [
      'm',
      '1.95 * r_ts * E / (0.7 * F_y) * sqrt(q + sqrt(q^2 + 6.76 * (0.7 * F_y / E)^2))',
      'limit of inelastic buckling',
    ],
    M_p: ['N m', 'F_y * Z_x', 'plastic moment'],
    F_cr: ['Pa', 'C_b * pi^2 * E / (L_b / r_ts)^2 * sqrt(1 + 0.078 * q * (L_b / r_ts)^2)', 'elastic buckling stress'],
  },
  as: 'if(L_b <= L_p, M_p, if(L_b <= L_r, min(M_p, C_b * (M_p - (M_p - 0.7 * F_y * S_x) * (L_b - L_p) / (L_r - L_p))), min(M_p, F_cr * S_x)))',
  valid: ['L_b > 0'],
})

/** Nominal moment of a compact box. */
export const nominalMomentOfBox = formula({
  id: 'lift.beam.nominal-moment-box',
  title: 'Nominal moment of a compact box, AISC 360 F7',
  source: { basis: 'memory', text: 'AISC 360-16 F7.1 and F7.4 (eqs. F7-10 to F7-13)' },
  gives: ['M_n', 'N m'],
  from: {
    E: ['Pa', 'modulus of elasticity'],
    F_y: ['Pa', 'yield strength'],
    Z_x: ['m3', 'plastic modulus'],
    S_x: ['m3', 'elastic modulus'],
    I_y: ['m4', 'second moment of area about the weak axis'],
    J: ['m4', 'torsion constant'],
    A: ['m2', 'area'],
    L_b: ['m', 'unbraced length'],
    C_b: ['1', 'factor of the shape of the moment'],
  },
  where: {
    r_y: ['m', 'sqrt(I_y / A)', 'radius of gyration about the weak axis'],
    M_p: ['N m', 'F_y * Z_x', 'plastic moment'],
    L_p: ['m', '0.13 * E * r_y * sqrt(J * A) / M_p', 'limit of yielding'],
    L_r: ['m', '2 * E * r_y * sqrt(J * A) / (0.7 * F_y * S_x)', 'limit of inelastic buckling'],
  },
  as: 'if(L_b <= L_p, M_p, if(L_b <= L_r, min(M_p, C_b * (M_p - (M_p - 0.7 * F_y * S_x) * (L_b - L_p) / (L_r - L_p))), min(M_p, 2 * E * C_b * sqrt(J * A) * r_y / L_b)))',
  valid: ['L_b > 0'],
})

/** Allowable stress in compression. */
export const allowableCompression = formula({
  id: 'lift.beam.allowable-compression',
  title: 'Allowable stress in compression, ASME BTH-1',
  source: bth('3-2.2, eqs. 3-3 to 3-5'),
  gives: ['F_a', 'Pa'],
  from: {
    s: ['1', 'slenderness KL/r'],
    F_y: ['Pa', 'yield strength'],
    E: ['Pa', 'modulus of elasticity'],
    N_d: ['1', 'design factor'],
  },
  where: { C_c: ['1', 'sqrt(2 * pi^2 * E / F_y)', 'slenderness where the branches meet'] },
  as: 'if(s <= C_c, (1 - s^2 / (2 * C_c^2)) * F_y / (N_d * (1 + 9 * s / (40 * C_c) - 3 * s^3 / (40 * C_c^3))), pi^2 * E / (1.15 * N_d * max(s, 1)^2))',
  valid: ['s >= 0'],
})

/** Slenderness of a member in compression. */
export const slenderness = formula({
  id: 'lift.beam.slenderness',
  title: 'Slenderness',
  source: { basis: 'derived', text: 'length over the smaller radius of gyration' },
  gives: ['s', '1'],
  from: { L: ['m', 'buckling length'], I: ['m4', 'smaller second moment of area'], A: ['m2', 'area'] },
  as: 'L / sqrt(I / A)',
})

/** Use in compression and bending. */
export const beamUseByBth = formula({
  id: 'lift.beam.use-bth',
  title: 'Use of the beam in compression and bending, ASME BTH-1',
  source: bth('3-2.4, eqs. 3-29 and 3-31 with C_m = 1; moment of AISC 360 F over N_d'),
  gives: ['u', '1'],
  from: {
    N: ['N', 'compression'],
    M: ['N m', 'moment'],
    A: ['m2', 'area'],
    F_a: ['Pa', 'allowable stress in compression'],
    M_n: ['N m', 'nominal moment'],
    s: ['1', 'slenderness'],
    E: ['Pa', 'modulus of elasticity'],
    N_d: ['1', 'design factor'],
  },
  where: {
    n: ['1', 'N / (A * F_a)', 'use in compression'],
    F_e: ['Pa', 'pi^2 * E / (1.15 * N_d * max(s, 1)^2)', 'Euler stress over the design factor'],
  },
  as: 'n + M * N_d / M_n / (1 - N / A / F_e)',
  valid: ['N / A < pi^2 * E / (1.15 * N_d * max(s, 1)^2)'],
})

/** Allowable shear. */
export const allowableShear = formula({
  id: 'lift.beam.allowable-shear',
  title: 'Allowable shear, ASME BTH-1',
  source: bth('3-2.3.6: F_y/(N_d √3) where h/t ≤ 2.45 √(E/F_y)'),
  gives: ['V', 'N'],
  from: {
    A_w: ['m2', 'area of the webs'],
    s_w: ['1', 'web: height over thickness'],
    F_y: ['Pa', 'yield strength'],
    E: ['Pa', 'modulus of elasticity'],
    N_d: ['1', 'design factor'],
  },
  as: 'A_w * F_y / (N_d * sqrt(3))',
  valid: ['s_w <= 2.45 * sqrt(E / F_y)'],
})

/** Web under a force at one point. */
export const webYielding = formula({
  id: 'lift.beam.bearing-aisc',
  title: 'Allowable force at one point of the flange, AISC 360 J10.2',
  source: {
    basis: 'memory',
    text: 'AISC 360-16 J10.2, eq. J10-3 (near an end): F_y t_w (2.5 k + l_b), k the flange; N_d of ASME BTH-1 in the place of Ω',
  },
  gives: ['F', 'N'],
  from: {
    l_b: ['m', 'stiff length of the bearing'],
    t_f: ['m', 'flange'],
    t_w: ['m', 'one web'],
    n: ['1', 'webs'],
    F_y: ['Pa', 'yield strength'],
    N_d: ['1', 'design factor'],
  },
  as: 'n * F_y * t_w * (2.5 * t_f + l_b) / N_d',
})

/** Whether plates are compact, as a modulus. */
export const compactModulus = formula({
  id: 'lift.beam.compact-modulus',
  title: 'Plastic modulus of a section with compact plates',
  source: { basis: 'memory', text: 'AISC 360-16 table B4.1b; sections that are not compact are outside' },
  gives: ['Z', 'm3'],
  from: {
    W_pl: ['m3', 'plastic modulus'],
    s_w: ['1', 'web: height over thickness'],
    s_f: ['1', 'flange: width that can buckle over thickness'],
    k_w: ['1', 'limit of the web over √(E/F_y)'],
    k_f: ['1', 'limit of the flange over √(E/F_y)'],
    E: ['Pa', 'modulus of elasticity'],
    F_y: ['Pa', 'yield strength'],
  },
  as: 'W_pl',
  valid: ['s_w <= k_w * sqrt(E / F_y)', 's_f <= k_f * sqrt(E / F_y)'],
})
