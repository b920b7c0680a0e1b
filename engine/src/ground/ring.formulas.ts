import { formula } from '../working/formula.ts'

export const thrust = formula({
  id: 'ground.ring.thrust',
  title: 'Hoop thrust of a ring under uniform outside pressure, per metre of depth',
  source: { basis: 'derived', text: 'equilibrium of half a ring: 2 N = p · 2 r_o; exact at any thickness' },
  gives: ['N', 'N/m'],
  from: { p: ['Pa', 'pressure on the outer face'], r_o: ['m', 'radius of the outer face'] },
  as: 'p * r_o',
})

export const hoopStress = formula({
  id: 'ground.ring.stress',
  title: 'Mean hoop stress in the ring',
  source: { basis: 'derived', text: 'σ = N / t' },
  gives: ['sigma', 'Pa'],
  from: { N: ['N/m', 'hoop thrust'], t: ['m', 'thickness that carries it'] },
  as: 'N / t',
  valid: ['t > 0'],
})

export const designStress = formula({
  id: 'ground.ring.design-stress',
  title: 'Hoop stress with the load factor',
  source: { basis: 'derived', text: 'partial factor on the effect of earth and water' },
  gives: ['sigma_d', 'Pa'],
  from: { gamma_F: ['1', 'partial factor on ring load'], sigma: ['Pa', 'hoop stress'] },
  as: 'gamma_F * sigma',
})

export const plainStrength = formula({
  id: 'ground.ring.plain-strength',
  title: 'Design compressive strength of plain concrete',
  source: {
    basis: 'memory',
    text: 'EN 1992-1-1:2004 3.1.6 and 12.3.1; α_cc,pl recommended 0.8, national annexes differ',
  },
  gives: ['f_cd', 'Pa'],
  from: {
    alpha: ['1', 'coefficient for plain concrete'],
    f_ck: ['Pa', 'characteristic strength'],
    gamma_c: ['1', 'partial factor on concrete strength'],
  },
  as: 'alpha * f_ck / gamma_c',
})

export const eccentricResistance = formula({
  id: 'ground.ring.eccentric-resistance',
  title: 'Thrust that a plain section carries off its centre, per metre',
  source: { basis: 'memory', text: 'EN 1992-1-1:2004 12.6.1 (3), eq. 12.2, η = 1: f_cd · h (1 − 2e/h); no tension' },
  gives: ['N_R', 'N/m'],
  from: {
    f_cd: ['Pa', 'design strength of plain concrete'],
    t: ['m', 'thickness'],
    M: ['N', 'design moment per metre (N m/m)'],
    N: ['N/m', 'design thrust per metre'],
  },
  where: { e: ['m', 'M / N', 'eccentricity'] },
  as: 'f_cd * t * max(1 - 2 * e / t, 0)',
  valid: ['N > 0', 't > 0', 'M >= 0'],
})

export const lame = formula({
  id: 'ground.ring.lame',
  title: 'Hoop stress within a thick ring, compression positive',
  source: { basis: 'derived', text: 'Lamé, elastic, both pressures uniform' },
  gives: ['sigma', 'Pa'],
  from: {
    p_o: ['Pa', 'pressure outside'],
    p_i: ['Pa', 'pressure inside'],
    r_i: ['m', 'inner radius'],
    r_o: ['m', 'outer radius'],
    r: ['m', 'radius looked at'],
  },
  as: '(p_o * r_o^2 - p_i * r_i^2 + (p_o - p_i) * r_i^2 * r_o^2 / r^2) / (r_o^2 - r_i^2)',
  valid: ['r_o > r_i', 'r >= r_i', 'r <= r_o'],
})

export const inwardMovement = formula({
  id: 'ground.ring.inward-movement',
  title: 'Inward movement of the inner face, no pressure inside',
  source: { basis: 'derived', text: 'Lamé, plane strain: u = r_i σ_θ,i (1 − ν²) / E; ν = 0 gives plane stress' },
  gives: ['w', 'm'],
  from: {
    sigma: ['Pa', 'hoop stress at the inner face'],
    r_i: ['m', 'inner radius'],
    E: ['Pa', 'modulus'],
    nu: ['1', "Poisson's ratio"],
  },
  as: 'r_i * sigma * (1 - nu^2) / E',
})

export const buckling = formula({
  id: 'ground.ring.buckling',
  title: 'Pressure at which a free ring buckles',
  source: {
    basis: 'memory',
    text: 'Timoshenko & Gere, Theory of Elastic Stability: 3EI/r³, two lobes; ground support ignored',
  },
  gives: ['p_cr', 'Pa'],
  from: { E: ['Pa', 'modulus, long term'], t: ['m', 'thickness'], r: ['m', 'mean radius'] },
  where: { I: ['m3', 't^3 / 12', 'second moment per metre'] },
  as: '3 * E * I / r^3',
})

export const outOfRound = formula({
  id: 'ground.ring.out-of-round',
  title: 'Moment from a two-lobed deviation of the ring, per metre',
  source: { basis: 'memory', text: 'Timoshenko & Gere: the deviation grows by 1/(1 − p/p_cr)' },
  gives: ['M', 'N'],
  from: {
    p: ['Pa', 'pressure'],
    r: ['m', 'mean radius'],
    w_0: ['m', 'initial deviation on the radius'],
    p_cr: ['Pa', 'buckling pressure of the ring'],
  },
  as: 'p * r * w_0 / (1 - p / p_cr)',
  valid: ['p < p_cr'],
})

export const unequal = formula({
  id: 'ground.ring.unequal',
  title: 'Moment from pressure that varies as cos nθ round a free thin ring, per metre',
  source: { basis: 'derived', text: "N'' + N = p r: M_n = p_n r²/(n² − 1); no ground reaction counted" },
  gives: ['M', 'N'],
  from: { p_n: ['Pa', 'amplitude'], r: ['m', 'mean radius'], n: ['1', 'waves round the ring'] },
  as: 'p_n * r^2 / (n^2 - 1)',
  valid: ['n >= 2'],
})

export const edgeStress = formula({
  id: 'ground.ring.edge-stress',
  title: 'Largest edge stress from thrust and moment',
  source: { basis: 'derived', text: 'N/t + 6M/t²; no tension while M/N ≤ t/6' },
  gives: ['sigma', 'Pa'],
  from: { N: ['N/m', 'thrust'], M: ['N', 'moment per metre (N m/m)'], t: ['m', 'thickness'] },
  as: 'N / t + 6 * M / t^2',
})

export const factoredMoment = formula({
  id: 'ground.ring.factored-moment',
  title: 'Moment with the load factor, per metre',
  source: { basis: 'derived', text: 'partial factor on the effect of earth and water' },
  gives: ['M_d', 'N'],
  from: { gamma_F: ['1', 'partial factor on ring load'], M: ['N', 'moment per metre (N m/m)'] },
  as: 'gamma_F * M',
})

export const factoredThrust = formula({
  id: 'ground.ring.factored-thrust',
  title: 'Thrust with the load factor, per metre',
  source: { basis: 'derived', text: 'partial factor on the effect of earth and water' },
  gives: ['N_d', 'N/m'],
  from: { gamma_F: ['1', 'partial factor on ring load'], N: ['N/m', 'hoop thrust'] },
  as: 'gamma_F * N',
})
