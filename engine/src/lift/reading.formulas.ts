import { formula } from '../working/formula.ts'

/** Load reading above which something still holds. */
export const breakOutCeiling = formula({
  id: 'lift.reading.ceiling',
  title: 'Ceiling of the load reading at break-out',
  source: { basis: 'common practice', text: 'planned load × (1 + band of the reading); no source' },
  gives: ['C', 'kg'],
  from: { m: ['kg', 'planned load on the hook'], b: ['1', 'band about the planned load'] },
  as: 'm * (1 + b)',
})
