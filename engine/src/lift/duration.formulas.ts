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
