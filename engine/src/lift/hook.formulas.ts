import { formula } from '../working/formula.ts'

/** Mass of several like items. */
export const itemsMass = formula({
  id: 'lift.items.mass',
  title: 'Mass of like items',
  source: { basis: 'derived', text: 'count × mass of one' },
  gives: ['M', 'kg'],
  from: { n: ['1', 'count'], m: ['kg', 'mass of one'] },
  as: 'n * m',
})

/** Load with the hoist factor, for a rating that does not hold it. */
export const loadWithDynamics = formula({
  id: 'lift.hook.load-with-dynamics',
  title: 'Load with the hoist factor, which the rating does not include',
  source: { basis: 'derived', text: 'static load × hoist factor; once, on the load side' },
  gives: ['F', 'kg'],
  from: { m: ['kg', 'static load'], phi: ['1', 'hoist factor'] },
  as: 'm * phi',
  valid: ['phi >= 1'],
})

/** Part of a rating that the plan may use. */
export const allowedLoad = formula({
  id: 'lift.hook.allowed-load',
  title: 'Load that the plan may put on the hook',
  source: { basis: 'derived', text: 'rated load × the share that the plan may use' },
  gives: ['P', 'kg'],
  from: { R: ['kg', 'rated load'], s: ['1', 'share that may be used'] },
  as: 'R * s',
})

/** Part of a rating that a machine may be planned to with a reserve above its share. */
export const reserveShare = formula({
  id: 'lift.hook.reserve-share',
  title: 'Share of its rating that a machine may take of a load that several share',
  source: {
    basis: 'read',
    text: 'Mobile Crane Code of Practice (Queensland), 14.3.2, web edition: each crane rated 20 % above its share where two lift together, 33 % with three, 50 % with four or more',
  },
  gives: ['s', '1'],
  from: { r: ['1', 'reserve of the rating above the share'] },
  as: '1 / (1 + r)',
  valid: ['r >= 0'],
})

/** Share of a rating that a load is. */
export const loadShare = formula({
  id: 'lift.hook.share',
  title: 'Load as a share of the rating',
  source: { basis: 'derived', text: 'load / rated load' },
  gives: ['u', '1'],
  from: { m: ['kg', 'load'], R: ['kg', 'rated load'] },
  as: 'm / R',
  valid: ['R > 0'],
})

/** Weight of a mass. */
export const weightOf = formula({
  id: 'lift.weight',
  title: 'Weight of a mass, or force that a rating in mass stands for',
  source: { basis: 'derived', text: 'm × g' },
  gives: ['W', 'N'],
  from: { m: ['kg', 'mass'], g: ['m/s2', 'acceleration of gravity'] },
  as: 'm * g',
})

/** Distance in plan. */
export const planDistance = formula({
  id: 'lift.crane.radius',
  title: 'Radius of a crane: distance in plan from its slewing centre',
  source: { basis: 'derived', text: 'theorem of Pythagoras' },
  gives: ['r', 'm'],
  from: {
    x: ['m', 'load, site x'],
    y: ['m', 'load, site y'],
    x0: ['m', 'slewing centre, site x'],
    y0: ['m', 'slewing centre, site y'],
  },
  as: 'sqrt((x - x0)^2 + (y - y0)^2)',
})
