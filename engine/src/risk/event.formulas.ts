import { formula } from '../working/formula.ts'

/** Delay of an event on average, whether it happens or not. */
export const expectedDelay = formula({
  id: 'risk.event.mean-delay',
  title: 'Delay of an event on average',
  source: { basis: 'derived', text: 'p · mean of the triangular delay, (a + m + b) ÷ 3' },
  gives: ['d', 's'],
  from: {
    p: ['1', 'chance'],
    a: ['s', 'least delay'],
    m: ['s', 'most likely delay'],
    b: ['s', 'greatest delay'],
  },
  as: 'p * (a + m + b) / 3',
  valid: ['p >= 0', 'p <= 1', 'a <= m', 'm <= b'],
})

/** Variance of the same. */
export const delayVariance = formula({
  id: 'risk.event.variance',
  title: 'Variance of the delay of an event',
  source: { basis: 'derived', text: 'p (V + μ²) − (pμ)², V and μ of the triangular delay' },
  gives: ['v', 's2'],
  from: {
    p: ['1', 'chance'],
    a: ['s', 'least delay'],
    m: ['s', 'most likely delay'],
    b: ['s', 'greatest delay'],
  },
  where: {
    mu: ['s', '(a + m + b) / 3', 'mean when it happens'],
    V: ['s2', '(a^2 + m^2 + b^2 - a*m - a*b - m*b) / 18', 'variance when it happens'],
  },
  as: 'p * (V + mu^2) - (p * mu)^2',
  valid: ['p >= 0', 'p <= 1', 'a <= m', 'm <= b'],
})

/** What a mean is longer than the duration planned with. */
export const meanExcess = formula({
  id: 'risk.duration.excess',
  title: 'Mean over most likely',
  source: { basis: 'derived', text: 'plans take most likely durations; skewed ones are longer on average' },
  gives: ['e', 's'],
  from: { mu: ['s', 'mean duration'], m: ['s', 'most likely duration'] },
  as: 'mu - m',
})

/** What an event costs when it happens: its own cost, and the days that the site stands for it. */
export const priceOfEvent = formula({
  id: 'risk.event.price',
  title: 'Price of an event when it happens',
  source: {
    basis: 'derived',
    text: 'own cost and days of delay at what a day costs; float that takes up days is not counted off',
  },
  gives: ['C', '1'],
  from: {
    c: ['1', 'own cost, account units'],
    n: ['1', 'days of delay'],
    k: ['1', 'cost of a day, account units'],
  },
  as: 'c + n * k',
  valid: ['n >= 0'],
})
