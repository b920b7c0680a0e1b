import { formula, type Source } from '../working/formula.ts'

const derived = (text: string): Source => ({ basis: 'derived', text })

export const massDifference = formula({
  id: 'mass.difference',
  title: 'Difference of two masses',
  source: derived('size of the difference'),
  gives: ['D', 'kg'],
  from: { m1: ['kg', 'one mass'], m2: ['kg', 'the other'] },
  as: 'abs(m1 - m2)',
})

export const expanded = formula({
  id: 'mass.uncertainty.expanded',
  title: 'Expanded uncertainty',
  source: derived('coverage factor × standard uncertainty'),
  gives: ['U', 'kg'],
  from: { k: ['1', 'coverage factor that the project sets'], u: ['kg', 'standard uncertainty'] },
  as: 'k * u',
})

export const together = formula({
  id: 'mass.uncertainty.together',
  title: 'Standard uncertainty of the difference of two independent figures',
  source: derived('root sum of squares'),
  gives: ['u', 'kg'],
  from: { u1: ['kg', 'standard uncertainty of one'], u2: ['kg', 'standard uncertainty of the other'] },
  as: 'sqrt(u1^2 + u2^2)',
})

export const normalised = formula({
  id: 'mass.weighed.normalised-difference',
  title: 'Difference in units of its uncertainty',
  source: {
    basis: 'memory',
    text: 'normalised difference of proficiency testing (ISO/IEC 17043, ISO 13528), with standard uncertainties',
  },
  gives: ['E', '1'],
  from: { D: ['kg', 'size of the difference'], u: ['kg', 'standard uncertainty of the difference'] },
  as: 'D / u',
  valid: ['u > 0'],
})

export const band = formula({
  id: 'mass.weighed.band-width',
  title: 'Band about the planned mass',
  source: derived('share that the project sets × planned mass'),
  gives: ['B', 'kg'],
  from: { b: ['1', 'band as a share'], M: ['kg', 'planned mass, retained matter and all'] },
  as: 'b * M',
})

export const apart = formula({
  id: 'mass.pose.residual',
  title: 'Distance of a surveyed point from where the pose puts it',
  source: derived('Pythagoras'),
  gives: ['d', 'm'],
  from: {
    X: ['m', 'site x by the pose'],
    Y: ['m', 'site y by the pose'],
    Z: ['m', 'site z by the pose'],
    Xs: ['m', 'site x surveyed'],
    Ys: ['m', 'site y surveyed'],
    Zs: ['m', 'site z surveyed'],
  },
  as: 'sqrt((X - Xs)^2 + (Y - Ys)^2 + (Z - Zs)^2)',
})

export const roomForMuck = formula({
  id: 'mass.retained.room',
  title: 'Most that could be retained',
  source: derived('what the outline leaves free, filled with the densest muck'),
  gives: ['M', 'kg'],
  from: {
    rho: ['kg/m3', 'density of the densest muck'],
    B: ['m3', 'volume of the box about the piece'],
    S: ['m3', 'volume of its solids'],
  },
  as: 'rho * max(0, B - S)',
})

export const cellNet = formula({
  id: 'mass.weighed.cell-net',
  title: 'Mass on the hooks at one reading, without the rigging',
  source: derived('sum of what the cells of all hooks show, less what they showed with the rigging alone'),
  gives: ['m', 'kg'],
  from: {
    S: ['kg', 'sum of the readings of all hooks at one moment'],
    Z: ['kg', 'sum of all hooks with the rigging and no load'],
  },
  as: 'S - Z',
})

export const cellMean = formula({
  id: 'mass.weighed.cell-mean',
  title: 'Mass of the free load, mean of the readings',
  source: derived('the mean is the least squares estimate of one mass from several equal readings'),
  gives: ['m', 'kg'],
  from: { S: ['kg', 'sum of the net readings'], n: ['1', 'readings with the load free'] },
  as: 'S / n',
  valid: ['n >= 1'],
})

export const ceiling = formula({
  id: 'mass.weighed.ceiling',
  title: 'Ceiling of the reading',
  source: derived('planned mass and the band above it'),
  gives: ['C', 'kg'],
  from: { M: ['kg', 'planned mass, retained matter and all'], b: ['1', 'band as a share'] },
  as: 'M * (1 + b)',
})
