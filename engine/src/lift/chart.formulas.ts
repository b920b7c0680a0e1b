import { formula } from '../working/formula.ts'

export const betweenRows = formula({
  id: 'lift.crane.between-rows',
  title: 'Rated load between two rows of a chart whose maker permits a straight line',
  source: {
    basis: 'derived',
    text: 'straight line; where tipping governs the chord lies above the true curve, so only where the chart says so',
  },
  gives: ['R', 'kg'],
  from: {
    r: ['m', 'radius'],
    r_1: ['m', 'radius of the row before'],
    R_1: ['kg', 'rated load of that row'],
    r_2: ['m', 'radius of the row after'],
    R_2: ['kg', 'rated load of that row'],
  },
  as: 'R_1 + (R_2 - R_1) * (r - r_1) / (r_2 - r_1)',
  valid: ['r >= r_1', 'r <= r_2', 'r_2 > r_1'],
})

export const netCapacity = formula({
  id: 'lift.crane.net-capacity',
  title: 'What a chart leaves for the load and its rigging',
  source: {
    basis: 'read',
    text: 'load charts quiz of a crane safety body: gross capacity less block, ball, stowed extension and auxiliary head',
  },
  gives: ['N', 'kg'],
  from: { G: ['kg', 'gross rated load of the chart'], D: ['kg', 'what the chart counts as load'] },
  as: 'G - D',
})

export const ropeMass = formula({
  id: 'lift.crane.rope-mass',
  title: 'Mass of the hoist rope between head and block',
  source: { basis: 'derived', text: 'parts × length × mass per length; counts in a deep shaft' },
  gives: ['M', 'kg'],
  from: {
    n: ['1', 'parts of rope'],
    z_head: ['m', 'head, site z'],
    z_hook: ['m', 'lowest hook, site z'],
    w: ['kg/m', 'mass per length'],
  },
  as: 'n * (z_head - z_hook) * w',
  valid: ['z_head >= z_hook'],
})
