import { formula } from '../working/formula.ts'

/** Tension of a leg if only so many of several like ones carry. */
export const legsByRule = formula({
  id: 'lift.leg.by-rule',
  title: 'Tension of a leg when only some of several like legs carry',
  source: {
    basis: 'read',
    text: '29 CFR 1926.251 guide, chain: four legs rated as three; two opposite legs carry all is common practice for rigid pieces',
  },
  gives: ['T', 'N'],
  from: {
    W: ['N', 'load on the legs'],
    n: ['1', 'legs that carry'],
    beta: ['rad', 'angle of the flattest leg from the vertical'],
  },
  as: 'W / (n * cos(beta))',
  valid: ['n >= 1', 'beta < 1.4'],
})

/** Efficiency of wire rope bent over a pin. */
export const bendEfficiency = formula({
  id: 'lift.sling.bend-efficiency',
  title: 'Strength of wire rope bent over a pin, as a share of straight rope',
  source: {
    basis: 'read',
    text: 'IMCA M 179 as quoted in 0027/ND: 1 − 0.5/√(D/d); rope handbooks agree below D/d = 10',
  },
  gives: ['e', '1'],
  from: { D: ['m', 'pin'], d: ['m', 'body of the sling'] },
  as: '1 - 0.5 / sqrt(D / d)',
  valid: ['D / d >= 1'],
})

/** Rated force of a sling over a pin tighter than its rating assumes. */
export const bentRating = formula({
  id: 'lift.sling.bent-rating',
  title: 'Force that a sling is rated for over this pin',
  source: {
    basis: 'derived',
    text: 'rating × efficiency at this bend / efficiency at the bend that the rating assumes, at most 1',
  },
  gives: ['F', 'N'],
  from: {
    F0: ['N', 'rated force'],
    e: ['1', 'efficiency over this pin'],
    b: ['1', 'D/d that the rating assumes'],
  },
  as: 'F0 * min(1, e / (1 - 0.5 / sqrt(b)))',
  valid: ['b >= 1'],
})
