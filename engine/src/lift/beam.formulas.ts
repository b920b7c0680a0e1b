import { formula, type Source } from '../working/formula.ts'

const en = (text: string): Source => ({ basis: 'memory', text: `EN 1993-1-1 ${text}` })

/** Section modulus that the slenderness of the plates lets count. */
export const classedModulus = formula({
  id: 'lift.beam.modulus',
  title: 'Section modulus that counts, by the class of the section',
  source: en('5.5, table 5.2: plastic for classes 1 and 2, elastic for class 3; class 4 is outside'),
  gives: ['W', 'm3'],
  from: {
    W_pl: ['m3', 'plastic modulus'],
    W_el: ['m3', 'elastic modulus'],
    s_w: ['1', 'web: height over thickness'],
    s_f: ['1', 'flange: width that can buckle over thickness'],
    k_w2: ['1', 'limit of the web for class 2, at ε = 1'],
    k_w3: ['1', 'limit of the web for class 3'],
    k_f2: ['1', 'limit of the flange for class 2'],
    k_f3: ['1', 'limit of the flange for class 3'],
    f_y: ['Pa', 'yield strength'],
    f_0: ['Pa', '235 MPa'],
  },
  where: { epsilon: ['1', 'sqrt(f_0 / f_y)', 'ε'] },
  as: 'if(s_w <= k_w2 * epsilon and s_f <= k_f2 * epsilon, W_pl, W_el)',
  valid: ['s_w <= k_w3 * sqrt(f_0 / f_y)', 's_f <= k_f3 * sqrt(f_0 / f_y)'],
})

/** Elastic critical moment. */
export const criticalMoment = formula({
  id: 'lift.beam.critical-moment',
  title: 'Elastic critical moment for lateral-torsional buckling',
  source: {
    basis: 'memory',
    text: 'three-factor formula for doubly symmetric sections beside EN 1993-1-1 6.3.2.2(2); two values of it were read on verification pages',
  },
  gives: ['M_cr', 'N m'],
  from: {
    E: ['Pa', 'modulus of elasticity'],
    G: ['Pa', 'shear modulus'],
    I_z: ['m4', 'second moment of area about the weak axis'],
    I_t: ['m4', 'torsion constant'],
    I_w: ['m6', 'warping constant'],
    L: ['m', 'length between points held against turning sideways'],
    C_1: ['1', 'factor of the shape of the moment'],
    C_2: ['1', 'factor of the height of the load'],
    z_g: ['m', 'load above the shear centre, where it pushes over; below it is negative'],
  },
  as: 'C_1 * pi^2 * E * I_z / L^2 * (sqrt(I_w / I_z + L^2 * G * I_t / (pi^2 * E * I_z) + (C_2 * z_g)^2) - C_2 * z_g)',
  valid: ['L > 0'],
})

/** Resistance to bending with lateral-torsional buckling. */
export const bucklingMoment = formula({
  id: 'lift.beam.buckling-moment',
  title: 'Resistance to bending with lateral-torsional buckling',
  source: en('6.3.2.2, general case: χ_LT W f_y/γ_M1, plateau to 0.2'),
  gives: ['M_b', 'N m'],
  from: {
    W: ['m3', 'section modulus that counts'],
    f_y: ['Pa', 'yield strength'],
    M_cr: ['N m', 'elastic critical moment'],
    alpha: ['1', 'imperfection factor'],
    gamma_M1: ['1', 'partial factor of the strength'],
  },
  where: {
    lambda: ['1', 'sqrt(W * f_y / M_cr)', 'slenderness'],
    Phi: ['1', '0.5 * (1 + alpha * (lambda - 0.2) + lambda^2)', 'Φ'],
    chi: ['1', 'if(lambda <= 0.2, 1, min(1, 1 / (Phi + sqrt(max(0, Phi^2 - lambda^2)))))', 'reduction'],
  },
  as: 'chi * W * f_y / gamma_M1',
  valid: ['M_cr > 0'],
})

/** Resistance to shear, with buckling of a web that is stiffened at its supports alone. */
export const shearResistance = formula({
  id: 'lift.beam.shear',
  title: 'Resistance to shear',
  source: {
    basis: 'memory',
    text: 'EN 1993-1-1 6.2.6: A_w f_y/(√3 γ); slender webs by EN 1993-1-5 5.3 with 0.83/λ, stiffened at the supports alone',
  },
  gives: ['V', 'N'],
  from: {
    A_w: ['m2', 'area of the webs'],
    s_w: ['1', 'web: height over thickness'],
    f_y: ['Pa', 'yield strength'],
    f_0: ['Pa', '235 MPa'],
    gamma_M1: ['1', 'partial factor of the strength'],
  },
  where: { lambda: ['1', 's_w / (86.4 * sqrt(f_0 / f_y))', 'slenderness of the web'] },
  as: 'min(1, 0.83 / max(lambda, 0.1)) * A_w * f_y / (sqrt(3) * gamma_M1)',
})

/** Resistance to compression. */
export const compressionResistance = formula({
  id: 'lift.beam.compression',
  title: 'Resistance to compression with buckling',
  source: en('6.3.1: χ A f_y/γ_M1'),
  gives: ['N_b', 'N'],
  from: {
    A: ['m2', 'area'],
    I: ['m4', 'smaller second moment of area'],
    L: ['m', 'buckling length'],
    E: ['Pa', 'modulus of elasticity'],
    f_y: ['Pa', 'yield strength'],
    alpha: ['1', 'imperfection factor'],
    gamma_M1: ['1', 'partial factor of the strength'],
  },
  where: {
    N_cr: ['N', 'pi^2 * E * I / L^2', 'Euler load'],
    lambda: ['1', 'sqrt(A * f_y / N_cr)', 'slenderness'],
    Phi: ['1', '0.5 * (1 + alpha * (lambda - 0.2) + lambda^2)', 'Φ'],
    chi: ['1', 'if(lambda <= 0.2, 1, min(1, 1 / (Phi + sqrt(max(0, Phi^2 - lambda^2)))))', 'reduction'],
  },
  as: 'chi * A * f_y / gamma_M1',
  valid: ['L > 0'],
})

/** Use in bending, shear and compression together. */
export const beamUseByEurocode = formula({
  id: 'lift.beam.use-eurocode',
  title: 'Use of the beam in compression and bending with shear, EN 1993-1-1',
  source: en(
    '6.3.3 with C_m = 1 and k = 1 + 0.8 n, the upper bound of its annex B; 6.2.8: above half of the shear the moment of the section is reduced by (2V/V_Rd − 1)²',
  ),
  gives: ['u', '1'],
  from: {
    N: ['N', 'compression'],
    M: ['N m', 'moment'],
    V: ['N', 'shear'],
    N_b: ['N', 'resistance to compression'],
    M_b: ['N m', 'resistance to bending'],
    V_Rd: ['N', 'resistance to shear'],
    W: ['m3', 'section modulus that counts'],
    f_y: ['Pa', 'yield strength'],
    gamma_M0: ['1', 'partial factor of the strength'],
    gamma_F: ['1', 'factor on the load'],
  },
  where: {
    n: ['1', 'gamma_F * N / N_b', 'use in compression'],
    v: ['1', 'gamma_F * V / V_Rd', 'use in shear'],
    rho: ['1', 'if(v > 0.5, (2 * v - 1)^2, 0)', 'reduction by shear'],
    M_v: ['N m', 'max(0, 1 - rho) * W * f_y / gamma_M0', 'moment that shear leaves to the section'],
  },
  as: 'n + (1 + 0.8 * n) * gamma_F * M / min(M_b, M_v)',
  valid: ['gamma_F * V < V_Rd'],
})

/** Web under a force at one point of the flange. */
export const webBearing = formula({
  id: 'lift.beam.bearing-eurocode',
  title: 'Resistance of a web to a force at one point, EN 1993-1-5',
  source: {
    basis: 'memory',
    text: 'EN 1993-1-5 6.2 to 6.5, type (a) with k_F = 6: l_y = s_s + 2 t_f (1 + √(b/t_w)), χ_F = 0.5/λ_F; the term of slender webs in l_y is left out',
  },
  gives: ['F', 'N'],
  from: {
    s_s: ['m', 'stiff length of the bearing'],
    b: ['m', 'width of the flange over one web'],
    t_f: ['m', 'flange'],
    t_w: ['m', 'one web'],
    h_w: ['m', 'height of the web'],
    n: ['1', 'webs'],
    f_y: ['Pa', 'yield strength'],
    E: ['Pa', 'modulus of elasticity'],
    gamma_M1: ['1', 'partial factor of the strength'],
  },
  where: {
    l_y: ['m', 's_s + 2 * t_f * (1 + sqrt(b / t_w))', 'length that yields'],
    F_cr: ['N', '0.9 * 6 * E * t_w^3 / h_w', 'critical force of one web'],
    lambda: ['1', 'sqrt(l_y * t_w * f_y / F_cr)', 'slenderness'],
  },
  as: 'n * min(1, 0.5 / max(lambda, 0.01)) * l_y * t_w * f_y / gamma_M1',
  valid: ['t_w > 0'],
})

/** Moment of the hung ends about what holds a beam in its middle. */
export const endMoment = formula({
  id: 'lift.beam.end-moment',
  title: 'Moment of a beam at what holds it, from a load on its end',
  source: {
    basis: 'derived',
    text: 'load × arm, own weight of the arm, and a pull along the beam off its axis',
  },
  gives: ['M', 'N m'],
  from: {
    P: ['N', 'load on the end'],
    a: ['m', 'arm'],
    w: ['N/m', 'own weight per length'],
    H: ['N', 'pull along the beam'],
    e: ['m', 'off its axis'],
  },
  as: 'P * a + w * a^2 / 2 + H * e',
})

/** Moment of a spreader under inclined slings. */
export const spreaderMoment = formula({
  id: 'lift.beam.spreader-moment',
  title: 'Moment of a spreader under inclined slings',
  source: { basis: 'derived', text: 'own weight between the ends; compression × the offset of its pins from the axis' },
  gives: ['M', 'N m'],
  from: {
    w: ['N/m', 'own weight per length'],
    L: ['m', 'between its ends'],
    H_u: ['N', 'pull of the slings above along the beam'],
    e_u: ['m', 'their pins off the axis'],
    H_l: ['N', 'pull of what hangs below along the beam'],
    e_l: ['m', 'its pins off the axis'],
  },
  as: 'w * L^2 / 8 + H_u * e_u + H_l * e_l',
})

/** Sag of an end of a beam that is held in its middle. */
export const endSag = formula({
  id: 'lift.beam.end-sag',
  title: 'Sag of the end of a beam that is held in its middle',
  source: { basis: 'derived', text: 'cantilever: P a³/(3 E I) + w a⁴/(8 E I) + M_H a²/(2 E I)' },
  gives: ['d', 'm'],
  from: {
    P: ['N', 'load on the end'],
    a: ['m', 'arm'],
    w: ['N/m', 'own weight per length'],
    M_H: ['N m', 'moment of a pull along the beam'],
    E: ['Pa', 'modulus of elasticity'],
    I_y: ['m4', 'second moment of area about the strong axis'],
  },
  as: '(P * a^3 / 3 + w * a^4 / 8 + M_H * a^2 / 2) / (E * I_y)',
})

/** Sag of a beam between its ends. */
export const middleSag = formula({
  id: 'lift.beam.middle-sag',
  title: 'Sag of a beam between its ends',
  source: { basis: 'derived', text: '5 w L⁴/(384 E I) + M_H L²/(8 E I)' },
  gives: ['d', 'm'],
  from: {
    w: ['N/m', 'own weight per length'],
    L: ['m', 'between its ends'],
    M_H: ['N m', 'moment of pulls along the beam off its axis'],
    E: ['Pa', 'modulus of elasticity'],
    I_y: ['m4', 'second moment of area about the strong axis'],
  },
  as: '(5 * w * L^4 / 384 + M_H * L^2 / 8) / (E * I_y)',
})
