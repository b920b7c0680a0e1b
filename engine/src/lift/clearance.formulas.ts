import { formula } from '../working/formula.ts'

/** Clearance to be kept to the wall. */
export const wallClearance = formula({
  id: 'lift.clearance.wall',
  title: 'Clearance to be kept to the wall of the shaft',
  source: { basis: 'derived', text: 'clearance + allowance of the wall inside the clear bore + tolerance of the pose' },
  gives: ['c', 'm'],
  from: {
    c0: ['m', 'clearance to be kept in the shaft'],
    w: ['m', 'allowance for the tolerance of the wall'],
    p: ['m', 'tolerance of the pose of the machine in plan'],
  },
  as: 'c0 + w + p',
})

/** Clearance to be kept to what is fixed in the shaft. */
export const fixedClearance = formula({
  id: 'lift.clearance.fixed',
  title: 'Clearance to be kept to what is fixed in the shaft',
  source: { basis: 'derived', text: 'clearance + tolerance of the pose' },
  gives: ['c', 'm'],
  from: {
    c0: ['m', 'clearance to be kept in the shaft'],
    p: ['m', 'tolerance of the pose of the machine in plan'],
  },
  as: 'c0 + p',
})

/** Tolerance of the pose at the edge of a piece. */
export const poseTolerance = formula({
  id: 'lift.clearance.pose',
  title: 'Tolerance of the pose in plan',
  source: { basis: 'derived', text: 'shifts together, and the roll at the radius of the shield' },
  gives: ['p', 'm'],
  from: {
    x: ['m', 'tolerance along'],
    y: ['m', 'tolerance across'],
    a: ['rad', 'tolerance of the roll'],
    D: ['m', 'diameter of the shield'],
  },
  as: 'sqrt(x^2 + y^2) + a * D / 2',
})
