import { formula } from '../working/formula.ts'

export const trackPressure = formula({
  id: 'ground.crane.track-pressure',
  title: 'Largest pressure under a crawler track',
  source: { basis: 'derived', text: 'linear pressure along the track, no tension' },
  gives: ['q', 'Pa'],
  from: {
    P: ['N', 'on the nearer track'],
    e: ['m', 'distance of crane and load from the slewing centre'],
    theta: ['rad', 'slew of the load from straight ahead'],
    L: ['m', 'bearing length of a track or of its mats'],
    b: ['m', 'width of a track or of its mats'],
  },
  where: { e_l: ['m', 'abs(e * cos(theta))', 'off centre along the track'] },
  as: 'if(e_l <= L / 6, P / (L * b) * (1 + 6 * e_l / L), 2 * P / (3 * b * (L / 2 - e_l)))',
  valid: ['abs(e * cos(theta)) < L / 2'],
})

export const lineDistance = formula({
  id: 'ground.crane.line-distance',
  title: 'Distance left between boom tip or load and a line',
  source: { basis: 'derived', text: 'plan distance of the standing less the radius; height is not counted' },
  gives: ['gap', 'm'],
  from: { d: ['m', 'plan distance from the slewing centre to the line'], r: ['m', 'largest radius passed'] },
  as: 'd - r',
})
