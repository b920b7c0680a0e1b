import { formula } from '../working/formula.ts'

/** How far the centre of gravity lies inside a bed that runs along x. */
export const insideBed = formula({
  id: 'strip.support.inside-bed',
  title: 'Plan distance of the centre of gravity inside the bed of the cradle',
  source: { basis: 'derived', text: 'least distance to the two ends and the two sides; below zero it lies outside' },
  gives: ['m', 'm'],
  from: {
    x: ['m', 'centre of gravity along the drive'],
    y: ['m', 'centre of gravity across'],
    xr: ['m', 'rear end of what bears on the bed'],
    xf: ['m', 'front end of what bears on the bed'],
    yc: ['m', 'axis of the bed across'],
    b: ['m', 'half width of the bed'],
  },
  as: 'min(min(x - xr, xf - x), b - abs(y - yc))',
})

/** Half the width over which a round shield bears on its bed. */
export const bedHalfWidth = formula({
  id: 'strip.support.bed-half-width',
  title: 'Half width of the bed of the cradle',
  source: { basis: 'derived', text: 'chord of the contact arc' },
  gives: ['b', 'm'],
  from: { R: ['m', 'radius of the bed'], phi: ['rad', 'half angle of the contact arc'] },
  as: 'R * sin(phi)',
  valid: ['phi > 0', 'phi <= pi / 2'],
})
