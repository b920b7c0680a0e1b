import { formula } from '../working/formula.ts'

/** Least distance to a live line by its voltage. */
export const lineDistanceDue = formula({
  id: 'lift.line.distance-due',
  title: 'Least distance to a live line, by its voltage',
  source: {
    basis: 'read',
    text: '29 CFR 1926.1408 Table A as two public pages quote it: 10, 15, 20, 25, 35 and 45 ft up to 50, 200, 350, 500, 750 and 1000 kV; beyond, the owner of the line says',
  },
  gives: ['d', 'm'],
  from: { U: ['V', 'voltage between phases'], kV: ['V', 'one kilovolt'], ft: ['m', 'one foot'] },
  where: { u: ['1', 'U / kV', 'voltage in kV'] },
  as: 'ft * if(u <= 50, 10, if(u <= 200, 15, if(u <= 350, 20, if(u <= 500, 25, if(u <= 750, 35, 45)))))',
  valid: ['U > 0', 'U <= 1000 * kV'],
})
