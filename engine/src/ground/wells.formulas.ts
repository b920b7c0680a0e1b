import { formula } from '../working/formula.ts'

export const reachOfWells = formula({
  id: 'ground.wells.reach',
  title: 'Distance to which wells draw the water down',
  source: { basis: 'memory', text: 'Sichardt: R = 3000 s √k in metres and seconds; empirical, not a law of physics' },
  gives: ['R', 'm'],
  from: {
    s: ['m', 'drawdown at the wells'],
    k: ['m/s', 'permeability'],
    k_1: ['m/s', 'one metre a second, so that the empirical number has no dimension'],
  },
  as: '3000 * s * sqrt(k / k_1)',
  valid: ['s >= 0', 'k >= 0'],
})

export const confinedInflow = formula({
  id: 'ground.wells.confined',
  title: 'Pumping that holds two drawdowns in a confined aquifer',
  source: { basis: 'memory', text: 'Thiem 1906, steady radial flow; derived again' },
  gives: ['Q', 'm3/s'],
  from: {
    T: ['m2/s', 'transmissivity'],
    s_1: ['m', 'drawdown at the nearer distance'],
    s_2: ['m', 'drawdown at the farther distance'],
    r_1: ['m', 'nearer distance'],
    r_2: ['m', 'farther distance'],
  },
  as: '2 * pi * T * (s_1 - s_2) / ln(r_2 / r_1)',
  valid: ['r_1 > 0', 'r_2 > r_1', 's_1 >= s_2'],
})

export const unconfinedInflow = formula({
  id: 'ground.wells.unconfined',
  title: 'Pumping that holds a ring of wells drawn down in an unconfined aquifer',
  source: { basis: 'read', text: 'Dupuit, as a hydrology page of a university prints it; no seepage face' },
  gives: ['Q', 'm3/s'],
  from: {
    k: ['m/s', 'permeability'],
    H: ['m', 'height of the water at rest above the underside of the aquifer'],
    h: ['m', 'the same, drawn down'],
    R: ['m', 'distance to which the wells reach'],
    r: ['m', 'radius of the ring of wells'],
  },
  as: 'pi * k * (H^2 - h^2) / ln(R / r)',
  valid: ['r > 0', 'R > r', 'h >= 0', 'H >= h'],
})

export const transmissivity = formula({
  id: 'ground.wells.transmissivity',
  title: 'Transmissivity of a layer',
  source: { basis: 'derived', text: 'permeability times thickness' },
  gives: ['T', 'm2/s'],
  from: { k: ['m/s', 'permeability'], b: ['m', 'thickness'] },
  as: 'k * b',
  valid: ['b > 0'],
})

export const openBaseInflow = formula({
  id: 'ground.wells.open-base',
  title: 'Inflow through the open base of a shaft with a tight wall, deep uniform ground',
  source: {
    basis: 'memory',
    text: 'Forchheimer: flat disc at the top of ground without end; exact in potential theory',
  },
  gives: ['Q', 'm3/s'],
  from: { k: ['m/s', 'permeability'], r: ['m', 'radius of the base'], s: ['m', 'head lost'] },
  as: '4 * k * r * s',
  valid: ['r > 0', 's >= 0'],
})

export const flowThroughPlug = formula({
  id: 'ground.wells.through-plug',
  title: 'Flow up through the plug into the shaft',
  source: { basis: 'derived', text: 'Darcy over the area of the base' },
  gives: ['Q', 'm3/s'],
  from: {
    k: ['m/s', 'permeability of the plug'],
    h: ['m', 'head lost over the plug'],
    t: ['m', 'thickness of the plug'],
    r: ['m', 'radius of the base'],
  },
  where: { i: ['1', 'h / t', 'gradient'] },
  as: 'k * i * pi * r^2',
  valid: ['t > 0', 'r > 0', 'h >= 0'],
})

export const headRunning = formula({
  id: 'ground.wells.head-running',
  title: 'Head while some of the wells run',
  source: { basis: 'derived', text: 'like wells in a confined aquifer, drawdowns added: each draws the same share' },
  gives: ['head', 'm'],
  from: {
    head_n: ['m', 'head at rest'],
    head_d: ['m', 'head with all the wells that are needed'],
    n: ['1', 'wells that run'],
    n_d: ['1', 'wells that are needed'],
  },
  as: 'head_n - (head_n - head_d) * n / n_d',
  valid: ['n >= 0', 'n <= n_d', 'n_d > 0'],
})

export const recoveryTime = formula({
  id: 'ground.wells.recovery-time',
  title: 'Time for the water to recover once a well is stopped',
  source: { basis: 'derived', text: 'recovery that decays with one time constant, taken from the pumping test' },
  gives: ['time', 's'],
  from: { tau: ['s', 'time constant of recovery'], s: ['1', 'share of the recovery that counts as reached'] },
  as: 'tau * ln(1 / (1 - s))',
  valid: ['s >= 0', 's < 1'],
})

export const timeToFlood = formula({
  id: 'ground.wells.time-to-flood',
  title: 'Time for an inflow to fill the shaft to a depth',
  source: { basis: 'derived', text: 'volume over an inflow held constant; it falls as the water rises' },
  gives: ['time', 's'],
  from: { r: ['m', 'radius of the shaft'], d: ['m', 'depth of water'], Q: ['m3/s', 'inflow'] },
  where: { V: ['m3', 'pi * r^2 * d', 'volume'] },
  as: 'V / Q',
  valid: ['Q > 0', 'd >= 0'],
})
