import { formula } from '../working/formula.ts'

/** Hourly mean at the mast that a gust limit at the hook comes from. */
export const meanLimit = formula({
  id: 'risk.wind.mean-limit',
  title: 'Hourly mean at the mast that stops a lift',
  source: {
    basis: 'derived',
    text: 'gust at the hook = G · mean at the mast · ln(z/z0) ÷ ln(h/z0), logarithmic profile; the gust factor of the mast used at the hook too, where it is less',
  },
  gives: ['v', 'm/s'],
  from: {
    g: ['m/s', 'gust limit at the hook'],
    G: ['1', 'gust over the hourly mean'],
    z: ['m', 'height of the hook above ground'],
    h: ['m', 'height of the mast'],
    z0: ['m', 'roughness length'],
  },
  as: 'g / (G * max(1, ln(z / z0) / ln(h / z0)))',
  valid: ['G >= 1', 'z > z0', 'h > z0'],
})

/** Share of hours in which the hourly mean does not exceed a speed. */
export const shareBelow = formula({
  id: 'risk.wind.share-below',
  title: 'Share of hours below a wind speed',
  source: { basis: 'derived', text: 'Weibull distribution function 1 − exp(−(v/c)^k)' },
  gives: ['F', '1'],
  from: { v: ['m/s', 'speed'], c: ['m/s', 'Weibull scale'], k: ['1', 'Weibull shape'] },
  as: '1 - exp(-(v / c)^k)',
  valid: ['c > 0', 'k > 0', 'v >= 0'],
})

/** Working days lost on average before a window opens, each day taken for itself. */
export const daysLost = formula({
  id: 'risk.wind.days-lost',
  title: 'Working days lost before a window opens',
  source: {
    basis: 'derived',
    text: 'mean of the geometric distribution, (1 − p) ÷ p: days without memory of each other',
  },
  gives: ['d', '1'],
  from: { p: ['1', 'chance of a window on a working day'] },
  as: '(1 - p) / p',
  valid: ['p > 0', 'p <= 1'],
})
