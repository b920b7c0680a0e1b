import { formula } from '../working/formula.ts'

const derived = (text: string) => ({ basis: 'derived', text }) as const

/** What is dug out for one stage of a round shaft. */
export const excavatedVolume = formula({
  id: 'programme.ground.excavated',
  title: 'Volume of a round excavation, in the solid',
  source: derived('cylinder'),
  gives: ['V', 'm3'],
  from: { D: ['m', 'diameter that is dug'], a: ['m', 'level of its top'], b: ['m', 'level of its bottom'] },
  as: 'pi / 4 * D^2 * (a - b)',
  valid: ['D > 0', 'a >= b'],
})

/** Concrete of a cradle bed of even thickness over its arc of contact. */
export const cradleVolume = formula({
  id: 'programme.ground.cradle',
  title: 'Volume of a cradle bed',
  source: derived('sector of a ring over the length: 2θ/2 · ((R + t)² − R²)'),
  gives: ['V', 'm3'],
  from: {
    L: ['m', 'length'],
    R: ['m', 'radius of the bed'],
    t: ['m', 'thickness at the invert'],
    theta: ['rad', 'half angle of the arc'],
  },
  as: 'L * theta * ((R + t)^2 - R^2)',
  valid: ['R > 0', 'theta > 0'],
})

const DAYS = derived('quantity ÷ (rate × gangs side by side) + days beside the rate')
const GANGS = { k: ['1', 'gangs or rigs side by side'], f: ['1', 'working days beside the rate'] } as const

/** Working days for a number of piles or wells. */
export const daysByNumber = formula({
  id: 'programme.ground.days-by-number',
  title: 'Working days for a number of like things',
  source: DAYS,
  gives: ['d', '1'],
  from: { Q: ['1', 'number'], r: ['1', 'number a working day'], ...GANGS },
  as: 'Q / (r * k) + f',
  valid: ['r > 0', 'k >= 1', 'f >= 0'],
})

/** Working days for a volume. */
export const daysByVolume = formula({
  id: 'programme.ground.days-by-volume',
  title: 'Working days for a volume',
  source: DAYS,
  gives: ['d', '1'],
  from: { Q: ['m3', 'volume'], r: ['m3', 'volume a working day'], ...GANGS },
  as: 'Q / (r * k) + f',
  valid: ['r > 0', 'k >= 1', 'f >= 0'],
})

/** Working days for a length to be driven. */
export const daysByLength = formula({
  id: 'programme.ground.days-by-length',
  title: 'Working days for a length',
  source: DAYS,
  gives: ['d', '1'],
  from: { Q: ['m', 'length'], r: ['m', 'length a working day'], ...GANGS },
  as: 'Q / (r * k) + f',
  valid: ['r > 0', 'k >= 1', 'f >= 0'],
})
