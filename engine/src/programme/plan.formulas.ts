import { formula } from '../working/formula.ts'

/** How far the plan is from what is proven, as a share. */
export const planGap = formula({
  id: 'programme.plan.gap',
  title: 'Gap of the plan',
  source: { basis: 'derived', text: '(F − B) ÷ B; both count from the start of the programme' },
  gives: ['g', '1'],
  from: { F: ['s', 'restart in the plan'], B: ['s', 'earliest restart that is not ruled out'] },
  as: '(F - B) / B',
  valid: ['B > 0'],
})

/** Date at which a delivery is there with the chance asked for. */
export const deliveredBy = formula({
  id: 'programme.delivery.date',
  title: 'Delivery at the confidence asked for',
  source: { basis: 'derived', text: 'planned order + lead time at that confidence, deliveries run on elapsed time' },
  gives: ['D', 's'],
  from: { O: ['s', 'planned order'], L: ['s', 'lead time at the confidence asked for'] },
  as: 'O + L',
})

/** Date by which a delivery must be there. */
export const neededOn = formula({
  id: 'programme.delivery.need',
  title: 'Date by which the delivery must be there',
  source: { basis: 'derived', text: 'planned start of the first activity that needs it, less the reserve to be kept' },
  gives: ['N', 's'],
  from: { S: ['s', 'planned start of what needs it'], r: ['s', 'reserve'] },
  as: 'S - r',
})

/** Share of a network that raises a question. */
export const offendingShare = formula({
  id: 'programme.health.share',
  title: 'Share that raises the question',
  source: {
    basis: 'read',
    text: 'DCMA-EA PAM 200.1 (October 2012), section 4, by public pages: offenders ÷ all of their kind',
  },
  gives: ['s', '1'],
  from: { n: ['1', 'those that raise it'], N: ['1', 'all of their kind'] },
  as: 'n / N',
  valid: ['N > 0', 'n >= 0'],
})

/** Critical path length index: below 1 the promised date needs more than the network gives. */
export const pathLengthIndex = formula({
  id: 'programme.health.path-length-index',
  title: 'Critical path length index',
  source: {
    basis: 'memory',
    text: 'DCMA-EA PAM 200.1 3.1.2.3: (length + total float) ÷ length; the threshold 0.95 was read',
  },
  gives: ['i', '1'],
  from: { L: ['s', 'length of the longest path still ahead'], F: ['s', 'total float of its end, negative when late'] },
  as: '(L + F) / L',
  valid: ['L > 0'],
})

/** Baseline execution index: below 1 less is done than was promised by now. */
export const executionIndex = formula({
  id: 'programme.health.execution-index',
  title: 'Baseline execution index',
  source: {
    basis: 'memory',
    text: 'DCMA-EA PAM 200.1, section 4: done ÷ (due by the baseline + those that the baseline lacks); the threshold 0.95 was read',
  },
  gives: ['i', '1'],
  from: {
    C: ['1', 'done at the data date'],
    B: ['1', 'due at the data date by the baseline'],
    A: ['1', 'activities that the baseline lacks'],
  },
  as: 'C / (B + A)',
  valid: ['B + A > 0'],
})
