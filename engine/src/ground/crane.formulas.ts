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

export const trackContact = formula({
  id: 'ground.crane.track-contact',
  title: 'Length of a crawler track that bears evenly',
  source: {
    basis: 'derived',
    text: 'the length about the resultant, as effective areas of footings: the same force and moment as the linear pressure',
  },
  gives: ['l', 'm'],
  from: {
    L: ['m', 'bearing length of a track or of its mats'],
    e: ['m', 'distance of crane and load from the slewing centre'],
    theta: ['rad', 'slew of the load from straight ahead'],
  },
  as: 'L - 2 * abs(e * cos(theta))',
  valid: ['abs(e * cos(theta)) < L / 2'],
})

export const otherFeet = formula({
  id: 'ground.crane.other-feet',
  title: 'Force on each of the other feet of a crane',
  source: { basis: 'derived', text: 'what one foot leaves of the weight, evenly over the others' },
  gives: ['P', 'N'],
  from: {
    W: ['N', 'weight of crane and load'],
    F: ['N', 'on the foot that takes the most'],
    n: ['1', 'other feet'],
  },
  as: '(W - F) / n',
  valid: ['n >= 1', 'F <= W'],
})

export const slewFrom = formula({
  id: 'ground.crane.slew',
  title: 'Slew of the hook from straight ahead',
  source: { basis: 'derived', text: 'difference of two bearings' },
  gives: ['theta', 'rad'],
  from: {
    beta: ['rad', 'bearing of the hook from the slewing centre, from site x to the left'],
    psi: ['rad', 'heading of the carrier, from site x to the left'],
  },
  as: 'beta - psi',
})

export const lineDistance = formula({
  id: 'ground.crane.line-distance',
  title: 'Distance left between boom tip or load and a line',
  source: { basis: 'derived', text: 'plan distance of the standing less the radius; height is not counted' },
  gives: ['gap', 'm'],
  from: { d: ['m', 'plan distance from the slewing centre to the line'], r: ['m', 'largest radius passed'] },
  as: 'd - r',
})
