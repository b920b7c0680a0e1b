import { formula } from '../working/formula.ts'

export const atRest = formula({
  id: 'ground.earth.at-rest',
  title: 'Earth pressure coefficient at rest',
  source: { basis: 'memory', text: 'Jaky 1944, simplified: normally consolidated, level ground' },
  gives: ['K0', '1'],
  from: { phi: ['rad', 'friction angle'] },
  as: '1 - sin(phi)',
  valid: ['phi >= 0', 'phi < pi / 2'],
})

export const active = formula({
  id: 'ground.earth.active',
  title: 'Active earth pressure coefficient',
  source: { basis: 'memory', text: 'Rankine: smooth vertical wall, level ground, wall free to move' },
  gives: ['Ka', '1'],
  from: { phi: ['rad', 'friction angle'] },
  as: 'tan(pi / 4 - phi / 2)^2',
  valid: ['phi >= 0', 'phi < pi / 2'],
})

export const passive = formula({
  id: 'ground.earth.passive',
  title: 'Passive earth pressure coefficient',
  source: { basis: 'memory', text: 'Rankine: smooth vertical wall, level ground' },
  gives: ['Kp', '1'],
  from: { phi: ['rad', 'friction angle'] },
  as: 'tan(pi / 4 + phi / 2)^2',
  valid: ['phi >= 0', 'phi < pi / 2'],
})

export const layerWeight = formula({
  id: 'ground.earth.layer-weight',
  title: 'Vertical stress that one layer adds down to a level',
  source: { basis: 'derived', text: 'weight of a column of unit area' },
  gives: ['sigma', 'Pa'],
  from: {
    gamma: ['N/m3', 'unit weight of the layer, water included'],
    top: ['m', 'top of the layer'],
    z: ['m', 'level, or the bottom of the layer where that is higher'],
  },
  as: 'gamma * (top - z)',
  valid: ['top >= z'],
})

export const porePressure = formula({
  id: 'ground.earth.pore-pressure',
  title: 'Pore pressure under a head',
  source: { basis: 'derived', text: 'hydrostatic within one aquifer; no suction above the head' },
  gives: ['u', 'Pa'],
  from: { gamma_w: ['N/m3', 'unit weight of water'], head: ['m', 'level to which water rises'], z: ['m', 'level'] },
  as: 'gamma_w * max(head - z, 0)',
})

export const poreBetween = formula({
  id: 'ground.earth.pore-between',
  title: 'Pore pressure within a layer of low permeability between two aquifers',
  source: { basis: 'derived', text: 'steady vertical seepage through a uniform layer: linear from face to face' },
  gives: ['u', 'Pa'],
  from: {
    u_above: ['Pa', 'pore pressure at the upper face'],
    u_below: ['Pa', 'pore pressure at the lower face'],
    top: ['m', 'upper face'],
    bottom: ['m', 'lower face'],
    z: ['m', 'level'],
  },
  as: 'u_above + (u_below - u_above) * (top - z) / (top - bottom)',
  valid: ['top > bottom', 'z <= top', 'z >= bottom'],
})

export const highWater = formula({
  id: 'ground.earth.high-water',
  title: 'Highest head over the tide',
  source: { basis: 'derived', text: 'mean head plus half the range' },
  gives: ['head_high', 'm'],
  from: { head: ['m', 'mean head'], tide: ['m', 'half range of the tide'] },
  as: 'head + tide',
})

export const lateralPressure = formula({
  id: 'ground.earth.lateral',
  title: 'Total pressure on the wall: earth by effective stress, and water',
  source: { basis: 'derived', text: 'effective stress principle; Bell for cohesion, never below zero' },
  gives: ['p', 'Pa'],
  from: {
    K: ['1', 'earth pressure coefficient of the state chosen'],
    sigma_v: ['Pa', 'total vertical stress'],
    u: ['Pa', 'pore pressure'],
    c: ['Pa', "effective cohesion counted: c' in the active state, none at rest"],
  },
  as: 'max(K * (sigma_v - u) - 2 * c * sqrt(K), 0) + u',
  valid: ['sigma_v >= u', 'K > 0'],
})

export const clayActive = formula({
  id: 'ground.earth.clay-active',
  title: 'Active pressure in clay, undrained',
  source: { basis: 'memory', text: 'Rankine with Bell, short term; a negative value is tension and is not counted' },
  gives: ['p', 'Pa'],
  from: {
    gamma: ['N/m3', 'unit weight'],
    z: ['m', 'depth below ground'],
    q: ['Pa', 'surcharge'],
    c_u: ['Pa', 'undrained strength'],
  },
  as: 'gamma * z + q - 2 * c_u',
})

export const tensionDepth = formula({
  id: 'ground.earth.tension-depth',
  title: 'Depth of tension in clay, undrained',
  source: { basis: 'memory', text: 'Rankine: where γz = 2 c_u' },
  gives: ['z_0', 'm'],
  from: { gamma: ['N/m3', 'unit weight'], c_u: ['Pa', 'undrained strength'] },
  as: '2 * c_u / gamma',
})

export const criticalHeight = formula({
  id: 'ground.earth.critical-height',
  title: 'Height at which an unsupported vertical cut in clay fails',
  source: { basis: 'read', text: 'UFC 3-220-20 (16 Jan 2025) eq. 2-1, as an open geotechnical library quotes it' },
  gives: ['H_cr', 'm'],
  from: { gamma: ['N/m3', 'unit weight'], c_u: ['Pa', 'undrained strength'] },
  as: '4 * c_u / gamma',
})

export const equivalentFluid = formula({
  id: 'ground.earth.equivalent-fluid',
  title: 'Equivalent fluid pressure with a uniform surcharge',
  source: {
    basis: 'read',
    text: 'UFC 3-220-20 (16 Jan 2025) eq. 4-13, 4-14, as an open geotechnical library quotes it',
  },
  gives: ['sigma_h', 'Pa'],
  from: {
    K: ['1', 'earth pressure coefficient'],
    gamma: ['N/m3', 'unit weight'],
    z: ['m', 'depth'],
    q: ['Pa', 'surcharge'],
  },
  where: { gamma_eq: ['N/m3', 'K * gamma', 'equivalent fluid unit weight'] },
  as: 'gamma_eq * z + K * q',
})
