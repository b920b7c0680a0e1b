import { formula } from '../working/formula.ts'

/** Speed at which drag on a hanging piece reaches the permitted side load. */
export const sideLoadWind = formula({
  id: 'lift.wind.side-load',
  title: 'Wind at which drag on the hanging piece reaches the permitted side load',
  source: { basis: 'derived', text: 'q·C·A = s·m·g with q = ½ρv²; steady wind, the piece hanging free' },
  gives: ['v', 'm/s'],
  from: {
    s: ['1', 'permitted horizontal force as a share of the load'],
    m: ['kg', 'mass, its lower value: a light piece is moved by less wind'],
    g: ['m/s2', 'acceleration of gravity'],
    rho: ['kg/m3', 'density of air'],
    C: ['1', 'drag coefficient'],
    A: ['m2', 'sail area, the largest over all headings'],
  },
  as: 'sqrt(2 * s * m * g / (rho * C * A))',
  valid: ['A > 0', 'C > 0', 'rho > 0'],
})

/** Chart limit brought down for a piece with more sail than the chart was made for. */
export const deratedWind = formula({
  id: 'lift.wind.derated',
  title: 'Wind limit of the machine for the sail of this piece',
  source: {
    basis: 'memory',
    text: 'FEM 5.016 and EN 13000: v_chart·√(reference area·m/(C·A)), only where the sail per mass exceeds the reference; the reference figure read in crane manuals',
  },
  gives: ['v', 'm/s'],
  from: {
    v0: ['m/s', "machine's own limit, gust"],
    a: ['m2/kg', 'sail per mass that the machine allows for, drag included'],
    m: ['kg', 'mass, its lower value'],
    C: ['1', 'drag coefficient'],
    A: ['m2', 'sail area, the largest over all headings'],
  },
  where: { r: ['1', 'C * A / (a * m)', 'sail of the piece over the reference'] },
  as: 'v0 / sqrt(max(1, r))',
  valid: ['A > 0', 'C > 0', 'a > 0'],
})

/** Reference of a machine whose figure is a projected area with a drag coefficient beside it. */
export const referenceSail = formula({
  id: 'lift.wind.reference-sail',
  title: 'Sail per mass that the machine allows for, drag included',
  source: { basis: 'derived', text: 'projected area per mass × its drag coefficient' },
  gives: ['a', 'm2/kg'],
  from: { A0: ['m2/kg', 'projected area per mass'], C0: ['1', 'its drag coefficient'] },
  as: 'A0 * C0',
})

/** Angle of a load hanging free in a steady wind. */
export const windLean = formula({
  id: 'lift.wind.lean',
  title: 'Lean of the hoist line in steady wind',
  source: { basis: 'derived', text: 'tan α = q·C·A/(m·g), q = ½ρv²' },
  gives: ['alpha', 'rad'],
  from: {
    v: ['m/s', 'wind speed'],
    m: ['kg', 'mass'],
    g: ['m/s2', 'acceleration of gravity'],
    rho: ['kg/m3', 'density of air'],
    C: ['1', 'drag coefficient'],
    A: ['m2', 'sail area'],
  },
  where: { F: ['N', '0.5 * rho * v^2 * C * A', 'drag'] },
  as: 'atan(F / (m * g))',
  valid: ['m > 0'],
})

const PROFILE =
  'operating manual of a mobile crane, permissible wind speed, figure on wind over height (EN 13000 method)'

/** Gust at a height over open ground, from the mean at 10 m. */
export const gustAtHeight = formula({
  id: 'lift.wind.gust-at-height',
  title: 'Gust of 3 s at a height, from the mean at 10 m',
  source: { basis: 'read', text: PROFILE },
  gives: ['v', 'm/s'],
  from: {
    v10: ['m/s', 'mean of 10 min at 10 m'],
    z: ['m', 'height over the ground'],
    h: ['m', 'height of the reading, 10 m'],
  },
  as: '((z / h)^0.14 + 0.4) * v10',
  valid: ['z > 0'],
})

/** Gust at a height, from the gust at 10 m. */
export const gustRaised = formula({
  id: 'lift.wind.gust-raised',
  title: 'Gust of 3 s at a height, from the gust at 10 m',
  source: { basis: 'derived', text: `the same profile at both heights: ${PROFILE}` },
  gives: ['v', 'm/s'],
  from: {
    g10: ['m/s', 'gust of 3 s at 10 m'],
    z: ['m', 'height over the ground'],
    h: ['m', 'height of the reading, 10 m'],
  },
  as: '((z / h)^0.14 + 0.4) / 1.4 * g10',
  valid: ['z > 0'],
})

/** Gust from the mean at one place. */
export const gustOfMean = formula({
  id: 'lift.wind.gust-of-mean',
  title: 'Gust from the mean at one height',
  source: { basis: 'derived', text: 'gust factor of the site × mean' },
  gives: ['v', 'm/s'],
  from: { m: ['m/s', 'mean'], G: ['1', 'gust of 3 s over the mean'] },
  as: 'G * m',
})

/** Height over the ground. */
export const heightOver = formula({
  id: 'lift.wind.height',
  title: 'Height of the hook over the collar',
  source: { basis: 'derived', text: 'difference of levels' },
  gives: ['z', 'm'],
  from: { top: ['m', 'upper level'], c: ['m', 'level of the collar'] },
  as: 'top - c',
})

/** Shift in plan of a piece that leans in the wind. */
export const swing = formula({
  id: 'lift.wind.swing',
  title: 'Shift of the piece as the wind leans its hoist line',
  source: { basis: 'derived', text: 'a line of length l at the angle tan α = q·C·A/(m·g); steady wind' },
  gives: ['d', 'm'],
  from: { l: ['m', 'length of the hoist line'], alpha: ['rad', 'lean of the line in the wind'] },
  as: 'l * sin(alpha)',
})
