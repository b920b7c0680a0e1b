import { formula } from '../working/formula.ts'

const ISO_898 = { basis: 'memory', text: 'ISO 898-1: nominal stress area from the basic sizes of the thread' } as const
const VDI = { basis: 'memory', text: 'VDI 2230 Part 1' } as const
const LOADS = {
  basis: 'derived',
  text: 'strength times stress area, as the load tables of ISO 898-1 are made',
} as const

/** Area that a metric thread is taken to hold with. */
export const stressArea = formula({
  id: 'strip.bolting.stress-area',
  title: 'Stress area of a metric thread',
  source: ISO_898,
  gives: ['As', 'm2'],
  from: { d: ['m', 'nominal diameter'], P: ['m', 'pitch'] },
  as: 'pi / 4 * (d - 0.9382 * P)^2',
  valid: ['d > P', 'P > 0'],
})

/** Area that a unified inch thread is taken to hold with. */
export const stressAreaInch = formula({
  id: 'strip.bolting.stress-area-inch',
  title: 'Stress area of a unified inch thread',
  source: { basis: 'memory', text: 'ASME B1.1: π/4 (d − 0.9743/n)², n threads on a length' },
  gives: ['As', 'm2'],
  from: { d: ['m', 'nominal diameter'], P: ['m', 'pitch, one over the threads on a length'] },
  as: 'pi / 4 * (d - 0.9743 * P)^2',
  valid: ['d > P', 'P > 0'],
})

/** Load that a bolt bears without lasting stretch, or at which it breaks: strength times area. */
export const boltLoad = formula({
  id: 'strip.bolting.load',
  title: 'Load of a bolt at a strength',
  source: LOADS,
  gives: ['F', 'N'],
  from: { As: ['m2', 'stress area'], S: ['Pa', 'proof strength, or tensile strength'] },
  as: 'As * S',
})

/** Preload that steelwork aims at. */
export const preloadByStrength = formula({
  id: 'strip.bolting.preload',
  title: 'Preload from the tensile strength',
  source: {
    basis: 'memory',
    text: 'EN 1993-1-8 3.6.1 and EN 1090-2: 0.7 f_ub A_s; ANSI/AISC 360-05 Table J3.1 gives the same share (read in)',
  },
  gives: ['F', 'N'],
  from: { As: ['m2', 'stress area'], Rm: ['Pa', 'tensile strength'] },
  as: '0.7 * As * Rm',
})

/** Diameter at the flanks of a thread. */
export const pitchDiameter = formula({
  id: 'strip.bolting.pitch-diameter',
  title: 'Pitch diameter of a metric thread',
  source: { basis: 'derived', text: 'basic profile of ISO 68-1: d − 2 · 3/8 · P √3/2' },
  gives: ['d2', 'm'],
  from: { d: ['m', 'nominal diameter'], P: ['m', 'pitch'] },
  as: 'd - 3 / 8 * sqrt(3) * P',
})

/** Diameter at the root of a thread. */
export const rootDiameter = formula({
  id: 'strip.bolting.root-diameter',
  title: 'Root diameter of a metric thread',
  source: { basis: 'derived', text: 'basic profile of ISO 68-1 with a root rounded at H/6: d − 2 · 17/24 · P √3/2' },
  gives: ['d3', 'm'],
  from: { d: ['m', 'nominal diameter'], P: ['m', 'pitch'] },
  as: 'd - 17 / 24 * sqrt(3) * P',
})

/** Torque by one factor for all friction. */
export const torqueByFactor = formula({
  id: 'strip.bolting.torque-by-factor',
  title: 'Tightening torque from the nut factor',
  source: { basis: 'common practice', text: 'handbook form T = K F d' },
  gives: ['T', 'N m'],
  from: { K: ['1', 'nut factor'], F: ['N', 'preload'], d: ['m', 'nominal diameter'] },
  as: 'K * F * d',
})

/** Torque by pitch, thread friction and head friction. */
export const torqueByFriction = formula({
  id: 'strip.bolting.torque-by-friction',
  title: 'Tightening torque from friction in the thread and under the head',
  source: VDI,
  gives: ['M', 'N m'],
  from: {
    F: ['N', 'preload'],
    P: ['m', 'pitch'],
    d2: ['m', 'pitch diameter'],
    mu: ['1', 'friction in the thread and under the head'],
    dw: ['m', 'outer diameter under the head'],
    dh: ['m', 'diameter of the hole'],
  },
  where: { D: ['m', '(dw + dh) / 2', 'mean diameter of friction under the head'] },
  as: 'F * (0.159 * P + 0.577 * mu * d2 + D / 2 * mu)',
})

/** Friction that a nut factor stands for. */
export const frictionOfFactor = formula({
  id: 'strip.bolting.friction-of-factor',
  title: 'Friction that a nut factor stands for',
  source: {
    basis: 'derived',
    text: 'K F d set equal to the torque of VDI 2230, with one friction for thread and head',
  },
  gives: ['mu', '1'],
  from: {
    K: ['1', 'nut factor'],
    d: ['m', 'nominal diameter'],
    P: ['m', 'pitch'],
    d2: ['m', 'pitch diameter'],
    dw: ['m', 'outer diameter under the head'],
    dh: ['m', 'diameter of the hole'],
  },
  as: '(K * d - 0.159 * P) / (0.577 * d2 + (dw + dh) / 4)',
})

/** Tension at which a bolt that is turned reaches a share of its yield, torsion of the thread counted. */
export const tensionWhileTurned = formula({
  id: 'strip.bolting.tension-while-turned',
  title: 'Tension at a share of yield while the nut is turned',
  source: VDI,
  gives: ['F', 'N'],
  from: {
    d2: ['m', 'pitch diameter'],
    d3: ['m', 'root diameter'],
    P: ['m', 'pitch'],
    mu: ['1', 'friction in the thread'],
    Rp: ['Pa', 'yield strength'],
    nu: ['1', 'share of yield that may be used'],
  },
  where: { d0: ['m', '(d2 + d3) / 2', 'diameter of the section that is stressed'] },
  as: 'pi / 4 * d0^2 * nu * Rp / sqrt(1 + 3 * (3 * d2 / (2 * d0) * (P / (pi * d2) + 1.155 * mu))^2)',
})

/** Tension at which a bolt that is only pulled reaches a share of its yield. */
export const tensionWhilePulled = formula({
  id: 'strip.bolting.tension-while-pulled',
  title: 'Tension at a share of yield while the bolt is pulled',
  source: { basis: 'derived', text: 'stress area times the share of yield; a tensioner puts no torsion into the bolt' },
  gives: ['F', 'N'],
  from: { As: ['m2', 'stress area'], Rp: ['Pa', 'yield strength'], nu: ['1', 'share of yield that may be used'] },
  as: 'nu * As * Rp',
})

/** Least preload over the scatter. */
export const leastPreload = formula({
  id: 'strip.bolting.least',
  title: 'Least preload over the scatter',
  source: { basis: 'derived', text: 'target less its scatter' },
  gives: ['F', 'N'],
  from: { F0: ['N', 'preload aimed at'], s: ['1', 'scatter to either side'] },
  as: 'F0 * (1 - s)',
  valid: ['s >= 0', 's < 1'],
})

/** Largest preload over the scatter. */
export const mostPreload = formula({
  id: 'strip.bolting.most',
  title: 'Largest preload over the scatter',
  source: { basis: 'derived', text: 'target and its scatter' },
  gives: ['F', 'N'],
  from: { F0: ['N', 'preload aimed at'], s: ['1', 'scatter to either side'] },
  as: 'F0 * (1 + s)',
  valid: ['s >= 0', 's < 1'],
})

/** Load that a tensioner has to apply so that enough remains. */
export const appliedLoad = formula({
  id: 'strip.bolting.applied',
  title: 'Load of the tensioner',
  source: {
    basis: 'common practice',
    text: 'what remains times the transfer factor, which is the tool maker’s or measured; common practice, no source',
  },
  gives: ['F', 'N'],
  from: { F0: ['N', 'preload that is to remain'], k: ['1', 'transfer factor'] },
  as: 'F0 * k',
  valid: ['k >= 1'],
})

/** Pressure of a tensioner. */
export const tensionerPressure = formula({
  id: 'strip.bolting.pressure',
  title: 'Pressure of the tensioner',
  source: { basis: 'derived', text: 'load over pressure area' },
  gives: ['p', 'Pa'],
  from: { F: ['N', 'load of the tensioner'], A: ['m2', 'pressure area'] },
  as: 'F / A',
  valid: ['A > 0'],
})

/** What a pass of several aims at. */
export const passTension = formula({
  id: 'strip.bolting.pass',
  title: 'Preload of a pass',
  source: { basis: 'derived', text: 'share of the preload aimed at' },
  gives: ['F', 'N'],
  from: { F0: ['N', 'preload aimed at'], q: ['1', 'share of the pass'] },
  as: 'q * F0',
})

/** Pull on the bolt that is worst off, from outside. */
export const flangePull = formula({
  id: 'strip.flange.pull',
  title: 'Largest pull of outside loads on one bolt',
  source: {
    basis: 'derived',
    text: 'F/n + M y/Σy², faces rigid; of an arrangement that is not round the farthest bolt about the weakest axis, which is safe for any axis',
  },
  gives: ['Fi', 'N'],
  from: {
    N: ['N', 'pull across the joint; negative presses'],
    n: ['1', 'bolts'],
    M: ['N m', 'tilting moment'],
    y: ['m', 'farthest bolt from the middle'],
    S: ['m2', 'Σ y² of the bolts about the weakest axis'],
  },
  as: 'N / n + M * y / S',
  valid: ['n > 0', 'S > 0'],
})

/** Transverse force that the faces have to hold by friction. */
export const slipForce = formula({
  id: 'strip.flange.slip-force',
  title: 'Force that would slide the faces',
  source: {
    basis: 'derived',
    text: 'torque over the mean arm of the bolts, and shear, added as if they met at one bolt: an upper bound',
  },
  gives: ['Q', 'N'],
  from: { T: ['N m', 'torque'], r: ['m', 'mean arm of the bolts'], V: ['N', 'shear'] },
  as: 'T / r + V',
  valid: ['r > 0'],
})

/** Force that the clamped faces hold by friction. */
export const slipResistance = formula({
  id: 'strip.flange.slip-resistance',
  title: 'Friction of the clamped faces',
  source: {
    basis: 'memory',
    text: 'EN 1993-1-8 3.9: μ (n F − N) / γ_M3, with the least preload over the scatter and the whole pull taken off it; a tilting moment shifts the clamping and leaves its sum',
  },
  gives: ['R', 'N'],
  from: {
    mu: ['1', 'friction between the faces'],
    n: ['1', 'bolts'],
    F: ['N', 'least preload of one bolt'],
    N: ['N', 'pull across the joint'],
    g: ['1', 'partial factor'],
  },
  as: 'mu * max(n * F - max(N, 0), 0) / g',
  valid: ['g > 0'],
})
