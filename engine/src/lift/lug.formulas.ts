import { formula, type Source } from '../working/formula.ts'

const bth = (text: string): Source => ({
  basis: 'read',
  text: `ASME BTH-1 3-3.3, ${text}, through three published calculation sheets, recomputed`,
})

/** Loss by the clearance of the pin in its hole. */
export const pinClearanceFactor = formula({
  id: 'lift.lug.pin-clearance',
  title: 'Factor for the clearance of the pin in its hole',
  source: bth('eq. 3-46'),
  gives: ['C_r', '1'],
  from: { D_p: ['m', 'pin'], D_h: ['m', 'hole'] },
  as: 'if(D_h / D_p > 1.1, 1 - 0.275 * sqrt(1 - D_p^2 / D_h^2), 1)',
  valid: ['D_p > 0', 'D_h >= D_p'],
})

/** Width beside the hole that carries. */
export const effectiveWidth = formula({
  id: 'lift.lug.effective-width',
  title: 'Width on each side of the hole that carries',
  source: bth('eqs. 3-47 and 3-48'),
  gives: ['b_eff', 'm'],
  from: {
    b_e: ['m', 'clear distance from hole to edge, across the load'],
    t: ['m', 'plate'],
    D_h: ['m', 'hole'],
    F_y: ['Pa', 'yield strength'],
    F_u: ['Pa', 'tensile strength'],
  },
  as: 'min(b_e, 4 * t, 0.6 * b_e * F_u / F_y * sqrt(D_h / b_e))',
  valid: ['b_e > 0'],
})

/** Tension through the hole. */
export const netTension = formula({
  id: 'lift.lug.net-tension',
  title: 'Allowable load: tension through the hole',
  source: bth('eq. 3-45'),
  gives: ['P_t', 'N'],
  from: {
    C_r: ['1', 'factor for the clearance of the pin'],
    F_u: ['Pa', 'tensile strength'],
    N_d: ['1', 'design factor'],
    t: ['m', 'plate'],
    b_eff: ['m', 'width on each side that carries'],
  },
  as: 'C_r * F_u / (1.20 * N_d) * 2 * t * b_eff',
})

/** Splitting of the edge beyond the hole. */
export const edgeFracture = formula({
  id: 'lift.lug.edge-fracture',
  title: 'Allowable load: fracture on one plane beyond the hole',
  source: bth('eq. 3-49'),
  gives: ['P_b', 'N'],
  from: {
    C_r: ['1', 'factor for the clearance of the pin'],
    F_u: ['Pa', 'tensile strength'],
    N_d: ['1', 'design factor'],
    R: ['m', 'from the centre of the hole to the edge, along the load'],
    D_h: ['m', 'hole'],
    b_e: ['m', 'clear distance from hole to edge, across the load'],
    t: ['m', 'plate'],
  },
  as: 'C_r * F_u / (1.20 * N_d) * (1.13 * (R - D_h / 2) + 0.92 * b_e / (1 + b_e / D_h)) * t',
  valid: ['R > D_h / 2'],
})

/** Loss of the shear planes where the edge is round. */
export const edgeLoss = formula({
  id: 'lift.lug.edge-loss',
  title: 'Loss of length of a shear plane at a round edge',
  source: bth('commentary'),
  gives: ['Z', 'm'],
  from: { r: ['m', 'radius of the edge'], D_p: ['m', 'pin'], D_h: ['m', 'hole'] },
  where: { phi: ['rad', '55 * pi / 180 * D_p / D_h', 'angle of the shear planes'] },
  as: 'r - sqrt(r^2 - (D_p / 2 * sin(phi))^2)',
  valid: ['r > D_p / 2'],
})

/** Shear on two planes beyond the hole. */
export const doubleShear = formula({
  id: 'lift.lug.double-shear',
  title: 'Allowable load: shear on two planes beyond the hole',
  source: bth('eqs. 3-50 to 3-52'),
  gives: ['P_v', 'N'],
  from: {
    F_u: ['Pa', 'tensile strength'],
    N_d: ['1', 'design factor'],
    a: ['m', 'clear distance from hole to edge, along the load'],
    D_p: ['m', 'pin'],
    D_h: ['m', 'hole'],
    Z: ['m', 'loss at a round edge; zero where it is straight'],
    t: ['m', 'plate'],
  },
  where: {
    phi: ['rad', '55 * pi / 180 * D_p / D_h', 'angle of the shear planes'],
    A_v: ['m2', '2 * (a + D_p / 2 * (1 - cos(phi)) - Z) * t', 'area of both planes'],
  },
  as: '0.70 * F_u / (1.20 * N_d) * A_v',
  valid: ['a > 0'],
})

/** Bearing of the pin. */
export const pinBearing = formula({
  id: 'lift.lug.bearing',
  title: 'Allowable load: bearing of the pin, not turning under load',
  source: bth('eq. 3-53'),
  gives: ['P_p', 'N'],
  from: {
    F_y: ['Pa', 'yield strength'],
    N_d: ['1', 'design factor'],
    D_p: ['m', 'pin'],
    t: ['m', 'plate, with cheeks that share by their welds'],
  },
  as: '1.25 * F_y / N_d * D_p * t',
})

/** Clear distance from hole to edge of a round lug. */
export const clearEdge = formula({
  id: 'lift.lug.clear-edge',
  title: 'Clear distance from hole to edge',
  source: { basis: 'derived', text: 'round edge about the centre of the hole' },
  gives: ['a', 'm'],
  from: { R: ['m', 'from the centre of the hole to the edge'], D_h: ['m', 'hole'] },
  as: 'R - D_h / 2',
})

const en = (text: string): Source => ({
  basis: 'memory',
  text: `EN 1993-1-8 3.13, ${text}; the rule for the edge was read in an open library`,
})

/** Pull that a plate of this thickness bears by its edges. */
export const pinPlateByThickness = formula({
  id: 'lift.lug.pin-plate-edges',
  title: 'Allowable load: edges of a pin plate of given thickness',
  source: en('table 3.9 type A: a ≥ F γ_M0/(2 t f_y) + 2 d_0/3, c ≥ F γ_M0/(2 t f_y) + d_0/3'),
  gives: ['P', 'N'],
  from: {
    a: ['m', 'clear distance from hole to edge, along the load'],
    c: ['m', 'clear distance from hole to edge, across the load'],
    d_0: ['m', 'hole'],
    t: ['m', 'plate'],
    f_y: ['Pa', 'yield strength'],
    gamma_M0: ['1', 'partial factor of the strength'],
    gamma_F: ['1', 'factor on the load'],
  },
  as: '2 * t * f_y * max(0 * t, min(a - 2 * d_0 / 3, c - d_0 / 3)) / (gamma_M0 * gamma_F)',
})

/** Pull that a plate of the proportions of the standard bears by its thickness. */
export const pinPlateByGeometry = formula({
  id: 'lift.lug.pin-plate-thickness',
  title: 'Allowable load: thickness of a pin plate of given proportions',
  source: en(
    'table 3.9 type B: t ≥ 0.7 √(F γ_M0/f_y), d_0 ≤ 2.5 t, where the edge is at least 1.6 d_0 from the centre along the load and 1.25 d_0 across',
  ),
  gives: ['P', 'N'],
  from: {
    R: ['m', 'from the centre of the hole to the edge'],
    d_0: ['m', 'hole'],
    t: ['m', 'plate'],
    f_y: ['Pa', 'yield strength'],
    gamma_M0: ['1', 'partial factor of the strength'],
    gamma_F: ['1', 'factor on the load'],
  },
  as: 'if(R >= 1.6 * d_0 and d_0 <= 2.5 * t, f_y * (t / 0.7)^2 / (gamma_M0 * gamma_F), 0 * f_y * t^2)',
})

/** Pull that the plate bears on its pin. */
export const pinPlateBearing = formula({
  id: 'lift.lug.pin-plate-bearing',
  title: 'Allowable load: bearing of plate and pin',
  source: en('table 3.10: 1.5 t d f_y/γ_M0; for a pin that is changed 0.6 t d f_y/γ_M6,ser under the load as it is'),
  gives: ['P', 'N'],
  from: {
    t: ['m', 'plate, with cheeks that share by their welds'],
    d: ['m', 'pin'],
    f_y: ['Pa', 'yield strength of the weaker of plate and pin'],
    gamma_M0: ['1', 'partial factor of the strength'],
    gamma_F: ['1', 'factor on the load'],
    gamma_M6: ['1', 'partial factor in service'],
  },
  as: 'min(1.5 * t * d * f_y / (gamma_M0 * gamma_F), 0.6 * t * d * f_y / gamma_M6)',
})
