import { formula } from '../working/formula.ts'

/** Load of a hook on one header beam. */
export const headerLoad = formula({
  id: 'lift.header.load',
  title: 'Load of a hook on one of the header beams',
  source: { basis: 'derived', text: 'load below the hook, block and trolley, with the hoist factor, shared evenly' },
  gives: ['P', 'N'],
  from: {
    m: ['kg', 'load below the hook'],
    m_b: ['kg', 'block and links'],
    m_t: ['kg', 'trolley and what travels with it'],
    g: ['m/s2', 'acceleration of gravity'],
    phi: ['1', 'hoist factor'],
    n: ['1', 'header beams'],
  },
  as: '(phi * (m + m_b) + m_t) * g / n',
  valid: ['n >= 1', 'phi >= 1'],
})

/** Own weight of a beam of steel per length. */
export const steelWeight = formula({
  id: 'lift.header.own-weight',
  title: 'Own weight of a beam of steel per length',
  source: {
    basis: 'derived',
    text: 'area × density × gravity; a tenth for stiffeners and diaphragms is common practice',
  },
  gives: ['w', 'N/m'],
  from: { A: ['m2', 'area'], rho: ['kg/m3', 'density of steel'], g: ['m/s2', 'acceleration of gravity'] },
  as: '1.1 * A * rho * g',
})

/** Distance between two places. */
export const spanBetween = formula({
  id: 'lift.header.span',
  title: 'Span between the rails',
  source: { basis: 'derived', text: 'difference of their places' },
  gives: ['L', 'm'],
  from: { x_0: ['m', 'one rail'], x_1: ['m', 'the other'] },
  as: 'abs(x_1 - x_0)',
})

/** Half of a depth. */
export const topFlange = formula({
  id: 'lift.header.top-flange',
  title: 'Height of the top flange over the shear centre',
  source: { basis: 'derived', text: 'half of the depth: trolleys run on top, where they push the flange over' },
  gives: ['z_g', 'm'],
  from: { h: ['m', 'depth'] },
  as: 'h / 2',
})
