import { formula } from '../working/formula.ts'

const three = {
  a: ['s', 'least'],
  m: ['s', 'most likely'],
  b: ['s', 'greatest'],
} as const

const triangular = {
  basis: 'derived',
  text: 'triangular distribution with extremes a and b and mode m; form as in Johnson, Kotz, Balakrishnan (from memory)',
} as const

/** Mean of a duration whose three points are extremes and mode. */
export const triangularMean = formula({
  id: 'programme.triangular.mean',
  title: 'Mean of a triangular duration',
  source: triangular,
  gives: ['mu', 's'],
  from: three,
  as: '(a + m + b) / 3',
  valid: ['a <= m', 'm <= b'],
})

/** Variance of the same. */
export const triangularVariance = formula({
  id: 'programme.triangular.variance',
  title: 'Variance of a triangular duration',
  source: triangular,
  gives: ['v', 's2'],
  from: three,
  as: '(a^2 + m^2 + b^2 - a*m - a*b - m*b) / 18',
  valid: ['a <= m', 'm <= b'],
})

/** Quantile of the same: the duration not exceeded with a chance p. */
export const triangularQuantile = formula({
  id: 'programme.triangular.quantile',
  title: 'Duration not exceeded with a chance',
  source: triangular,
  gives: ['x', 's'],
  from: { p: ['1', 'chance'], ...three },
  where: { d: ['s', 'p * (b - a)', 'share of the width'] },
  as: 'if(d < m - a, a + sqrt(d * (m - a)), b - sqrt((b - a - d) * (b - m)))',
  valid: ['a <= m', 'm <= b', 'p >= 0', 'p <= 1'],
})
