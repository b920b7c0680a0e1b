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
