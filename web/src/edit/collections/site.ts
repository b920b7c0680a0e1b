import { type Collection, column, note, plain, type Single } from './collection.ts'

/** Tables of the site. */
export const SITE: readonly (Collection | Single)[] = [
  {
    at: '/bays',
    title: 'Bays',
    one: 'bay',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 16 }),
      column('Centre', '/centre', { width: 16 }),
      column('Size', '/size', { width: 16 }),
      column('Level', '/level'),
      column('Allowable', '/allowable'),
      column('Bearing share', '/bearingShare', { width: 9 }),
      column('Piles', '/piles/count', { width: 7 }),
      column('Load of one', '/piles/workingLoad'),
      column('Construction', '/construction', { width: 34 }),
      note,
    ],
  },
  {
    at: '/utilities',
    title: 'Neighbours',
    one: 'neighbour',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Settlement: alert', '/settlement/alert', plain),
      column('Action', '/settlement/action', plain),
      column('Alarm', '/settlement/alarm', plain),
      column('Reading', '/settlement/reading', plain),
      column('On', '/settlement/on'),
      column('Clearance', '/clearance'),
      column('Axis', '/axis'),
      column('May press', '/allowable'),
      note,
    ],
  },
  {
    at: '/transports',
    title: 'Transports',
    one: 'transport',
    name: '/kind',
    columns: [
      column('Kind', '/kind', { width: 30 }),
      column('Payload', '/payload'),
      column('Own mass', '/selfMass'),
      column('Platform', '/platform', { width: 18 }),
      column('Takes', '/takes', { width: 30 }),
      column('To', '/to', { width: 14 }),
      column('Slope', '/maxSlope', { width: 8 }),
    ],
  },
  { at: '/climate', title: 'Wind and weather', without: ['/climate/months'] },
  {
    at: '/climate/months',
    title: 'Months',
    one: 'month',
    columns: [
      column('Scale', '/scale'),
      column('Shape', '/shape', { width: 8 }),
      column('Frost, days', '/frostDays', { width: 10 }),
      column('Fog, hours', '/fogHours', { width: 10 }),
    ],
  },
]
