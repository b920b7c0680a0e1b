import { formula } from '../working/formula.ts'

/** Time to hoist or lower. */
export const hoistTime = formula({
  id: 'lift.time.hoist',
  title: 'Time to hoist or lower',
  source: { basis: 'derived', text: 'height / speed' },
  gives: ['t', 's'],
  from: { h: ['m', 'height hoisted and lowered'], v: ['m/s', 'hoist speed'] },
  as: 'h / v',
  valid: ['v > 0'],
})

/** Time to travel. */
export const travelTime = formula({
  id: 'lift.time.travel',
  title: 'Time to travel with the load',
  source: { basis: 'derived', text: 'distance / speed' },
  gives: ['t', 's'],
  from: { s: ['m', 'distance'], v: ['m/s', 'travel speed'] },
  as: 's / v',
  valid: ['v > 0'],
})

/** Time to turn. */
export const turnTime = formula({
  id: 'lift.time.turn',
  title: 'Time to turn',
  source: { basis: 'derived', text: 'angle / speed of turning' },
  gives: ['t', 's'],
  from: { a: ['rad', 'angle turned through'], w: ['rad/s', 'speed of turning'] },
  as: 'a / w',
  valid: ['w > 0'],
})

/** Time to slew. */
export const slewTime = formula({
  id: 'lift.time.slew',
  title: 'Time to slew with the load',
  source: { basis: 'derived', text: 'angle about the slewing centre / speed of slewing' },
  gives: ['t', 's'],
  from: { a: ['rad', 'angle in plan between the two places, the shorter way round'], w: ['rad/s', 'speed of slewing'] },
  as: 'a / w',
  valid: ['w > 0'],
})

/** Time to luff. */
export const luffTime = formula({
  id: 'lift.time.luff',
  title: 'Time to luff with the load',
  source: { basis: 'derived', text: 'change of the radius / its speed' },
  gives: ['t', 's'],
  from: { r: ['m', 'change of the radius'], v: ['m/s', 'speed at which the radius changes'] },
  as: 'r / v',
  valid: ['v > 0'],
})
