import { formula } from '../working/formula.ts'

/** Part of a pull along one direction of a lug. */
export const pullAlong = formula({
  id: 'lift.lug.pull-along',
  title: 'Part of the pull along a direction of the lug',
  source: {
    basis: 'derived',
    text: 'pull × cosine; out of the plane at least 5 % of it (common practice, no source)',
  },
  gives: ['F', 'N'],
  from: {
    T: ['N', 'pull'],
    s: ['1', 'part of it that is there in this attitude'],
    k: ['1', 'cosine between pull and direction'],
    q: ['1', 'least that is taken'],
  },
  as: 'T * s * max(abs(k), q)',
})

/** Use of the foot of a lug: elastic stresses by EN 1993-1-1. */
export const footUseByEurocode = formula({
  id: 'lift.lug.foot-eurocode',
  title: 'Use of the plate at the foot of the lug, EN 1993-1-1',
  source: {
    basis: 'memory',
    text: 'EN 1993-1-1 6.2.1(5): √(σ² + 3τ²) ≤ f_y/γ_M0 at the corner of the foot; shear as a mean, which is the cautious side there',
  },
  gives: ['u', '1'],
  from: {
    F_s: ['N', 'pull along the lug, away from its foot'],
    F_c: ['N', 'pull across it, in its plane'],
    F_n: ['N', 'pull out of its plane'],
    h: ['m', 'from the foot to the centre of the hole'],
    B: ['m', 'width of the foot'],
    t: ['m', 'plate'],
    f_y: ['Pa', 'yield strength'],
    gamma_F: ['1', 'factor on the load'],
    gamma_M0: ['1', 'partial factor of the strength'],
  },
  where: {
    sigma: ['Pa', 'F_s / (B * t) + 6 * F_c * h / (t * B^2) + 6 * F_n * h / (B * t^2)', 'normal stress at the corner'],
    tau: ['Pa', 'sqrt(F_c^2 + F_n^2) / (B * t)', 'shear stress'],
  },
  as: 'gamma_F * sqrt(sigma^2 + 3 * tau^2) * gamma_M0 / f_y',
  valid: ['B > 0', 't > 0'],
})

/** Use of the foot of a lug: allowable stresses by ASME BTH-1. */
export const footUseByBth = formula({
  id: 'lift.lug.foot-bth',
  title: 'Use of the plate at the foot of the lug, ASME BTH-1',
  source: {
    basis: 'memory',
    text: 'ASME BTH-1 3-2.1, 3-2.3.4, 3-2.3.5 and 3-2.4: f_t/F_t + f_bx/F_bx + f_by/F_by ≤ 1 with F_y/N_d along and in plane, 1.25 F_y/N_d out of plane; shear F_y/(N_d √3)',
  },
  gives: ['u', '1'],
  from: {
    F_s: ['N', 'pull along the lug, away from its foot'],
    F_c: ['N', 'pull across it, in its plane'],
    F_n: ['N', 'pull out of its plane'],
    h: ['m', 'from the foot to the centre of the hole'],
    B: ['m', 'width of the foot'],
    t: ['m', 'plate'],
    F_y: ['Pa', 'yield strength'],
    N_d: ['1', 'design factor'],
  },
  where: {
    F_a: ['Pa', 'F_y / N_d', 'allowable stress'],
    u_b: [
      '1',
      'F_s / (B * t) / F_a + 6 * F_c * h / (t * B^2) / F_a + 6 * F_n * h / (B * t^2) / (1.25 * F_a)',
      'tension and bending both ways',
    ],
    u_v: ['1', 'sqrt(3) * sqrt(F_c^2 + F_n^2) / (B * t) / F_a', 'shear'],
  },
  as: 'max(u_b, u_v)',
  valid: ['B > 0', 't > 0'],
})

/** Length of a fillet that counts. */
export const filletLength = formula({
  id: 'lift.weld.length',
  title: 'Length of a fillet weld that counts',
  source: {
    basis: 'read',
    text: 'EN 1993-1-8 4.5.1 as a calculation page quotes it: length less two throats, at least six throats',
  },
  gives: ['L', 'm'],
  from: { l: ['m', 'length of the weld'], a: ['m', 'throat'] },
  as: 'l - 2 * a',
  valid: ['l >= 8 * a'],
})

/** Pull of the plate under a lug on one of two welds, along the lug. */
export const weldNormal = formula({
  id: 'lift.weld.normal',
  title: 'Force along the lug per length of one of its two welds, at the worst end',
  source: {
    basis: 'derived',
    text: 'elastic line welds on both faces of the plate: pull shared, bending in plane over their length, bending out of plane as a couple between them',
  },
  gives: ['n', 'N/m'],
  from: {
    F_s: ['N', 'pull along the lug, away from its foot'],
    F_c: ['N', 'pull across it, in its plane'],
    F_n: ['N', 'pull out of its plane'],
    h: ['m', 'from the foot to the centre of the hole'],
    L: ['m', 'length of each weld'],
    t: ['m', 'plate between them'],
  },
  as: 'F_s / (2 * L) + 3 * F_c * h / L^2 + F_n * h / (L * t)',
  valid: ['L > 0', 't > 0'],
})

/** Use of a fillet weld by the directional method. */
export const filletUseByEurocode = formula({
  id: 'lift.weld.fillet-eurocode',
  title: 'Use of a fillet weld, directional method of EN 1993-1-8',
  source: {
    basis: 'read',
    text: 'EN 1993-1-8 4.5.3.2 as a support page of a calculation program quotes it: √(σ² + 3(τ² + τ_1²)) ≤ f_u/(β_w γ_M2), σ ≤ 0.9 f_u/γ_M2; throat at 45°, the pull across to the worse side',
  },
  gives: ['u', '1'],
  from: {
    n: ['N/m', 'force along the lug per length of weld'],
    F_c: ['N', 'pull along the welds'],
    F_n: ['N', 'pull across them'],
    L: ['m', 'length of each of two welds'],
    a: ['m', 'throat'],
    f_u: ['Pa', 'tensile strength of the weaker plate'],
    beta_w: ['1', 'correlation factor'],
    gamma_M2: ['1', 'partial factor of the strength'],
    gamma_F: ['1', 'factor on the load'],
  },
  where: {
    s_1: ['Pa', '(n + F_n / (2 * L)) / (sqrt(2) * a)', 'larger of σ and τ, both square to the weld in its throat'],
    s_2: ['Pa', '(n - F_n / (2 * L)) / (sqrt(2) * a)', 'smaller of them'],
    tau: ['Pa', 'F_c / (2 * L * a)', 'τ_1, along the weld'],
    s_v: ['Pa', 'sqrt(max(s_1^2 + 3 * s_2^2, s_2^2 + 3 * s_1^2) + 3 * tau^2)', 'stress to compare'],
  },
  as: 'gamma_F * max(s_v * beta_w * gamma_M2 / f_u, s_1 * gamma_M2 / (0.9 * f_u))',
  valid: ['a > 0', 'L > 0'],
})

/** Use of a fillet weld by US rules. */
export const filletUseByAisc = formula({
  id: 'lift.weld.fillet-aisc',
  title: 'Use of a fillet weld, AISC 360 J2 with the design factor of ASME BTH-1',
  source: {
    basis: 'memory',
    text: 'AISC 360-16 J2.4: 0.60 F_EXX (1 + 0.50 sin^1.5 θ) on the throat; ASME BTH-1 3-3.4 sets 1.20 N_d in the place of Ω',
  },
  gives: ['u', '1'],
  from: {
    n: ['N/m', 'force along the lug per length of weld'],
    F_c: ['N', 'pull along the welds'],
    F_n: ['N', 'pull across them'],
    L: ['m', 'length of each of two welds'],
    a: ['m', 'throat'],
    F_EXX: ['Pa', 'tensile strength of the weld metal'],
    N_d: ['1', 'design factor'],
  },
  where: {
    c: ['N/m', 'sqrt(n^2 + (F_n / (2 * L))^2)', 'across the weld'],
    r: ['N/m', 'sqrt(c^2 + (F_c / (2 * L))^2)', 'resultant'],
    F_nw: ['Pa', '0.60 * F_EXX * (1 + 0.50 * (c / r)^1.5)', 'nominal stress at its angle'],
  },
  as: 'r * 1.20 * N_d / (F_nw * a)',
  valid: ['r > 0', 'a > 0'],
})

/** Use of the plate that a lug is welded to. */
export const parentUse = formula({
  id: 'lift.weld.parent',
  title: 'Use of the plate under the lug',
  source: {
    basis: 'derived',
    text: 'shear through the plate along the weld, and a strip as wide as the lug bending between what stiffens it; no spread to the sides, which is the cautious side',
  },
  gives: ['u', '1'],
  from: {
    F_s: ['N', 'pull along the lug, away from its foot'],
    F_c: ['N', 'pull across it, in its plane'],
    F_n: ['N', 'pull out of its plane'],
    h: ['m', 'from the foot to the centre of the hole'],
    L: ['m', 'length of the foot'],
    t: ['m', 'plate of the lug'],
    t_p: ['m', 'plate under it'],
    b: ['m', 'free span of that plate across the lug; zero where a stiffener stands under it'],
    f_y: ['Pa', 'yield strength of that plate'],
    k: ['1', 'factor between load and strength'],
  },
  where: {
    w: ['N/m', 'F_s / L + 6 * F_c * h / L^2', 'pull per length at the worse end'],
    tau: ['Pa', '(w / 2 + F_n * h / (L * t)) / t_p', 'shear through the plate'],
    sigma: [
      'Pa',
      'if(b > 0 * t, 6 * (w * b / 4 + F_n * h / (2 * L)) / t_p^2, 0 * f_y)',
      'bending of the strip between its stiffeners',
    ],
  },
  as: 'k * max(sqrt(3) * tau, sigma) / f_y',
  valid: ['t_p > 0', 'L > 0'],
})
