import { formula } from '../working/formula.ts'

/** Working time on the bolts of one joint, one crew, without setting up. */
export const boltsTime = formula({
  id: 'strip.joint.bolts-time',
  title: 'Working time on the bolts of a joint',
  source: { basis: 'derived', text: 'number of bolts times the time for one; rates are the project’s own' },
  gives: ['t', 's'],
  from: { n: ['1', 'bolts'], tau: ['s', 'time for one bolt'] },
  as: 'n * tau',
})

/** Time to cut or gouge a weld open. */
export const cuttingTime = formula({
  id: 'strip.joint.cutting-time',
  title: 'Time to cut a weld open',
  source: { basis: 'derived', text: 'length over cutting speed' },
  gives: ['t', 's'],
  from: { L: ['m', 'length of the weld'], v: ['m/s', 'length cut or gouged per time'] },
  as: 'L / v',
  valid: ['v > 0'],
})

/** Weld metal of an equal-leg fillet, also taken for a groove of that throat. */
export const weldMetal = formula({
  id: 'strip.joint.weld-metal',
  title: 'Weld metal to lay',
  source: {
    basis: 'derived',
    text: 'equal-leg fillet: leg z = a √2, section z²/2 = a²; taken for grooves of the same throat as well',
  },
  gives: ['m', 'kg'],
  from: { a: ['m', 'throat'], L: ['m', 'length of the weld'], rho: ['kg/m3', 'density of steel'] },
  as: 'a^2 * L * rho',
})

/** Time to lay weld metal. */
export const layingTime = formula({
  id: 'strip.joint.laying-time',
  title: 'Time to lay weld metal',
  source: { basis: 'derived', text: 'mass over deposition rate' },
  gives: ['t', 's'],
  from: { m: ['kg', 'weld metal'], q: ['kg/s', 'weld metal laid per time'] },
  as: 'm / q',
  valid: ['q > 0'],
})

/** Time to set up and change tools at one joint. */
export const toolChangeTime = formula({
  id: 'strip.joint.tool-change-time',
  title: 'Time to set up and change tools at a joint',
  source: { basis: 'derived', text: 'number of changes times the time for one; both are the project’s own' },
  gives: ['t', 's'],
  from: { n: ['1', 'times a tool is set up or changed'], tau: ['s', 'time for one'] },
  as: 'n * tau',
})

/** What the bolts left in a half released joint have to hold. */
export const restOnBolts = formula({
  id: 'strip.release.rest',
  title: 'Weight that the bolts left have to hold',
  source: { basis: 'derived', text: 'vertical equilibrium: weight less the share on the hook and what jacks carry' },
  gives: ['F', 'N'],
  from: {
    m: ['kg', 'mass of the piece'],
    g: ['m/s2', 'acceleration of gravity'],
    h: ['1', 'share of the weight on the hook'],
    P: ['N', 'carried by jacks and props'],
  },
  as: 'max(m * g * (1 - h) - P, 0)',
  valid: ['h >= 0', 'h <= 1'],
})

/** What the bolts left in a half released joint can hold. */
export const heldByBolts = formula({
  id: 'strip.release.held',
  title: 'What the bolts left can hold',
  source: { basis: 'derived', text: 'number of bolts times the resistance that the licensed engineer has set for one' },
  gives: ['F', 'N'],
  from: { n: ['1', 'bolts still in'], R: ['N', 'resistance of one bolt'] },
  as: 'n * R',
})
