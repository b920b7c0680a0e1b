import { formula } from '../working/formula.ts'

const CHART = {
  basis: 'read',
  text: 'modified elastic form of Terzaghi 1954 and NAVFAC DM 7.02, as an open civil-engineering toolbox prints the point load; straight wall that does not yield',
} as const

export const pointChart = formula({
  id: 'ground.surcharge.point-chart',
  title: 'Pressure on a straight rigid wall from a point load at the surface',
  source: CHART,
  gives: ['sigma_h', 'Pa'],
  from: {
    Q: ['N', 'load'],
    H: ['m', 'height of the wall'],
    x: ['m', 'distance from the back of the wall'],
    z: ['m', 'depth'],
    y: ['m', 'distance along the wall'],
  },
  where: {
    m: ['1', 'x / H', 'distance over height'],
    n: ['1', 'z / H', 'depth over height'],
    theta: ['1', 'atan(y / x)', 'angle from the normal'],
    near: ['1', '0.28 * n^2 / (0.16 + n^2)^3', 'within 0.4 H'],
    far: ['1', '1.77 * m^2 * n^2 / (m^2 + n^2)^3', 'beyond 0.4 H'],
  },
  as: 'Q / H^2 * if(m <= 0.4, near, far) * cos(1.1 * theta)^2',
  valid: ['z >= 0', 'x > 0'],
})

export const lineChart = formula({
  id: 'ground.surcharge.line-chart',
  title: 'Pressure on a straight rigid wall from a line load along it',
  source: { basis: 'memory', text: 'Terzaghi 1954; NAVFAC DM 7.02 ch. 3 fig. 11' },
  gives: ['sigma_h', 'Pa'],
  from: {
    Q: ['N/m', 'line load'],
    H: ['m', 'height of the wall'],
    x: ['m', 'distance from the back of the wall'],
    z: ['m', 'depth'],
  },
  where: { m: ['1', 'x / H', 'distance over height'], n: ['1', 'z / H', 'depth over height'] },
  as: 'Q / H * if(m <= 0.4, 0.2 * n / (0.16 + n^2)^2, 1.28 * m^2 * n / (m^2 + n^2)^2)',
  valid: ['z >= 0', 'x > 0'],
})

export const stripOnWall = formula({
  id: 'ground.surcharge.strip',
  title: 'Pressure on a wall from a strip load along it',
  source: {
    basis: 'derived',
    text: 'Boussinesq integrated across the strip; k = 2 for a wall that does not yield, 1 elastic',
  },
  gives: ['sigma_h', 'Pa'],
  from: {
    k: ['1', 'two for a rigid wall'],
    q: ['Pa', 'pressure of the strip'],
    x_1: ['m', 'distance of its near edge'],
    b: ['m', 'its width'],
    z: ['m', 'depth'],
  },
  where: {
    beta: ['1', 'atan((x_1 + b) / z) - atan(x_1 / z)', 'angle that the strip subtends'],
    alpha: ['1', '(atan((x_1 + b) / z) + atan(x_1 / z)) / 2', 'from the vertical to its middle'],
  },
  as: 'k * q / pi * (beta - sin(beta) * cos(2 * alpha))',
  valid: ['z > 0', 'x_1 >= 0'],
})

export const pointElastic = formula({
  id: 'ground.surcharge.point-elastic',
  title: 'Pressure on a wall from a point load, elastic ground without volume change',
  source: {
    basis: 'derived',
    text: 'Boussinesq, ν = 0.5: 3 Q x² z/(2π R⁵); k = 2 mirrors the load at a wall that does not yield',
  },
  gives: ['sigma_h', 'Pa'],
  from: {
    k: ['1', 'two for a rigid wall'],
    Q: ['N', 'load'],
    x: ['m', 'distance square to the wall'],
    y: ['m', 'distance along the wall'],
    z: ['m', 'depth below the load'],
  },
  as: 'k * 3 * Q * x^2 * z / (2 * pi * (x^2 + y^2 + z^2)^2.5)',
  valid: ['z >= 0', 'x^2 + y^2 + z^2 > 0'],
})

export const cornerHorizontal = formula({
  id: 'ground.surcharge.corner-horizontal',
  title: 'Horizontal stress below the corner of a loaded rectangle, square to one side',
  source: {
    basis: 'derived',
    text: 'Boussinesq, ν = 0.5, closed form; odd in L and B, so that corners add with their signs',
  },
  gives: ['sigma_x', 'Pa'],
  from: {
    q: ['Pa', 'pressure'],
    L: ['m', 'side along x'],
    B: ['m', 'side across'],
    z: ['m', 'depth'],
  },
  where: {
    R_1: ['m', 'sqrt(L^2 + z^2)', 'slant over the side along x'],
    R_3: ['m', 'sqrt(L^2 + B^2 + z^2)', 'slant over both'],
  },
  as: 'q / (2 * pi) * (atan(L * B / (z * R_3)) - L * B * z / (R_1^2 * R_3))',
  valid: ['z > 0'],
})

export const cornerVertical = formula({
  id: 'ground.surcharge.corner-vertical',
  title: 'Vertical stress below the corner of a loaded rectangle',
  source: { basis: 'derived', text: 'Newmark 1935 in the form that needs no correction of the angle; odd in B and L' },
  gives: ['sigma_z', 'Pa'],
  from: { q: ['Pa', 'pressure'], B: ['m', 'one side'], L: ['m', 'other side'], z: ['m', 'depth'] },
  where: {
    m: ['1', 'B / z', 'side over depth'],
    n: ['1', 'L / z', 'side over depth'],
    R: ['1', 'sqrt(1 + m^2 + n^2)', 'slant over depth'],
  },
  as: 'q / (2 * pi) * (atan(m * n / R) + m * n / R * (1 / (1 + m^2) + 1 / (1 + n^2)))',
  valid: ['z > 0'],
})

export const pointVertical = formula({
  id: 'ground.surcharge.point-vertical',
  title: 'Vertical stress below a point load',
  source: { basis: 'read', text: 'Boussinesq 3 Q z³/(2π R⁵), as the tests of an open geotechnical library use it' },
  gives: ['sigma_z', 'Pa'],
  from: { Q: ['N', 'load'], r: ['m', 'distance in plan'], z: ['m', 'depth'] },
  as: '3 * Q * z^3 / (2 * pi * (r^2 + z^2)^2.5)',
  valid: ['z > 0'],
})

export const pointRadial = formula({
  id: 'ground.surcharge.point-radial',
  title: 'Horizontal stress straight below a point load',
  source: {
    basis: 'read',
    text: 'Boussinesq on the axis: −Q (1 − 2ν)/(4π z²), as the tests of an open geotechnical library use it',
  },
  gives: ['sigma_r', 'Pa'],
  from: { Q: ['N', 'load'], z: ['m', 'depth'], nu: ['1', "Poisson's ratio"] },
  as: '-Q * (1 - 2 * nu) / (4 * pi * z^2)',
  valid: ['z > 0', 'nu <= 0.5'],
})

export const stripVertical = formula({
  id: 'ground.surcharge.strip-vertical',
  title: 'Vertical stress below a strip',
  source: {
    basis: 'read',
    text: 'elastic strip, q/π (a + sin a cos 2δ), as the tests of an open geotechnical library use it',
  },
  gives: ['sigma_z', 'Pa'],
  from: { q: ['Pa', 'pressure'], x_1: ['m', 'to the near edge'], b: ['m', 'width'], z: ['m', 'depth'] },
  where: {
    a: ['1', 'atan((x_1 + b) / z) - atan(x_1 / z)', 'angle that the strip subtends'],
    m: ['1', '(atan((x_1 + b) / z) + atan(x_1 / z)) / 2', 'from the vertical to its middle'],
  },
  as: 'q / pi * (a + sin(a) * cos(2 * m))',
  valid: ['z > 0'],
})

export const stripShear = formula({
  id: 'ground.surcharge.strip-shear',
  title: 'Shear stress below a strip',
  source: {
    basis: 'read',
    text: 'elastic strip, q/π sin a sin 2δ, as the tests of an open geotechnical library use it',
  },
  gives: ['tau', 'Pa'],
  from: { q: ['Pa', 'pressure'], x_1: ['m', 'to the near edge'], b: ['m', 'width'], z: ['m', 'depth'] },
  where: {
    a: ['1', 'atan((x_1 + b) / z) - atan(x_1 / z)', 'angle that the strip subtends'],
    m: ['1', '(atan((x_1 + b) / z) + atan(x_1 / z)) / 2', 'from the vertical to its middle'],
  },
  as: 'q / pi * sin(a) * sin(2 * m)',
  valid: ['z > 0'],
})

export const circleVertical = formula({
  id: 'ground.surcharge.circle-vertical',
  title: 'Vertical stress below the centre of a loaded circle',
  source: { basis: 'read', text: 'q [1 − (1 + (a/z)²)^−1.5], as the tests of an open geotechnical library use it' },
  gives: ['sigma_z', 'Pa'],
  from: { q: ['Pa', 'pressure'], a: ['m', 'radius'], z: ['m', 'depth'] },
  as: 'q * (1 - (1 + (a / z)^2)^(-1.5))',
  valid: ['z > 0'],
})

export const circleRadial = formula({
  id: 'ground.surcharge.circle-radial',
  title: 'Horizontal stress below the centre of a loaded circle',
  source: { basis: 'derived', text: 'Boussinesq integrated over the circle; the middle term has 2(1 + ν)' },
  gives: ['sigma_r', 'Pa'],
  from: { q: ['Pa', 'pressure'], a: ['m', 'radius'], z: ['m', 'depth'], nu: ['1', "Poisson's ratio"] },
  where: { s: ['1', 'z / sqrt(a^2 + z^2)', 'cosine of the half angle'] },
  as: 'q / 2 * (1 + 2 * nu - 2 * (1 + nu) * s + s^3)',
  valid: ['z > 0', 'nu <= 0.5'],
})

export const spread = formula({
  id: 'ground.surcharge.spread',
  title: 'Mean pressure of a pad spread two down to one out',
  source: {
    basis: 'read',
    text: 'FHWA GEC-6 (FHWA-SA-02-054) App. B example 1, as an open geotechnical library quotes it',
  },
  gives: ['q_z', 'Pa'],
  from: { P: ['N', 'load'], B: ['m', 'width'], L: ['m', 'length'], z: ['m', 'depth below the pad'] },
  as: 'P / ((B + z) * (L + z))',
  valid: ['z >= 0'],
})
