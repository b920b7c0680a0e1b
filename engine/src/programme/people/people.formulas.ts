import { formula } from '../../working/formula.ts'

/** How far a count below ground is from the board. */
export const uncounted = formula({
  id: 'programme.people.uncounted',
  title: 'People on the board and not counted, or counted and not on it',
  source: {
    basis: 'derived',
    text: 'checked in, less checked out, less counted below; 29 CFR 1926.800(c) asks for the board',
  },
  gives: ['d', '1'],
  from: {
    I: ['1', 'lines of the board checked in by then'],
    O: ['1', 'lines of the board checked out by then'],
    C: ['1', 'people counted below ground'],
  },
  as: 'abs(I - O - C)',
})

/** A reading of gas against the most that may be there. */
export const gasMost = formula({
  id: 'programme.people.gas-most',
  title: 'Reading of gas as a share of its limit',
  source: { basis: 'derived', text: 'reading ÷ limit' },
  gives: ['u', '1'],
  from: { c: ['1', 'reading'], L: ['1', 'the most that may be there'] },
  as: 'c / L',
  valid: ['L > 0', 'c >= 0'],
})

/** A reading of what has to be there, against the least. */
export const gasLeast = formula({
  id: 'programme.people.gas-least',
  title: 'The least that has to be there as a share of the reading',
  source: { basis: 'derived', text: 'least ÷ reading' },
  gives: ['u', '1'],
  from: { c: ['1', 'reading'], L: ['1', 'the least that has to be there'] },
  as: 'L / c',
  valid: ['c > 0', 'L >= 0'],
})

/** Fresh air for people and for diesels. */
export const airNeeded = formula({
  id: 'programme.people.air',
  title: 'Fresh air for people and diesels',
  source: {
    basis: 'read',
    text: '29 CFR 1926.800(k)(10)(ii) (excerpt read): air for the brake horsepower of diesels, in addition to that for people',
  },
  gives: ['Q', 'm3/s'],
  from: {
    n: ['1', 'people at one time'],
    q: ['m3/s', 'air for each person'],
    P: ['W', 'power of diesels'],
    d: ['m3/J', 'air for each unit of diesel power'],
  },
  as: 'n * q + P * d',
  valid: ['n >= 0', 'P >= 0'],
})
