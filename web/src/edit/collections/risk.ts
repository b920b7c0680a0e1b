import { type Collection, column, type Single } from './collection.ts'

/** Tables of risk and scenarios. */
export const RISK: readonly (Collection | Single)[] = [
  {
    at: '/programme/causes',
    title: 'Causes behind many durations',
    one: 'cause',
    name: '/what',
    columns: [
      column('Cause', '/what', { width: 40 }),
      column('Chance', '/probability', { width: 8 }),
      column('Factor: least', '/factor/0', { width: 8 }),
      column('Likely', '/factor/1', { width: 8 }),
      column('Most', '/factor/2', { width: 8 }),
      column('Kinds', '/kinds', { width: 18 }),
      column('Phases', '/phases', { width: 18 }),
      column('Activities', '/activities', { width: 24 }),
    ],
  },
  {
    at: '/programme/failing',
    title: 'What may fail and is done again',
    one: 'activity that may fail',
    columns: [
      column('Chance each time', '/chance', { width: 10 }),
      column('Again: least, d', '/againDays/0', { width: 8 }),
      column('Likely, d', '/againDays/1', { width: 8 }),
      column('Most, d', '/againDays/2', { width: 8 }),
      column('Note', '/note', { width: 40 }),
    ],
  },
  {
    at: '/risks',
    title: 'Risks',
    one: 'risk',
    name: '/risk',
    columns: [
      column('Risk', '/risk', { width: 40 }),
      column('Chance', '/probability', { width: 8 }),
      column('Low, d', '/delayDays/0', { width: 7 }),
      column('Likely, d', '/delayDays/1', { width: 8 }),
      column('High, d', '/delayDays/2', { width: 7 }),
      column('Cost', '/cost', { width: 11 }),
      column('Activities', '/activities', { width: 18 }),
      column('Owner', '/owner', { width: 18 }),
      column('Mitigation', '/mitigation/what', { width: 36 }),
      column('Chance after', '/mitigation/probabilityAfter', { width: 8 }),
      column('Its cost', '/mitigation/cost', { width: 11 }),
    ],
  },
  {
    at: '/correlations',
    title: 'Risks that come together',
    one: 'pair',
    columns: [column('Between', '/between', { width: 24 }), column('Correlation', '/r', { width: 10 })],
  },
  {
    at: '/scenarios',
    title: 'Scenarios',
    one: 'scenario',
    columns: [column('Name', '/name', { width: 28 }), column('Why', '/why', { width: 44 })],
  },
]
