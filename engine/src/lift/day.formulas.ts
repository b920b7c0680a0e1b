import { formula } from '../working/formula.ts'

/** Declination of the sun. */
export const declination = formula({
  id: 'lift.day.declination',
  title: 'Declination of the sun',
  source: {
    basis: 'memory',
    text: 'P. I. Cooper, The absorption of radiation in solar stills, Solar Energy 12 (1969): 23.45° sin(360° (284 + n)/365); good to about half a degree',
  },
  gives: ['delta', 'rad'],
  from: { n: ['1', 'day of the year, 1 on 1 January'] },
  as: '23.45 * pi / 180 * sin(2 * pi * (284 + n) / 365)',
  valid: ['n >= 1', 'n <= 366'],
})

/** Time from sunrise to sunset. */
export const dayLength = formula({
  id: 'lift.day.length',
  title: 'Time from sunrise to sunset',
  source: {
    basis: 'memory',
    text: 'hour angle of sunset, cos ω = −tan φ tan δ (J. A. Duffie and W. A. Beckman, Solar Engineering of Thermal Processes, 1.6); centre of the sun on a level horizon, without refraction: some ten minutes short',
  },
  gives: ['t', 's'],
  from: {
    phi: ['rad', 'latitude, north positive'],
    delta: ['rad', 'declination of the sun'],
    D: ['s', 'length of a day'],
  },
  as: 'D / pi * acos(max(-1, min(1, -tan(phi) * tan(delta))))',
  valid: ['phi > -1.5', 'phi < 1.5'],
})
