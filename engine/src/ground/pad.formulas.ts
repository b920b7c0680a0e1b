import { formula } from '../working/formula.ts'

export const weightOf = formula({
  id: 'ground.load.weight',
  title: 'Weight of a mass',
  source: { basis: 'derived', text: 'W = g m' },
  gives: ['W', 'N'],
  from: { g: ['m/s2', 'gravity'], m: ['kg', 'mass'] },
  as: 'g * m',
})

export const meanPressure = formula({
  id: 'ground.pad.mean-pressure',
  title: 'Mean pressure under a load',
  source: { basis: 'derived', text: 'load over area' },
  gives: ['q', 'Pa'],
  from: { P: ['N', 'load'], A: ['m2', 'area'] },
  as: 'P / A',
  valid: ['A > 0'],
})

export const edgePressure = formula({
  id: 'ground.pad.edge-pressure',
  title: 'Largest pressure under a rectangular pad loaded off its centre',
  source: { basis: 'derived', text: 'linear contact pressure, no tension; contact shortens beyond e = B/6' },
  gives: ['q_max', 'Pa'],
  from: {
    P: ['N', 'load'],
    B: ['m', 'side along which the load is off centre'],
    L: ['m', 'other side'],
    e: ['m', 'distance off centre'],
  },
  as: 'if(e <= B / 6, P / (B * L) * (1 + 6 * e / B), 2 * P / (3 * L * (B / 2 - e)))',
  valid: ['e >= 0', 'e < B / 2'],
})

export const farEdgePressure = formula({
  id: 'ground.pad.far-edge-pressure',
  title: 'Least pressure under a rectangular pad loaded off its centre',
  source: { basis: 'derived', text: 'linear contact pressure, no tension' },
  gives: ['q_min', 'Pa'],
  from: {
    P: ['N', 'load'],
    B: ['m', 'side along which the load is off centre'],
    L: ['m', 'other side'],
    e: ['m', 'distance off centre'],
  },
  as: 'P / (B * L) * max(1 - 6 * e / B, 0)',
  valid: ['e >= 0', 'e < B / 2'],
})

export const contactLength = formula({
  id: 'ground.pad.contact-length',
  title: 'Length in contact under a load off its centre',
  source: { basis: 'derived', text: 'linear contact pressure, no tension' },
  gives: ['L_c', 'm'],
  from: { B: ['m', 'side'], e: ['m', 'distance off centre'] },
  as: 'min(B, 3 * (B / 2 - e))',
  valid: ['e >= 0', 'e < B / 2'],
})

export const cornerPressure = formula({
  id: 'ground.pad.corner-pressure',
  title: 'Largest pressure under a pad loaded off its centre both ways, within the kern',
  source: { basis: 'derived', text: 'linear contact pressure' },
  gives: ['q_max', 'Pa'],
  from: {
    P: ['N', 'load'],
    B: ['m', 'one side'],
    L: ['m', 'other side'],
    e_B: ['m', 'distance off centre along B'],
    e_L: ['m', 'distance off centre along L'],
  },
  where: { k: ['1', '6 * e_B / B + 6 * e_L / L', 'sum that must not exceed one'] },
  as: 'P / (B * L) * (1 + k)',
  valid: ['k <= 1', 'e_B >= 0', 'e_L >= 0'],
})

export const circleEdgePressure = formula({
  id: 'ground.pad.circle-edge-pressure',
  title: 'Largest pressure under a round pad loaded off its centre, within the kern r/4',
  source: { basis: 'derived', text: 'linear contact pressure' },
  gives: ['q_max', 'Pa'],
  from: { P: ['N', 'load'], r: ['m', 'radius'], e: ['m', 'distance off centre'] },
  as: 'P / (pi * r^2) * (1 + 4 * e / r)',
  valid: ['e >= 0', 'e <= r / 4'],
})

export const effectiveWidth = formula({
  id: 'ground.pad.effective-width',
  title: 'Width of the pad that is centred under the load',
  source: { basis: 'read', text: 'Meyerhof; FHWA GEC-6 App. B example 1, as an open geotechnical library quotes it' },
  gives: ["B'", 'm'],
  from: { B: ['m', 'width'], e: ['m', 'distance off centre'] },
  as: 'B - 2 * e',
  valid: ['e >= 0', 'e < B / 2'],
})

export const effectivePressure = formula({
  id: 'ground.pad.effective-pressure',
  title: 'Pressure on the effective area',
  source: { basis: 'read', text: 'Meyerhof; FHWA GEC-6 App. B example 1, as an open geotechnical library quotes it' },
  gives: ['q', 'Pa'],
  from: {
    P: ['N', 'load'],
    B: ['m', 'width'],
    L: ['m', 'length'],
    e_B: ['m', 'distance off centre along B'],
    e_L: ['m', 'distance off centre along L'],
  },
  as: 'P / ((B - 2 * e_B) * (L - 2 * e_L))',
  valid: ['e_B < B / 2', 'e_L < L / 2'],
})

export const bayPressure = formula({
  id: 'ground.bay.pressure',
  title: 'Largest pressure that a piece puts on its packing',
  source: {
    basis: 'derived',
    text: 'linear contact pressure over the plan outline, packing spread evenly over a share of it',
  },
  gives: ['q', 'Pa'],
  from: {
    W: ['N', 'weight of the piece'],
    s: ['1', 'share of the outline that bears'],
    A: ['m2', 'area of the plan outline'],
    e: ['m', 'distance of the centre of gravity from the middle of the outline'],
    k: ['m', 'reach of the kern of the outline that way'],
  },
  as: 'W / (s * A) * (1 + e / k)',
  valid: ['s > 0', 's <= 1', 'e <= k'],
})

export const rectangleArea = formula({
  id: 'ground.pad.area',
  title: 'Area of a rectangle',
  source: { basis: 'derived', text: 'length by width' },
  gives: ['A', 'm2'],
  from: { B: ['m', 'one side'], L: ['m', 'other side'] },
  as: 'B * L',
})

export const matArea = formula({
  id: 'ground.mat.area',
  title: 'Area of mat that the allowable pressure asks for',
  source: { basis: 'read', text: 'Duerr, Effective Bearing Length of Crane Mats, 2010, eq. 1' },
  gives: ['A', 'm2'],
  from: { P: ['N', 'load'], W: ['N', 'weight of the mat'], q_a: ['Pa', 'allowable pressure'] },
  as: '(P + W) / q_a',
})

export const matBending = formula({
  id: 'ground.mat.bending',
  title: 'Bending stress of a mat beyond the track or float',
  source: { basis: 'read', text: 'Duerr, Effective Bearing Length of Crane Mats, 2010, eq. 2 to 6' },
  gives: ['f_b', 'Pa'],
  from: {
    P: ['N', 'load'],
    L: ['m', 'bearing length of the mat'],
    B: ['m', 'width of the mat'],
    C: ['m', 'width of the track or float'],
    d: ['m', 'thickness of the mat'],
  },
  where: {
    L_c: ['m', '(L - C) / 2', 'cantilever'],
    q: ['Pa', 'P / (L * B)', 'pressure that bends it'],
    M: ['N m', 'q * B * L_c^2 / 2', 'moment'],
  },
  as: '6 * M / (B * d^2)',
  valid: ['L >= C'],
})

export const matShear = formula({
  id: 'ground.mat.shear',
  title: 'Shear stress of a mat beyond the track or float',
  source: { basis: 'read', text: 'Duerr, Effective Bearing Length of Crane Mats, 2010, eq. 7, 8' },
  gives: ['f_v', 'Pa'],
  from: {
    P: ['N', 'load'],
    L: ['m', 'bearing length of the mat'],
    B: ['m', 'width of the mat'],
    C: ['m', 'width of the track or float'],
    d: ['m', 'thickness of the mat'],
  },
  where: {
    q: ['Pa', 'P / (L * B)', 'pressure that bends it'],
    V: ['N', 'q * B * ((L - C) / 2 - d)', 'shear at one thickness from the float'],
  },
  as: '1.5 * V / (B * d)',
  valid: ['L >= C + 2 * d'],
})

export const sharedByPiles = formula({
  id: 'ground.bay.pile-load',
  title: 'Load of one pile of a bay',
  source: { basis: 'derived', text: 'shared evenly by a rigid slab' },
  gives: ['P', 'N'],
  from: { W: ['N', 'everything on the bay'], n: ['1', 'piles'] },
  as: 'W / n',
  valid: ['n > 0'],
})

export const equivalentLoad = formula({
  id: 'ground.pad.equivalent-load',
  title: 'Load of an even pressure over a rectangle',
  source: { basis: 'derived', text: 'pressure by area' },
  gives: ['P', 'N'],
  from: { q: ['Pa', 'pressure'], B: ['m', 'one side'], L: ['m', 'other side'] },
  as: 'q * B * L',
})
