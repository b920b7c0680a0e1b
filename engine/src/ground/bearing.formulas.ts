import { formula } from '../working/formula.ts'

export const factorQ = formula({
  id: 'ground.bearing.nq',
  title: 'Bearing capacity factor for overburden',
  source: {
    basis: 'read',
    text: 'Prandtl–Reissner; same in EN 1997-1 Annex D, Meyerhof, Hansen, Vesić; held against printed tables',
  },
  gives: ['N_q', '1'],
  from: { phi: ['rad', 'friction angle'] },
  as: 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const factorC = formula({
  id: 'ground.bearing.nc',
  title: 'Bearing capacity factor for cohesion',
  source: { basis: 'read', text: 'Prandtl: (N_q − 1) cot φ, π + 2 without friction; held against printed tables' },
  gives: ['N_c', '1'],
  from: { phi: ['rad', 'friction angle'] },
  where: { N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'] },
  as: 'if(phi < 0.00001, pi + 2, (N_q - 1) / tan(max(phi, 0.00001)))',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const weightFactorAnnexD = formula({
  id: 'ground.bearing.n-gamma-annex-d',
  title: 'Bearing capacity factor for weight, EN 1997-1 Annex D',
  source: {
    basis: 'read',
    text: 'EN 1997-1:2004 Annex D.4 as a published calculation sheet prints it: 2 (N_q − 1) tan φ, rough base',
  },
  gives: ['N_gamma', '1'],
  from: { phi: ['rad', 'friction angle'] },
  where: { N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'] },
  as: '2 * (N_q - 1) * tan(phi)',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const weightFactorVesic = formula({
  id: 'ground.bearing.n-gamma-vesic',
  title: 'Bearing capacity factor for weight, Vesić',
  source: { basis: 'read', text: '2 (N_q + 1) tan φ; FHWA GEC-6 and printed tables' },
  gives: ['N_gamma', '1'],
  from: { phi: ['rad', 'friction angle'] },
  where: { N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'] },
  as: '2 * (N_q + 1) * tan(phi)',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const weightFactorHansen = formula({
  id: 'ground.bearing.n-gamma-hansen',
  title: 'Bearing capacity factor for weight, Hansen',
  source: { basis: 'read', text: '1.5 (N_q − 1) tan φ; printed tables' },
  gives: ['N_gamma', '1'],
  from: { phi: ['rad', 'friction angle'] },
  where: { N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'] },
  as: '1.5 * (N_q - 1) * tan(phi)',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const weightFactorMeyerhof = formula({
  id: 'ground.bearing.n-gamma-meyerhof',
  title: 'Bearing capacity factor for weight, Meyerhof',
  source: { basis: 'read', text: '(N_q − 1) tan 1.4 φ; printed tables' },
  gives: ['N_gamma', '1'],
  from: { phi: ['rad', 'friction angle'] },
  where: { N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'] },
  as: '(N_q - 1) * tan(1.4 * phi)',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const factorQTerzaghi = formula({
  id: 'ground.bearing.nq-terzaghi',
  title: 'Bearing capacity factor for overburden, Terzaghi',
  source: { basis: 'read', text: 'Terzaghi 1943, rough base; printed tables' },
  gives: ['N_q', '1'],
  from: { phi: ['rad', 'friction angle'] },
  as: 'exp(2 * (0.75 * pi - phi / 2) * tan(phi)) / (2 * cos(pi / 4 + phi / 2)^2)',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const factorCTerzaghi = formula({
  id: 'ground.bearing.nc-terzaghi',
  title: 'Bearing capacity factor for cohesion, Terzaghi',
  source: {
    basis: 'read',
    text: 'Terzaghi 1943, rough base: (N_q − 1) cot φ, 3π/2 + 1 without friction; printed tables',
  },
  gives: ['N_c', '1'],
  from: { phi: ['rad', 'friction angle'] },
  where: {
    N_q: ['1', 'exp(2 * (0.75 * pi - phi / 2) * tan(phi)) / (2 * cos(pi / 4 + phi / 2)^2)', 'factor for overburden'],
  },
  as: 'if(phi < 0.00001, 1.5 * pi + 1, (N_q - 1) / tan(max(phi, 0.00001)))',
  valid: ['phi >= 0', 'phi < 0.9'],
})

export const drainedAnnexD = formula({
  id: 'ground.bearing.annex-d-drained',
  title: 'Bearing resistance of a rectangular base, drained',
  source: {
    basis: 'read',
    text: 'EN 1997-1:2004 Annex D.4 as a published calculation sheet prints it; level base and ground, no depth factors',
  },
  gives: ['q_R', 'Pa'],
  from: {
    phi: ['rad', 'friction angle'],
    c: ['Pa', 'effective cohesion'],
    q: ['Pa', 'overburden beside the base, effective'],
    gamma: ['N/m3', 'effective unit weight below the base'],
    B: ['m', 'effective width'],
    L: ['m', 'effective length'],
    V: ['N', 'vertical load'],
    H_B: ['N', 'horizontal load along the width'],
    H_L: ['N', 'horizontal load along the length'],
  },
  where: {
    A: ['m2', 'B * L', 'effective area'],
    N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'],
    N_c: ['1', '(N_q - 1) / tan(phi)', 'factor for cohesion'],
    N_gamma: ['1', '2 * (N_q - 1) * tan(phi)', 'factor for weight'],
    s_q: ['1', '1 + B / L * sin(phi)', 'shape'],
    s_gamma: ['1', '1 - 0.3 * B / L', 'shape'],
    s_c: ['1', '(s_q * N_q - 1) / (N_q - 1)', 'shape'],
    m_B: ['1', '(2 + B / L) / (1 + B / L)', 'exponent along the width'],
    m_L: ['1', '(2 + L / B) / (1 + L / B)', 'exponent along the length'],
    H2: ['1', '(H_B^2 + H_L^2) / V^2', 'horizontal over vertical load, squared'],
    m: ['1', 'if(H2 > 0, (m_L * H_L^2 + m_B * H_B^2) / max(H_B^2 + H_L^2, 1e-30 * V^2), m_B)', 'exponent'],
    base: ['1', 'max(1 - sqrt(H2) * V / (V + A * c / tan(phi)), 0)', 'inclination'],
    i_q: ['1', 'base^m', 'inclination'],
    i_gamma: ['1', 'base^(m + 1)', 'inclination'],
    i_c: ['1', 'i_q - (1 - i_q) / (N_c * tan(phi))', 'inclination'],
  },
  as: 'c * N_c * s_c * i_c + q * N_q * s_q * i_q + 0.5 * gamma * B * N_gamma * s_gamma * i_gamma',
  valid: ['phi > 0', 'phi < 0.9', 'B <= L', 'V > 0'],
})

export const undrainedAnnexD = formula({
  id: 'ground.bearing.annex-d-undrained',
  title: 'Bearing resistance of a rectangular base in clay, undrained, vertical load',
  source: { basis: 'memory', text: 'EN 1997-1:2004 Annex D.3: (π + 2) c_u s_c + q, s_c = 1 + 0.2 B/L' },
  gives: ['q_R', 'Pa'],
  from: {
    c_u: ['Pa', 'undrained strength'],
    q: ['Pa', 'overburden beside the base, total'],
    B: ['m', 'effective width'],
    L: ['m', 'effective length'],
  },
  where: { s_c: ['1', '1 + 0.2 * B / L', 'shape'] },
  as: '(pi + 2) * c_u * s_c + q',
  valid: ['B <= L'],
})

export const generalBearing = formula({
  id: 'ground.bearing.vesic',
  title: 'Ultimate bearing pressure with shape and depth factors of Vesić',
  source: {
    basis: 'read',
    text: 'FHWA GEC-6 (FHWA-SA-02-054) App. B example 1, and hand checks of an open bearing capacity module',
  },
  gives: ['q_ult', 'Pa'],
  from: {
    phi: ['rad', 'friction angle'],
    c: ['Pa', 'cohesion'],
    q: ['Pa', 'overburden beside the base'],
    gamma: ['N/m3', 'unit weight below the base'],
    C_w: ['1', 'correction for water below the base'],
    B: ['m', 'effective width'],
    L: ['m', 'effective length'],
    k: ['1', 'depth term: D/B up to one, atan(D/B) beyond; zero counts no depth'],
  },
  where: {
    N_q: ['1', 'exp(pi * tan(phi)) * tan(pi / 4 + phi / 2)^2', 'factor for overburden'],
    N_c: ['1', 'if(phi < 0.00001, 5.14, (N_q - 1) / tan(max(phi, 0.00001)))', 'factor for cohesion'],
    N_gamma: ['1', '2 * (N_q + 1) * tan(phi)', 'factor for weight'],
    s_c: ['1', '1 + B / L * if(phi < 0.00001, 0.2, N_q / N_c)', 'shape'],
    s_q: ['1', '1 + B / L * tan(phi)', 'shape'],
    s_gamma: ['1', '1 - 0.4 * B / L', 'shape'],
    d_q: ['1', '1 + 2 * tan(phi) * (1 - sin(phi))^2 * k', 'depth'],
    d_c: ['1', 'if(phi < 0.00001, 1 + 0.4 * k, d_q - (1 - d_q) / max(N_c * tan(phi), 0.00001))', 'depth'],
  },
  as: 'c * N_c * s_c * d_c + q * N_q * s_q * d_q + 0.5 * gamma * B * N_gamma * s_gamma * C_w',
  valid: ['phi >= 0', 'phi < 0.9', 'B <= L'],
})

export const depthTerm = formula({
  id: 'ground.bearing.depth-term',
  title: 'Depth term of Vesić; it drops at D/B = 1',
  source: { basis: 'read', text: 'hand checks of an open bearing capacity module' },
  gives: ['k', '1'],
  from: { D: ['m', 'depth of the base'], B: ['m', 'width'] },
  as: 'if(D <= B, D / B, atan(D / B))',
})

export const resistanceWithFactor = formula({
  id: 'ground.bearing.with-factor',
  title: 'Bearing resistance over the factor required',
  source: { basis: 'derived', text: 'one factor on the resistance' },
  gives: ['q_d', 'Pa'],
  from: { q_R: ['Pa', 'bearing resistance'], gamma: ['1', 'required factor on bearing resistance'] },
  as: 'q_R / gamma',
  valid: ['gamma >= 1'],
})

export const effectiveOverburden = formula({
  id: 'ground.bearing.effective-overburden',
  title: 'Effective overburden with water between ground and base',
  source: { basis: 'derived', text: 'γ above the water, γ − γ_w below it' },
  gives: ['q', 'Pa'],
  from: {
    gamma: ['N/m3', 'unit weight'],
    gamma_w: ['N/m3', 'unit weight of water'],
    D: ['m', 'depth of the base'],
    z_w: ['m', 'depth of the water'],
  },
  as: 'gamma * D - gamma_w * max(D - z_w, 0)',
})

export const effectiveWeight = formula({
  id: 'ground.bearing.effective-weight',
  title: 'Unit weight below a base at the surface, with water below it',
  source: {
    basis: 'common practice',
    text: 'common practice, no source: between buoyant and full by depth of the water over the width',
  },
  gives: ["gamma'", 'N/m3'],
  from: {
    gamma: ['N/m3', 'unit weight'],
    gamma_w: ['N/m3', 'unit weight of water'],
    surface: ['m', 'level of the base'],
    head: ['m', 'level of the water'],
    B: ['m', 'width of the base'],
  },
  as: 'gamma - gamma_w * (1 - min(max((surface - head) / B, 0), 1))',
})

export const netUndrained = formula({
  id: 'ground.bearing.net-undrained',
  title: 'Net bearing resistance of clay under a rectangle, undrained',
  source: {
    basis: 'memory',
    text: 'EN 1997-1:2004 Annex D.3: (π + 2) c_u s_c, s_c = 1 + 0.2 B/L, overburden the same inside and out',
  },
  gives: ['q_R', 'Pa'],
  from: { c_u: ['Pa', 'undrained strength'], B: ['m', 'width'], L: ['m', 'length'] },
  as: '(pi + 2) * c_u * (1 + 0.2 * B / L)',
  valid: ['B <= L'],
})
