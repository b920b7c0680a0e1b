import { formula } from '../working/formula.ts'

export const rigidCircle = formula({
  id: 'ground.settlement.rigid-circle',
  title: 'Settlement of a rigid round pad on an elastic half-space',
  source: { basis: 'derived', text: 'P (1 − ν²)/(2 r E)' },
  gives: ['w', 'm'],
  from: { P: ['N', 'load'], r: ['m', 'radius'], E: ['Pa', 'modulus'], nu: ['1', "Poisson's ratio"] },
  as: 'P * (1 - nu^2) / (2 * r * E)',
})

export const flexibleCircleCentre = formula({
  id: 'ground.settlement.flexible-circle-centre',
  title: 'Settlement at the centre of a flexible loaded circle',
  source: { basis: 'derived', text: '2 q r (1 − ν²)/E' },
  gives: ['w', 'm'],
  from: { q: ['Pa', 'pressure'], r: ['m', 'radius'], E: ['Pa', 'modulus'], nu: ['1', "Poisson's ratio"] },
  as: '2 * q * r * (1 - nu^2) / E',
})

export const flexibleCircleEdge = formula({
  id: 'ground.settlement.flexible-circle-edge',
  title: 'Settlement at the edge of a flexible loaded circle',
  source: { basis: 'derived', text: '(4/π) q r (1 − ν²)/E' },
  gives: ['w', 'm'],
  from: { q: ['Pa', 'pressure'], r: ['m', 'radius'], E: ['Pa', 'modulus'], nu: ['1', "Poisson's ratio"] },
  as: '4 / pi * q * r * (1 - nu^2) / E',
})

export const rectangleCorner = formula({
  id: 'ground.settlement.rectangle-corner',
  title: 'Settlement at the corner of a flexible loaded rectangle on a half-space',
  source: { basis: 'derived', text: 'Schleicher: q B (1 − ν²)/E · I, closed form' },
  gives: ['w', 'm'],
  from: {
    q: ['Pa', 'pressure'],
    B: ['m', 'shorter side'],
    L: ['m', 'longer side'],
    E: ['Pa', 'modulus'],
    nu: ['1', "Poisson's ratio"],
  },
  where: {
    m: ['1', 'L / B', 'longer over shorter side'],
    I: ['1', '(m * ln((1 + sqrt(1 + m^2)) / m) + ln(m + sqrt(1 + m^2))) / pi', 'influence factor'],
  },
  as: 'q * B * (1 - nu^2) / E * I',
})

export const steinbrenner = formula({
  id: 'ground.settlement.steinbrenner',
  title: 'Settlement at the corner of a flexible rectangle from the ground down to a depth',
  source: {
    basis: 'memory',
    text: 'Steinbrenner 1934: q B (1 − ν²)/E (F₁ + (1 − 2ν)/(1 − ν) F₂), as in foundation texts',
  },
  gives: ['w', 'm'],
  from: {
    q: ['Pa', 'pressure'],
    B: ['m', 'shorter side'],
    L: ['m', 'longer side'],
    z: ['m', 'depth to which the ground is counted'],
    E: ['Pa', 'modulus'],
    nu: ['1', "Poisson's ratio"],
  },
  where: {
    m: ['1', 'L / B', 'longer over shorter side'],
    n: ['1', 'z / B', 'depth over shorter side'],
    a: ['1', 'sqrt(1 + m^2)', 'diagonal'],
    b: ['1', 'sqrt(m^2 + n^2)', 'slant'],
    d: ['1', 'sqrt(1 + m^2 + n^2)', 'slant'],
    F_1: [
      '1',
      '(m * ln((1 + a) * b / (m * (1 + d))) + ln((m + a) * sqrt(1 + n^2) / (m + d))) / pi',
      'first influence factor',
    ],
    F_2: ['1', 'n / (2 * pi) * atan(m / (n * d))', 'second influence factor'],
  },
  as: 'q * B * (1 - nu^2) / E * (F_1 + (1 - 2 * nu) / (1 - nu) * F_2)',
  valid: ['z > 0', 'L >= B', 'nu < 0.5 + 1e-9'],
})

export const tiltCircle = formula({
  id: 'ground.settlement.tilt-circle',
  title: 'Tilt of a rigid round pad on an elastic half-space',
  source: { basis: 'derived', text: '3 M (1 − ν²)/(4 E r³)' },
  gives: ['theta', 'rad'],
  from: { M: ['N m', 'moment'], r: ['m', 'radius'], E: ['Pa', 'modulus'], nu: ['1', "Poisson's ratio"] },
  as: '3 * M * (1 - nu^2) / (4 * E * r^3)',
})

export const hough = formula({
  id: 'ground.settlement.hough',
  title: 'Settlement of one granular layer',
  source: {
    basis: 'read',
    text: 'Hough, in FHWA GEC-6 (FHWA-SA-02-054) App. B example 1, as an open geotechnical library quotes it',
  },
  gives: ['w', 'm'],
  from: {
    H: ['m', 'thickness of the layer'],
    C: ['1', 'bearing capacity index'],
    sigma_0: ['Pa', 'effective stress before, mid-layer'],
    dsigma: ['Pa', 'stress added, mid-layer'],
  },
  as: 'H / C * log10((sigma_0 + dsigma) / sigma_0)',
  valid: ['sigma_0 > 0'],
})

export const equivalentRaft = formula({
  id: 'ground.settlement.equivalent-raft',
  title: 'Level at which a group of piles presses like a raft',
  source: {
    basis: 'common practice',
    text: 'common practice, no source: two thirds of the pile length, no spread counted',
  },
  gives: ['z_r', 'm'],
  from: { top: ['m', 'top of the piles'], toe: ['m', 'toe of the piles'] },
  as: 'top - 2 / 3 * (top - toe)',
  valid: ['top > toe'],
})

/** Four quarters meet at the middle; each side is halved. */
export const layerBetween = formula({
  id: 'ground.settlement.layer',
  title: 'Compression of one layer below the middle of a loaded rectangle',
  source: {
    basis: 'memory',
    text: 'Steinbrenner 1934, four quarters, the depth to the bottom of the layer less the depth to its top',
  },
  gives: ['w', 'm'],
  from: {
    q: ['Pa', 'pressure'],
    B: ['m', 'one side'],
    L: ['m', 'other side'],
    level: ['m', 'level at which it presses'],
    top: ['m', 'top of the layer'],
    bottom: ['m', 'bottom of the layer'],
    E: ['Pa', 'modulus'],
    nu: ['1', "Poisson's ratio"],
  },
  where: {
    b: ['m', 'min(B, L) / 2', 'shorter side of a quarter'],
    m: ['1', 'max(B, L) / min(B, L)', 'longer over shorter side'],
    k: ['1', '(1 - 2 * nu) / (1 - nu)', 'weight of the second factor'],
    a: ['1', 'sqrt(1 + m^2)', 'diagonal'],
    n_1: ['1', 'max(level - top, 0) / b', 'depth to the top over b'],
    n_2: ['1', 'max(level - bottom, 0) / b', 'depth to the bottom over b'],
    d_1: ['1', 'sqrt(1 + m^2 + n_1^2)', 'slant'],
    d_2: ['1', 'sqrt(1 + m^2 + n_2^2)', 'slant'],
    F_1: [
      '1',
      '(m * ln((1 + a) * sqrt(m^2 + n_1^2) / (m * (1 + d_1))) + ln((m + a) * sqrt(1 + n_1^2) / (m + d_1))) / pi + k * n_1 / (2 * pi) * atan(m / max(n_1 * d_1, 1e-12))',
      'influence to the top',
    ],
    F_2: [
      '1',
      '(m * ln((1 + a) * sqrt(m^2 + n_2^2) / (m * (1 + d_2))) + ln((m + a) * sqrt(1 + n_2^2) / (m + d_2))) / pi + k * n_2 / (2 * pi) * atan(m / max(n_2 * d_2, 1e-12))',
      'influence to the bottom',
    ],
  },
  as: '4 * q * b * (1 - nu^2) / E * (F_2 - F_1)',
  valid: ['nu <= 0.5', 'E > 0', 'top > bottom'],
})

/** Beside a load whose plan is small against its distance. */
export const pointLayer = formula({
  id: 'ground.settlement.point-layer',
  title: 'Compression of one layer beside a point load',
  source: {
    basis: 'memory',
    text: 'Boussinesq 1885: u_z = P (1 + ν)/(2 π E R) (2 (1 − ν) + z²/R²), at the top of the layer less at its bottom',
  },
  gives: ['w', 'm'],
  from: {
    P: ['N', 'load'],
    r: ['m', 'distance in plan'],
    level: ['m', 'level at which it presses'],
    top: ['m', 'top of the layer'],
    bottom: ['m', 'bottom of the layer'],
    E: ['Pa', 'modulus'],
    nu: ['1', "Poisson's ratio"],
  },
  where: {
    z_1: ['m', 'max(level - top, 0)', 'depth to the top'],
    z_2: ['m', 'max(level - bottom, 0)', 'depth to the bottom'],
    R_1: ['m', 'sqrt(r^2 + z_1^2)', 'slant to the top'],
    R_2: ['m', 'sqrt(r^2 + z_2^2)', 'slant to the bottom'],
  },
  as: 'P * (1 + nu) / (2 * pi * E) * ((2 * (1 - nu) + (z_1 / R_1)^2) / R_1 - (2 * (1 - nu) + (z_2 / R_2)^2) / R_2)',
  valid: ['r > 0', 'nu <= 0.5', 'E > 0', 'top > bottom'],
})

export const bayTilt = formula({
  id: 'ground.settlement.bay-tilt',
  title: 'Tilt of a bay from a piece off its middle',
  source: {
    basis: 'derived',
    text: 'rigid round pad of the same area: θ = 3 M (1 − ν²)/(4 E r³) with E taken from its settlement, rigid over flexible π/4',
  },
  gives: ['theta', 'rad'],
  from: {
    w: ['m', 'settlement at the middle of the flexible bay'],
    W: ['N', 'weight of the piece'],
    P: ['N', 'everything on the bay'],
    e: ['m', 'centre of gravity off the middle'],
    A: ['m2', 'area of the bay'],
  },
  as: '3 * pi^2 / 8 * W / P * e * w / A',
  valid: ['P > 0'],
})

export const edgeSlope = formula({
  id: 'ground.settlement.edge-slope',
  title: 'Slope of a bay between the middles of its edges',
  source: { basis: 'derived', text: 'differences of settlement over both sides, at right angles to one another' },
  gives: ['theta', 'rad'],
  from: {
    w_1: ['m', 'settlement at the edge ahead'],
    w_2: ['m', 'settlement at the edge behind'],
    w_3: ['m', 'settlement at the left edge'],
    w_4: ['m', 'settlement at the right edge'],
    a: ['m', 'side along x'],
    b: ['m', 'side along y'],
  },
  as: 'sqrt(((w_1 - w_2) / a)^2 + ((w_3 - w_4) / b)^2)',
  valid: ['a > 0', 'b > 0'],
})
