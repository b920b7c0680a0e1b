import { formula } from '../working/formula.ts'

/** How steep a boom stands for a radius. */
export const boomAngle = formula({
  id: 'lift.boom.angle',
  title: 'Angle of the boom above the level',
  source: { basis: 'derived', text: 'a straight boom from its pin to over the hook, cos θ = (r − a) / L' },
  gives: ['theta', 'rad'],
  from: {
    r: ['m', 'radius of the load'],
    a: ['m', 'pin of the boom ahead of the slewing centre'],
    L: ['m', 'length of the boom'],
  },
  as: 'acos((r - a) / L)',
  valid: ['r > a', 'r - a < L'],
})

/** How far a point of what hangs from a crane is off its boom. */
export const boomGap = formula({
  id: 'lift.boom.gap',
  title: 'Gap between the boom and what hangs from it',
  source: {
    basis: 'derived',
    text: 'distance from the line of the boom along the direction in which both are farthest apart, less half of the boom',
  },
  gives: ['g', 'm'],
  from: {
    rho: ['m', 'nearest point, from the slewing centre along the radius'],
    y: ['m', 'nearest point, beside the plane of the boom, to the left'],
    z: ['m', 'nearest point, site z'],
    a: ['m', 'pin of the boom ahead of the slewing centre'],
    z_0: ['m', 'pin of the boom, site z'],
    theta: ['rad', 'angle of the boom above the level'],
    phi: ['rad', 'direction of the gap about the boom, from square under it, to the left'],
    h: ['m', 'depth of the boom'],
    b: ['m', 'width of the boom'],
  },
  where: { n: ['m', '(rho - a) * sin(theta) - (z - z_0) * cos(theta)', 'square under the line of the boom'] },
  as: 'n * cos(phi) + y * sin(phi) - (h * abs(cos(phi)) + b * abs(sin(phi))) / 2',
})

/** How far a boom is off what stands on the site. */
export const boomBeside = formula({
  id: 'lift.boom.beside',
  title: 'Gap between the boom and what stands beside it',
  source: {
    basis: 'derived',
    text: 'distance from the line of the boom, less half of its diagonal and half of what stands there where that is round',
  },
  gives: ['g', 'm'],
  from: {
    d: ['m', 'distance from the line of the boom'],
    h: ['m', 'depth of the boom'],
    b: ['m', 'width of the boom'],
    r: ['m', 'half of what stands there about its line'],
  },
  as: 'd - sqrt(h^2 + b^2) / 2 - r',
})
