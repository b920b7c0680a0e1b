import { formula } from '../working/formula.ts'

export const craneOffset = formula({
  id: 'ground.crane.offset',
  title: 'Distance of crane and load from the slewing centre',
  source: { basis: 'derived', text: 'moments about the slewing centre' },
  gives: ['e', 'm'],
  from: {
    m: ['kg', 'crane in working order'],
    a: ['m', 'its centre of gravity ahead of the slewing centre'],
    m_load: ['kg', 'load and hook block'],
    r: ['m', 'radius of the load'],
  },
  as: 'abs(m * a + m_load * r) / (m + m_load)',
})

export const trackPressure = formula({
  id: 'ground.crane.track-pressure',
  title: 'Largest pressure under a crawler track',
  source: {
    basis: 'derived',
    text: 'tracks share as a beam on two supports; linear pressure along the track, no tension',
  },
  gives: ['q', 'Pa'],
  from: {
    W: ['N', 'weight of crane and load'],
    e: ['m', 'distance from the slewing centre'],
    theta: ['rad', 'slew of the load from straight ahead'],
    L: ['m', 'bearing length of a track or of its mats'],
    b: ['m', 'width of a track or of its mats'],
    gauge: ['m', 'between the centres of the tracks'],
  },
  where: {
    P: ['N', 'W * min(0.5 + abs(e * sin(theta)) / gauge, 1)', 'on the nearer track'],
    e_l: ['m', 'abs(e * cos(theta))', 'off centre along the track'],
  },
  as: 'if(e_l <= L / 6, P / (L * b) * (1 + 6 * e_l / L), 2 * P / (3 * b * (L / 2 - e_l)))',
  valid: ['abs(e * cos(theta)) < L / 2', 'abs(e * sin(theta)) <= gauge / 2'],
})

export const floatForce = formula({
  id: 'ground.crane.float-force',
  title: 'Largest force on an outrigger',
  source: { basis: 'derived', text: 'rigid frame on four like supports; on three once the far one lifts' },
  gives: ['F', 'N'],
  from: {
    W: ['N', 'weight of crane and load'],
    e: ['m', 'distance from the slewing centre'],
    theta: ['rad', 'slew of the load from straight ahead'],
    L: ['m', 'between floats, along'],
    B: ['m', 'between floats, across'],
  },
  where: { k: ['1', 'abs(e * cos(theta)) / L + abs(e * sin(theta)) / B', 'reach towards the corner'] },
  as: 'W * max(0.25 + k / 2, k)',
  valid: ['abs(e * cos(theta)) <= L / 2', 'abs(e * sin(theta)) <= B / 2'],
})

export const floatGuess = formula({
  id: 'ground.crane.float-guess',
  title: 'First guess of the largest force on an outrigger',
  source: {
    basis: 'read',
    text: 'advice of a national crane council and a state code of practice, as a trade page prints it; only without a maker’s figure',
  },
  gives: ['F', 'N'],
  from: { W_crane: ['N', 'crane and rigging'], W_load: ['N', 'load'] },
  as: '0.65 * (W_crane + W_load)',
})

export const lineDistance = formula({
  id: 'ground.crane.line-distance',
  title: 'Distance left between boom tip or load and a line',
  source: { basis: 'derived', text: 'plan distance of the standing less the radius; height is not counted' },
  gives: ['gap', 'm'],
  from: { d: ['m', 'plan distance from the slewing centre to the line'], r: ['m', 'largest radius passed'] },
  as: 'd - r',
})
