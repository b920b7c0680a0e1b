import { formula } from '../working/formula.ts'

/** Working length of a leg laid in several falls. */
export const legLength = formula({
  id: 'lift.leg.length',
  title: 'Length of a leg between its ends',
  source: { basis: 'derived', text: 'working length of the item over the falls it is laid in' },
  gives: ['L', 'm'],
  from: { l: ['m', 'working length of the item'], p: ['1', 'falls side by side'] },
  as: 'l / p',
  valid: ['l > 0', 'p >= 1'],
})

/** Stiffness of a leg laid in several falls. */
export const legStiffness = formula({
  id: 'lift.leg.stiffness',
  title: 'Axial stiffness EA of a leg',
  source: { basis: 'derived', text: 'EA of the item times the falls side by side' },
  gives: ['K', 'N'],
  from: { EA: ['N', 'axial stiffness of the item'], p: ['1', 'falls side by side'] },
  as: 'EA * p',
  valid: ['EA > 0', 'p >= 1'],
})

/** Rated load of a leg, in force, with uneven falls. */
export const legRating = formula({
  id: 'lift.leg.rating',
  title: 'Force that a leg is rated for',
  source: {
    basis: 'read',
    text: 'marine lifting guideline 0027/ND 5.8: of two falls over a pin one takes 55 %, of four 55 % of that; excerpts read',
  },
  gives: ['F', 'N'],
  from: {
    R: ['kg', 'rated load of the item in straight lift'],
    g: ['m/s2', 'acceleration of gravity'],
    p: ['1', 'falls side by side'],
  },
  as: 'R * g / 0.55^(ln(p) / ln(2))',
  valid: ['p >= 1', 'p <= 4'],
})

/** Stiffness of a leg with one more fitting in line. */
export const stiffnessInSeries = formula({
  id: 'lift.leg.in-series',
  title: 'Axial stiffness EA of a leg with a fitting in line',
  source: { basis: 'derived', text: 'springs in series: 1/k = l/EA + m/EF, over the length of both' },
  gives: ['K', 'N'],
  from: {
    l: ['m', 'length so far'],
    EA: ['N', 'axial stiffness so far'],
    m: ['m', 'length of the fitting'],
    EF: ['N', 'axial stiffness of the fitting'],
  },
  as: '(l + m) / (l / EA + m / EF)',
  valid: ['l > 0', 'EA > 0', 'm > 0', 'EF > 0'],
})

/** Stiffness of a leg with one more fitting in line that gives nothing. */
export const stiffnessWithRigid = formula({
  id: 'lift.leg.with-rigid',
  title: 'Axial stiffness EA of a leg with a fitting in line that does not stretch',
  source: { basis: 'derived', text: 'the same stretch at the same pull, over the length of both' },
  gives: ['K', 'N'],
  from: {
    l: ['m', 'length so far'],
    EA: ['N', 'axial stiffness so far'],
    m: ['m', 'length of the fitting'],
  },
  as: 'EA * (l + m) / l',
  valid: ['l > 0', 'EA > 0'],
})
