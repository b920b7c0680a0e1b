import { formula } from '../working/formula.ts'

/** Advance of a drive whose rings are bored and built in turn. */
export const ringAdvance = formula({
  id: 'programme.drive.ring-advance',
  title: 'Mean advance by the ring cycle',
  source: {
    basis: 'derived',
    text: 'a ring is bored, built and the rest of its cycle done in turn; utilisation in the sense of the trade: boring time over total time',
  },
  gives: ['v', 'm/s'],
  from: {
    L: ['m', 'length of a ring'],
    p: ['m/s', 'speed of the advance while boring'],
    b: ['s', 'building a ring'],
    o: ['s', 'what else a ring takes'],
    A: ['1', 'share of the time in which the machine is available'],
  },
  where: { C: ['s', 'L / p + b + o', 'cycle of a ring'] },
  as: 'A * L / C',
  valid: ['L > 0', 'p > 0', 'A <= 1'],
})

const learning = {
  f1: ['1', 'first ring over one at full rate'],
  n: ['1', 'number of the ring'],
  r: ['1', 'share that the time falls to with each doubling'],
} as const
/** T. P. Wright, Journal of the Aeronautical Sciences 3(4) (1936) 122-128: log-linear, from memory. */
const exponent = { b: ['1', 'ln(r) / ln(2)', 'exponent of the curve'] } as const
const learned = ['n >= 1', 'r > 0', 'r <= 1']

/** Time of a ring on the unit model. */
export const unitLearning = formula({
  id: 'programme.drive.learning-unit',
  title: 'Time of a ring while the crew learns, unit model',
  source: {
    basis: 'memory',
    text: 'unit model: the time of the n-th unit itself falls with the curve; a floor where nothing more is learned',
  },
  gives: ['f', '1'],
  from: learning,
  where: exponent,
  as: 'max(1, f1 * n^b)',
  valid: learned,
})

/** Time of a ring on the cumulative-average model. */
export const averageLearning = formula({
  id: 'programme.drive.learning-average',
  title: 'Time of a ring while the crew learns, cumulative-average model',
  source: {
    basis: 'read',
    text: 'R. M. Wideman, appendix 2: learning curve mathematics, model A, log linear cumulative average: the mean of all units so far falls with the curve',
  },
  gives: ['f', '1'],
  from: learning,
  where: exponent,
  as: 'max(1, f1 * (n * n^b - (n - 1) * max(n - 1, 1)^b))',
  valid: learned,
})
