import { formula } from '../working/formula.ts'

/** Room for what is drained. */
export const roomNeeded = formula({
  id: 'strip.drain.room',
  title: 'Room for what is drained at a step',
  source: { basis: 'common practice', text: 'a tenth over the volume; common practice, no source' },
  gives: ['R', 'm3'],
  from: { k: ['1', 'reserve'], V: ['m3', 'volume drained'] },
  as: 'k * V',
})
