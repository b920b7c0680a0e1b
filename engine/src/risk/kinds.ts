import type { CheckKind } from '../working/check.ts'

export const windWindow: CheckKind = {
  id: 'risk.wind.window',
  title: 'Chance of a wind window on a working day of its month',
  stage: 'risk',
  source: {
    basis: 'derived',
    text: 'Weibull hourly means by month, correlation from hour to hour (first-order persistence), hours in a row that the lift needs inside its shift',
  },
  practice: [89],
  decidedBy: 'lift director',
}

export const restartBand: CheckKind = {
  id: 'risk.restart.band',
  title: 'Error band of the P80 restart',
  stage: 'risk',
  source: { basis: 'derived', text: 'order statistics: ranks np ± 1.96√(np(1−p)); no distribution is assumed' },
  practice: [94],
  decidedBy: 'manager of the recovery',
}

export const restartPromised: CheckKind = {
  id: 'risk.restart.promised',
  title: 'P80 restart against the date promised',
  stage: 'risk',
  source: { basis: 'derived', text: '80 % quantile of the restarts of all runs, on the resource-constrained network' },
  practice: [94],
  decidedBy: 'manager of the recovery',
}

export const riskKinds: readonly CheckKind[] = [windWindow, restartBand, restartPromised]
