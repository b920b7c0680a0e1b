import { formula } from '../working/formula.ts'

/** Height that the hook must reach. */
export const hookHeight = formula({
  id: 'lift.height.hook',
  title: 'Level that the hook must reach',
  source: { basis: 'derived', text: 'level to be cleared + clearance + hook above the lowest point of the piece' },
  gives: ['z', 'm'],
  from: {
    z0: ['m', 'highest level to be cleared, site z'],
    c: ['m', 'clearance to be kept over it'],
    h: ['m', 'hook above the lowest point of the hanging piece'],
  },
  as: 'z0 + c + h',
})

/** Top of the barrier around the shaft. */
export const barrierTop = formula({
  id: 'lift.height.barrier',
  title: 'Level of the top of the barrier around the shaft',
  source: { basis: 'derived', text: 'collar + barrier' },
  gives: ['z', 'm'],
  from: { c: ['m', 'collar, site z'], b: ['m', 'height of the barrier'] },
  as: 'c + b',
})
