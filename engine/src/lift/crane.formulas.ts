import { formula } from '../working/formula.ts'

export const craneOffset = formula({
  id: 'lift.crane.offset',
  title: 'Distance of crane and load from the slewing centre, towards the load',
  source: { basis: 'derived', text: 'moments about the slewing centre; negative where the counterweight pulls back' },
  gives: ['e', 'm'],
  from: {
    m: ['kg', 'crane in working order'],
    a: ['m', 'its centre of gravity ahead of the slewing centre'],
    m_load: ['kg', 'load and hook block'],
    r: ['m', 'radius of the load'],
  },
  as: '(m * a + m_load * r) / (m + m_load)',
})

export const trackLoad = formula({
  id: 'lift.crane.track-load',
  title: 'Load on the nearer track of a crawler',
  source: { basis: 'derived', text: 'tracks share as the supports of a beam; all on one once the other is free' },
  gives: ['P', 'N'],
  from: {
    W: ['N', 'weight of crane and load'],
    e: ['m', 'distance from the slewing centre'],
    theta: ['rad', 'slew of the load from straight ahead'],
    gauge: ['m', 'between the centres of the tracks'],
  },
  as: 'W * min(0.5 + abs(e * sin(theta)) / gauge, 1)',
  valid: ['abs(e * sin(theta)) <= gauge / 2'],
})

export const floatForce = formula({
  id: 'lift.crane.float-force',
  title: 'Force on one of four floats',
  source: {
    basis: 'derived',
    text: 'rigid frame on four like supports, R = W/4 ± M_x/2L ± M_y/2B; on three once the far one would lift',
  },
  gives: ['R', 'N'],
  from: {
    W: ['N', 'weight of crane and load'],
    e: ['m', 'distance from the slewing centre'],
    theta: ['rad', 'slew of the load from straight ahead'],
    L: ['m', 'between floats, along'],
    B: ['m', 'between floats, across'],
    s_x: ['1', 'this float: 1 ahead, −1 behind'],
    s_y: ['1', 'this float: 1 on the left, −1 on the right'],
  },
  where: {
    k_x: ['1', 'e * cos(theta) / L', 'reach along, as a share of the base'],
    k_y: ['1', 'e * sin(theta) / B', 'reach across, as a share of the base'],
    lift: ['1', 'max(0, (abs(k_x) + abs(k_y)) / 2 - 0.25)', 'what the far float would pull, as a share of the weight'],
    side: ['1', 'if(k_x * k_y >= 0, 1, -1)', 'diagonal that the load leans along'],
  },
  as: 'W * (0.25 + (s_x * k_x + s_y * k_y) / 2 + s_x * s_y * side * lift)',
  valid: ['abs(e * cos(theta)) <= L / 2', 'abs(e * sin(theta)) <= B / 2'],
})

export const worstFloatSlew = formula({
  id: 'lift.crane.worst-float-slew',
  title: 'Slew at which one float takes the most',
  source: {
    basis: 'derived',
    text: 'largest of cos θ / L + sin θ / B, on four floats and on three alike: tan θ = L / B, over the corner of the base',
  },
  gives: ['theta', 'rad'],
  from: { L: ['m', 'between floats, along'], B: ['m', 'between floats, across'] },
  as: 'atan2(L, B)',
  valid: ['L > 0', 'B > 0'],
})

export const awayOf = formula({
  id: 'lift.crane.away',
  title: 'How far crane and load are off the slewing centre, towards either side',
  source: { basis: 'derived', text: 'absolute value' },
  gives: ['a', 'm'],
  from: { e: ['m', 'towards the load; behind is negative'] },
  as: 'abs(e)',
})

export const tippingDistance = formula({
  id: 'lift.crane.tipping-distance',
  title: 'Distance from the slewing centre to the nearest tipping line',
  source: { basis: 'derived', text: 'half of the narrower way of the base' },
  gives: ['b', 'm'],
  from: { L: ['m', 'base along'], B: ['m', 'base across'] },
  as: 'min(L, B) / 2',
})

export const floatGuess = formula({
  id: 'lift.crane.float-guess',
  title: 'First guess of the largest force on an outrigger',
  source: {
    basis: 'read',
    text: 'advice of a national crane council and a state code of practice, as a trade page prints it; only without a maker’s figure',
  },
  gives: ['F', 'N'],
  from: { W_crane: ['N', 'crane and rigging'], W_load: ['N', 'load'] },
  as: '0.65 * (W_crane + W_load)',
})
