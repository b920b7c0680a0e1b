import { formula } from '../working/formula.ts'

/** Width of the fall zone outside what passes overhead. */
export const fallMargin = formula({
  id: 'lift.zone.margin',
  title: 'Width of the fall zone beside the outline of the piece',
  source: { basis: 'common practice', text: 'a width all round and a share of the height of fall; no source' },
  gives: ['r', 'm'],
  from: {
    r0: ['m', 'width kept all round'],
    k: ['1', 'width added per height'],
    h: ['m', 'greatest height of the lowest point over the ground'],
  },
  as: 'r0 + k * max(0, h)',
})
